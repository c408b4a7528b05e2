package boatfile

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/source/spectrum"
)

// CaseGroups are the kinds of places and sources that measured rows are grouped by.
var CaseGroups = []string{"wet open", "wet silenced", "dry stack", "engine room", "cabin and wheelhouse", "generator", "box",
	"source spectra", "over water"}

// Case is a measured boat, engine or box: what is known of it, which inputs are assumed and within
// which spans, and what was measured. The boat itself holds the inputs as the file states them.
type Case struct {
	File, ID, Title          string
	Source, Date, Instrument string
	Assumed                  []Assumed
	Duties                   map[string]path.Reading // running and open doors by name; only RunEngine, RunSpeed, RunPower and Open are set
	Rows                     []CaseRow
	Boat                     *path.Boat

	root *node
	data []byte
}

// CaseRow is one measured figure. Low and High are equal for a plain reading; Low is nil for a limit
// that is kept, High for one that is exceeded.
type CaseRow struct {
	ID, Group, Note string
	Seat            Seat
	Less            *Seat // a difference: the level here less that at Less
	Low, High       *float64
	Weighting       string          // A | C
	Bands           *spectrum.Bands // octaves of the same weighting, nil = none; shown, not counted
	SetsConstant    string          // the constant that rests on this row, which then proves nothing; "" = none
}

// Seat is where and how something was measured: a listener, or the sound power of a part of an engine.
type Seat struct {
	Listener, SoundPower, Engine string
	Layout, Duty                 string
}

// String says it in words.
func (s Seat) String() string {
	text := s.Listener
	if s.SoundPower != "" {
		text = "sound power of the " + s.SoundPower
	}
	for _, more := range []string{s.Layout, s.Duty} {
		if more != "" {
			text += ", " + more
		}
	}
	return text
}

// LoadCase decodes a file of a measured case. The error of a bad file is *Errors.
func LoadCase(name string, data []byte) (*Case, error) {
	root, problems := parseTree(data)
	if root != nil && !isCase(root) {
		problems = append(problems, Problem{Message: "this is no measured case: it has no case section",
			Hint: "hushwake calibrate FILE --record OUT writes one from a boat file with readings"})
		root = nil
	}
	if root == nil {
		return nil, placed(name, data, problems)
	}
	c, err := decodeCase(name, data, root, problems)
	if err != nil {
		return nil, err
	}
	return c, c.tryEnds()
}

// isCase tells a measured case from a boat file.
func isCase(n *node) bool {
	k, _ := n.find("case")
	return k != nil
}

func decodeCase(name string, data []byte, root *node, problems []Problem) (*Case, error) {
	r := newReader(problems)
	r.folder = folderOf(name)
	c := r.measured(root)
	if c.Boat.File, c.Boat.Hash = name, digits(data); len(r.problems) > 0 {
		return nil, placed(name, data, r.problems)
	}
	c.Boat.Assumptions, c.Boat.Warnings = r.assumptions, r.warnings
	c.File, c.root, c.data = name, root, data
	return c, nil
}

// measured decodes the sections of a case.
func (r *reader) measured(n *node) *Case {
	o := r.object(n, "the case file")
	h := r.object(o.get("case"), "case")
	c := &Case{ID: h.mustText("id", "a-short-name"), Title: h.mustText("title", "what was measured, in a line"),
		Source: h.mustText("source", "where the figures stand"), Date: h.text("date"), Instrument: h.text("instrument")}
	common := CaseRow{Group: h.word("group", CaseGroups...), SetsConstant: setsConstant(h)}
	h.done()
	c.Boat = &path.Boat{}
	if b := o.must("boat", "{engines: ..., listeners: ..., layouts: ...}"); b != nil {
		if k, _ := b.find("readings"); k != nil {
			r.wrong(k, "move them to rows of the case", "a case is predicted without its readings")
		}
		c.Boat = r.boat(b)
		r.listShared()
	}
	r.duties(o.get("duties"), c)
	for i, item := range r.list(o.get("assumed"), "assumed", 0, many) {
		c.Assumed = append(c.Assumed, r.assumedInput(i, item, n))
	}
	for i, item := range r.list(o.must("rows", "[{id: helm, listener: helm, measured: 71 dBA}]"), "rows", 1, many) {
		c.Rows = append(c.Rows, r.caseRow(i, item, common, c))
	}
	o.done()
	return c
}

// setsConstant reads the name of the constant that rests on a reading; "no" and nothing mean none.
func setsConstant(o *object) string {
	if t := o.text("sets_constant"); !strings.EqualFold(t, "no") {
		return t
	}
	return ""
}

func (r *reader) duties(n *node, c *Case) {
	c.Duties = map[string]path.Reading{}
	s := r.section(n, "duties")
	for i, k := range s.keys {
		o := r.object(s.values[i], "duties."+k.text)
		d := path.Reading{RunEngine: o.text("engine"), Open: o.texts("open")}
		d.RunSpeed, _ = o.value("speed", positive, quantity.RotationalSpeed)
		d.RunPower, _ = o.value("power", positive, quantity.Power)
		o.done()
		c.Duties[k.text] = d
		for _, l := range c.Boat.Layouts {
			if _, err := l.ForReading(d); err != nil {
				text, hint, _ := strings.Cut(err.Error(), "\nhint: ")
				r.wrong(k, hint, "%s: %s", o.path, text)
			}
		}
	}
}

