package interview

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path/boatfile/edit"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
)

var aboutOffers = []Question{{
	ID: "offers", Place: "/quotes", Words: "What did they quote?", Why: "Tap once for each offer. Leave empty what it doesn’t say: that becomes a question to send back.", Kind: OfParts, asked: whenever("quotes"), fill: putOffers,
	Parts:   []Part{{Kind: "offer", Words: "An offer", Picture: "silencer", Fields: []Field{{Words: "Name", Example: "offer A"}, {Words: "Makes it quieter by", Example: "25 dB"}, {Words: "Back pressure", Example: "3 kPa"}, {Words: "Price", Example: "900"}, {Words: "Length", Example: "900 mm"}}}},
	Default: "no offer", free: true, skip: leave,
}}

// offered is the layout that holds the offers.
const offered = "new silencer"

// putOffers writes the offers, and a layout in which each takes the place of the old silencer, or stands at the end.
func putOffers(d *draft, v *Interview, rows [][]string) {
	d.drop("/quotes")
	d.dropLayout(offered)
	if len(rows) == 0 {
		return
	}
	var all, names []string
	for i, row := range rows {
		name := offerName(row[1], i)
		if slices.Contains(names, scalar(name)) {
			d.fail("two offers are called %q\nhint: give each a name of its own, such as %s and %s 2", spelling.Clip(name), spelling.Clip(name), spelling.Clip(name))
		}
		loss := d.quieter(row[2])
		names = append(names, scalar(name))
		all = append(all, fmt.Sprintf("%s: {insertion_loss: %s, pressure_drop: %s, price: %s, length: %s}", scalar(name), loss, orUnknown(row[3]), orUnknown(row[4]), orUnknown(row[5])))
	}
	d.set("/quotes", "{"+strings.Join(all, ", ")+"}")
	one := "{one_of: {offers: [" + strings.Join(names, ", ") + "]}}"
	how := "replace: {silencer: " + one + "}"
	if !v.has("silencer") {
		how = "insert: {after: " + v.last() + ", elements: [" + one + "]}"
	}
	d.add("/layouts", "{name: "+offered+", like: as is, "+how+"}")
}

// offerName is what an offer is called; one without a maker has a letter.
func offerName(s string, i int) string {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "", "?", "-", "none", "no name", "unknown", "not known", "don't know", "don’t know":
		return "offer " + string(rune('A'+i%26))
	}
	return s
}

// quieter is by how much an offer makes it quieter, as the file has it.
func (d *draft) quieter(s string) string {
	if s == "" {
		return "unknown"
	}
	if q, err := quantity.ParseStated(s, quantity.Level, quantity.LevelA); err == nil && q.Value <= 0 {
		d.fail("%q makes nothing quieter\nhint: write the figure without its sign, such as 25 dB, or leave it empty", spelling.Clip(s))
	}
	return "{overall: " + scalar(s) + "}"
}

// layoutAt is the place of the layout of a name; "" = none.
func layoutAt(text []byte, name string) string {
	for i := 0; ; i++ {
		at := fmt.Sprintf("/layouts/%d", i)
		value, ok := getPlain(text, at+"/name")
		if !ok {
			return ""
		}
		if value == name {
			return at
		}
	}
}

func (d *draft) dropLayout(name string) {
	if at := layoutAt(d.text, name); at != "" {
		d.drop(at)
	}
}

// get is one of the figures of a list; false where there is none.
func get(text []byte, at string, i int) (string, bool) {
	return getPlain(text, fmt.Sprintf("%s/%d", at, i))
}

func getPlain(text []byte, at string) (string, bool) {
	value, ok := edit.Get(text, at)
	return edit.Plain(value), ok
}
