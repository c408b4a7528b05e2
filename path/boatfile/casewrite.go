package boatfile

import (
	"fmt"
	"hash/fnv"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/silencer"
)

// NewCase writes an owner's boat file with readings as a measured case: the boat without what tells whose
// it is, and its sound readings as rows. left says which readings it doesn't hold, and why.
func NewCase(name string, data []byte) (text []byte, left []string, err error) {
	b, err := Load(name, data)
	if err != nil {
		return nil, nil, err
	}
	root, _ := parseTree(data)
	root = newReader(nil).writtenOut(root)
	if isCase(root) {
		return nil, nil, fmt.Errorf("%s is a measured case already\nhint: give a boat file with readings", name)
	}
	_, readings := root.find("readings")
	out := mappingOf("case", caseHead(data))
	duties, rows := &node{kind: mapping}, &node{kind: sequence}
	for _, m := range b.Readings {
		row, why := newRow(b, m, readings.items[m.Index-1], duties)
		if why != "" {
			left = append(left, fmt.Sprintf("reading %d: %s", m.Index, why))
			continue
		}
		rows.items = append(rows.items, row)
	}
	if len(rows.items) == 0 {
		return nil, left, fmt.Errorf("%s holds no sound reading at a listener\nhint: 'hushwake survey %s' lists what to measure and how", name, name)
	}
	if len(duties.keys) > 0 {
		out.put("duties", duties)
	}
	out.put("rows", rows)
	out.put("boat", root)
	text, err = stripCase(out).encode()
	if err != nil {
		return nil, left, err
	}
	_, err = LoadCase("the case of "+name, text)
	return text, left, err
}

// stripCase replaces names alike in the boat, the rows and the duties.
func stripCase(c *node) *node {
	_, boat := c.find("boat")
	names, materials := ownNames(boat)
	out := &node{kind: mapping}
	for i, k := range c.keys {
		v := c.values[i]
		if k.text != "case" {
			v = without(v, names, materials)
		}
		out.put(k.text, v)
	}
	return out
}

func caseHead(data []byte) *node {
	h := fnv.New32a()
	h.Write(data)
	c := &node{kind: mapping}
	for _, kv := range [][2]string{{"id", fmt.Sprintf("owner-%08x", h.Sum32())}, {"title", "a boat as its owner describes it"},
		{"source", "the owner's own readings"}, {"date", "unknown"}, {"sets_constant", "no"}} {
		c.put(kv[0], textNode(kv[1]))
	}
	return c
}

// newRow turns a reading into a row; why says that it can't be.
func newRow(b *path.Boat, m path.Reading, at, duties *node) (row *node, why string) {
	if m.Listener == "" || m.Level == nil && m.Bands == nil {
		return nil, "no sound at a listener"
	}
	if m.Bound != "" {
		return nil, "a bound, no figure"
	}
	if strike, _ := at.find("strike"); strike != nil {
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
	row = &node{kind: mapping}
	row.put("id", textNode(fmt.Sprintf("reading-%d", m.Index)))
	row.put("group", textNode(groupOf(b, l, m.Listener)))
	row.put("listener", textNode(m.Listener))
	row.put("layout", textNode(l.Name))
	if d := dutyNode(at); d != nil {
		row.put("duty", textNode(nameIn(duties, d)))
	}
	row.put("measured", textNode(level))
	if note != "" {
		row.put("note", textNode(note))
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
func dutyNode(reading *node) *node {
	d := &node{kind: mapping}
	_, run := reading.find("running")
	for _, key := range []string{"engine", "speed", "power"} {
		if _, v := run.find(key); v != nil {
			d.put(key, v)
		}
	}
	if _, open := reading.find("open"); open != nil {
		d.put("open", open)
	}
	if len(d.keys) == 0 {
		return nil
	}
	return d
}

// nameIn gives the name under which an equal entry stands, adding it where there is none.
func nameIn(n, entry *node) string {
	for i, v := range n.values {
		if slices.Equal(v.texts(), entry.texts()) {
			return n.keys[i].text
		}
	}
	name := fmt.Sprintf("duty %d", len(n.keys)+1)
	n.put(name, entry)
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