func (r *reader) caseRow(i int, n *node, row CaseRow, c *Case) CaseRow {
	o := r.object(n, fmt.Sprintf("rows[%d]", i+1))
	row.ID, row.Note = o.mustText("id", "helm-1500"), o.text("note")
	if slices.ContainsFunc(c.Rows, func(x CaseRow) bool { return x.ID == row.ID }) {
		r.wrong(n, "give each row an id of its own", "duplicate row id %q", spelling.Clip(row.ID))
	}
	if g := o.word("group", CaseGroups...); g != "" {
		row.Group = g
	}
	if row.Group == "" {
		r.wrong(n, "group: "+CaseGroups[0], "%s belongs to no group; there are %s", o.path, strings.Join(CaseGroups, ", "))
	}
	if o.has("sets_constant") {
		row.SetsConstant = setsConstant(o)
	} else {
		o.raw("sets_constant")
	}
	row.Seat = r.seat(o, c)
	if less := o.get("less"); less != nil {
		l := r.object(less, o.path+".less")
		s := r.seat(l, c)
		row.Less = &s
		l.done()
	}
	r.measuredLevel(o, &row)
	row.Bands = r.bands(o.get("bands"), o.path)
	o.done()
	return row
}

// seat reads where and how a figure was measured, and checks every name.
func (r *reader) seat(o *object, c *Case) Seat {
	s := Seat{Listener: o.text("listener"), SoundPower: o.word("sound_power", "exhaust", "casing"), Engine: o.text("engine"),
		Layout: o.text("layout"), Duty: o.text("duty")}
	if (s.Listener == "") == (s.SoundPower == "") {
		r.wrong(o.n, "listener: helm", "%s names no place: give listener, or sound_power", o.path)
	}
	var listeners, layouts, engines, duties []string
	for _, l := range c.Boat.Listeners {
		listeners = append(listeners, l.Name)
	}
	for _, l := range c.Boat.Layouts {
		layouts = append(layouts, l.Name)
	}
	if len(c.Boat.Layouts) > 0 {
		for _, e := range c.Boat.Layouts[0].Engines {
			engines = append(engines, e.Name)
		}
	}
	for d := range c.Duties {
		duties = append(duties, d)
	}
	slices.Sort(duties)
	for _, x := range []struct {
		key, name string
		allowed   []string
	}{{"listener", s.Listener, listeners}, {"layout", s.Layout, layouts}, {"engine", s.Engine, engines}, {"duty", s.Duty, duties}} {
		if _, at := o.n.find(x.key); x.name != "" {
			r.known(at, o.path+" "+x.key, x.name, x.allowed)
		}
	}
	return s
}

// measuredLevel reads measured, a figure or [from, to], or one of the two limits.
func (r *reader) measuredLevel(o *object, row *CaseRow) {
	most, least, value := o.get("at_most"), o.get("at_least"), o.get("measured")
	stated := 0
	for _, n := range []*node{most, least, value} {
		if n != nil {
			stated++
		}
	}
	if stated != 1 {
		r.wrong(o.n, "measured: 71 dBA, or measured: [70 dBA, 73 dBA]", "%s needs one of measured, at_most, at_least", o.path)
		return
	}
	switch {
	case most != nil:
		row.High = r.levelOf(most, o.path+" at_most", row)
	case least != nil:
		row.Low = r.levelOf(least, o.path+" at_least", row)
	case value.kind == sequence:
		if ends := r.list(value, o.path+" measured", 2, 2); ends != nil {
			row.Low, row.High = r.levelOf(ends[0], o.path+" measured", row), r.levelOf(ends[1], o.path+" measured", row)
		}
	default:
		row.Low = r.levelOf(value, o.path+" measured", row)
		row.High = row.Low
	}
	if row.Low != nil && row.High != nil && *row.Low > *row.High {
		r.wrong(value, "write the lower figure first", "%s: the range ends below its beginning", o.path)
	}
}

// levelOf reads a level, or for a difference one that may be negative and bear a plain dB.
func (r *reader) levelOf(n *node, what string, row *CaseRow) *float64 {
	lim, dims := limits{min: 0, max: 180}, []quantity.Dim{quantity.LevelA, quantity.LevelC}
	if row.Less != nil {
		lim, dims = limits{min: -120, max: 120}, []quantity.Dim{quantity.LevelA, quantity.LevelC, quantity.Level}
	}
	q, ok := r.quantity(n, what, lim, dims...)
	if !ok {
		return nil
	}
	if row.Weighting = "A"; q.Dim == quantity.LevelC {
		row.Weighting = "C"
	}
	return &q.Value
}
