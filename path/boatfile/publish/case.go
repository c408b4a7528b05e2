package publish

import (
	"fmt"
	"hash/fnv"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/overlay"
	"hushwake/silencer"
)

// NewCase writes an owner's boat file with readings as a measured case: the boat without what tells whose
// it is, and its sound readings as rows. left says which readings it doesn't hold, and why.
func NewCase(name string, data []byte) (text []byte, left []string, err error) {
	b, err := boatfile.Load(name, data)
	if err != nil {
		return nil, nil, err
	}
	root, _ := decode.Parse(data)
	root = overlay.WrittenOut(&decode.Reader{}, root)
	if is, _ := root.Find("case"); is != nil {
		return nil, nil, fmt.Errorf("%s is a measured case already\nhint: give a boat file with readings", name)
	}
	_, readings := root.Find("readings")
	out := decode.MappingOf("case", caseHead(data))
	duties, rows := &decode.Node{Kind: decode.Mapping}, &decode.Node{Kind: decode.Sequence}
	for _, m := range b.Readings {
		row, why := newRow(b, m, readings.Items[m.Index-1], duties)
		if why != "" {
			left = append(left, fmt.Sprintf("reading %d: %s", m.Index, why))
			continue
		}
		rows.Items = append(rows.Items, row)
	}
	if len(rows.Items) == 0 {
		return nil, left, fmt.Errorf("%s holds no sound reading at a listener\nhint: 'hushwake survey %s' lists what to measure and how", name, name)
	}
	if len(duties.Keys) > 0 {
		out.Put("duties", duties)
	}
	out.Put("rows", rows)
	out.Put("boat", root)
	text, err = stripCase(out).Encode()
	if err != nil {
		return nil, left, err
	}
	_, err = boatfile.LoadCase("the case of "+name, text)
	return text, left, err
}

// stripCase replaces names alike in the boat, the rows and the duties.
func stripCase(c *decode.Node) *decode.Node {
	_, boat := c.Find("boat")
	names, materials := ownNames(boat)
	out := &decode.Node{Kind: decode.Mapping}
	for i, k := range c.Keys {
		v := c.Values[i]
		if k.Text != "case" {
			v = without(v, names, materials)
		}
		out.Put(k.Text, v)
	}
	return out
}

func caseHead(data []byte) *decode.Node {
	h := fnv.New32a()
	h.Write(data)
	c := &decode.Node{Kind: decode.Mapping}
	for _, kv := range [][2]string{{"id", fmt.Sprintf("owner-%08x", h.Sum32())}, {"title", "a boat as its owner describes it"},
		{"source", "the owner's own readings"}, {"date", "unknown"}, {"sets_constant", "no"}} {
		c.Put(kv[0], decode.TextNode(kv[1]))
	}
	return c
}

// newRow turns a reading into a row; why says that it can't be.
func newRow(b *path.Boat, m path.Reading, at, duties *decode.Node) (row *decode.Node, why string) {
	if m.Listener == "" || m.Level == nil && m.Bands == nil {
		return nil, "no sound at a listener"
	}
	if m.Bound != "" {
		return nil, "a bound, no figure"
	}
	if strike, _ := at.Find("strike"); strike != nil {
		return nil, "struck"
	}
	level, note, why := measured(m)
	l := b.Layouts[0]
	if m.Layout != "" {
		l, _ = b.Layout(m.Layout)
	}
	if _, err := l.ForReading(m); err != nil && why == "" {
		why, _, _ = strings.Cut(err.Error(), "\n")
	}
	if why != "" {
		return nil, why
	}
	row = &decode.Node{Kind: decode.Mapping}
	row.Put("id", decode.TextNode(fmt.Sprintf("reading-%d", m.Index)))
	row.Put("group", decode.TextNode(groupOf(b, l, m.Listener)))
	row.Put("listener", decode.TextNode(m.Listener))
	row.Put("layout", decode.TextNode(l.Name))
	if d := dutyNode(at); d != nil {
		row.Put("duty", decode.TextNode(nameIn(duties, d)))
	}
	row.Put("measured", decode.TextNode(level))
	if note != "" {
		row.Put("note", decode.TextNode(note))
	}
	return row, ""
}

// measured is the level without its background, with its unit. Under 3 dB over the background a reading
// says nothing (survey methods of sound measurement, common practice).
func measured(m path.Reading) (level, note, why string) {
	v, unit := 0.0, "dBA"
	if m.Level != nil {
		v = *m.Level
	} else {
		v = m.Bands.DBA()
	}
	if m.Weighting == "C" && m.Level != nil {
		unit = "dBC"
	}
	if m.Background != nil && v-*m.Background < 10 {
		if v-*m.Background < 3 {
			return "", "", "within 3 dB of the background"
		}
		w := 10 * math.Log10(math.Pow(10, v/10)-math.Pow(10, *m.Background/10))
		v, note = w, fmt.Sprintf("corrected for the background by %.1f dB", v-w)
	}
	return fmt.Sprintf("%.1f %s", v, unit), note, ""
}

// dutyNode is how the engine ran and what stood open, as far as the reading says.
func dutyNode(reading *decode.Node) *decode.Node {
	d := &decode.Node{Kind: decode.Mapping}
	_, run := reading.Find("running")
	for _, key := range []string{"engine", "speed", "power"} {
		if _, v := run.Find(key); v != nil {
			d.Put(key, v)
		}
	}
	if _, open := reading.Find("open"); open != nil {
		d.Put("open", open)
	}
	if len(d.Keys) == 0 {
		return nil
	}
	return d
}

// nameIn gives the name under which an equal entry stands, adding it where there is none.
func nameIn(n, entry *decode.Node) string {
	for i, v := range n.Values {
		if slices.Equal(v.Texts(), entry.Texts()) {
			return n.Keys[i].Text
		}
	}
	name := fmt.Sprintf("duty %d", len(n.Keys)+1)
	n.Put(name, entry)
	return name
}

// groupOf guesses where a row belongs; whoever keeps the record may know better.
func groupOf(b *path.Boat, l *path.Layout, listener string) string {
	in := path.Outside
	for _, x := range b.Listeners {
		if x.Name == listener {
			in = x.In
		}
	}
	set := len(l.Engines) == 1 && l.Engines[0].Generator != nil
	switch {
	case slices.ContainsFunc(l.Engines, func(e path.Engine) bool { return e.In == in && in != path.Outside }):
		return "engine room"
	case in != path.Outside:
		return "cabin and wheelhouse"
	case set:
		return "generator"
	}
	return exhaustGroup(l)
}

func exhaustGroup(l *path.Layout) string {
	wet, silenced := false, false
	for _, x := range l.Exhausts {
		wet = wet || x.Line.Wet()
		silenced = silenced || slices.ContainsFunc(x.Line.Elements, silencer.Silencing)
	}
	switch {
	case wet && silenced:
		return "wet silenced"
	case wet:
		return "wet open"
	}
	return "dry stack"
}
