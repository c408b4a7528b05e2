package boatfile

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
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

	root *decode.Node
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
	root, problems := decode.Parse(data)
	if root != nil && !isCase(root) {
		problems = append(problems, decode.Problem{Message: "this is no measured case: it has no case section",
			Hint: "hushwake calibrate FILE --record OUT writes one from a boat file with readings"})
		root = nil
	}
	if root == nil {
		return nil, decode.Placed(name, data, problems)
	}
	c, err := decodeCase(name, data, root, problems)
	if err != nil {
		return nil, err
	}
	return c, c.tryEnds()
}

// isCase tells a measured case from a boat file.
func isCase(n *decode.Node) bool {
	k, _ := n.Find("case")
	return k != nil
}

func decodeCase(name string, data []byte, root *decode.Node, problems []decode.Problem) (*Case, error) {
	r := newReader(problems)
	r.Folder = folderOf(name)
	c := r.measured(root)
	if c.Boat.File, c.Boat.Hash = name, digits(data); len(r.Problems) > 0 {
		return nil, decode.Placed(name, data, r.Problems)
	}
	c.Boat.Assumptions, c.Boat.Warnings = r.Assumptions, r.Warnings
	c.File, c.root, c.data = name, root, data
	return c, nil
}

// measured decodes the sections of a case.
func (r *reader) measured(n *decode.Node) *Case {
	o := r.Object(n, "the case file")
	h := r.Object(o.Get("case"), "case")
	c := &Case{ID: h.MustText("id", "a-short-name"), Title: h.MustText("title", "what was measured, in a line"),
		Source: h.MustText("source", "where the figures stand"), Date: h.Text("date"), Instrument: h.Text("instrument")}
	common := CaseRow{Group: h.Word("group", CaseGroups...), SetsConstant: setsConstant(h)}
	h.Done()
	c.Boat = &path.Boat{}
	if b := o.Must("boat", "{engines: ..., listeners: ..., layouts: ...}"); b != nil {
		if k, _ := b.Find("readings"); k != nil {
			r.Wrong(k, "move them to rows of the case", "a case is predicted without its readings")
		}
		c.Boat = r.boat(b)
		r.ListShared()
	}
	r.duties(o.Get("duties"), c)
	for i, item := range r.List(o.Get("assumed"), "assumed", 0, decode.Most) {
		c.Assumed = append(c.Assumed, r.assumedInput(i, item, n))
	}
	for i, item := range r.List(o.Must("rows", "[{id: helm, listener: helm, measured: 71 dBA}]"), "rows", 1, decode.Most) {
		c.Rows = append(c.Rows, r.caseRow(i, item, common, c))
	}
	o.Done()
	return c
}

// setsConstant reads the name of the constant that rests on a reading; "no" and nothing mean none.
func setsConstant(o *decode.Object) string {
	if t := o.Text("sets_constant"); !strings.EqualFold(t, "no") {
		return t
	}
	return ""
}

func (r *reader) duties(n *decode.Node, c *Case) {
	c.Duties = map[string]path.Reading{}
	s := r.Section(n, "duties")
	for i, k := range s.Keys {
		o := r.Object(s.Values[i], "duties."+k.Text)
		d := path.Reading{RunEngine: o.Text("engine"), Open: o.Texts("open")}
		d.RunSpeed, _ = o.Value("speed", decode.Positive, quantity.RotationalSpeed)
		d.RunPower, _ = o.Value("power", decode.Positive, quantity.Power)
		o.Done()
		c.Duties[k.Text] = d
		for _, l := range c.Boat.Layouts {
			if _, err := l.ForReading(d); err != nil {
				text, hint, _ := strings.Cut(err.Error(), "\nhint: ")
				r.Wrong(k, hint, "%s: %s", o.Path, text)
			}
		}
	}
}

func (r *reader) caseRow(i int, n *decode.Node, row CaseRow, c *Case) CaseRow {
	o := r.Object(n, fmt.Sprintf("rows[%d]", i+1))
	row.ID, row.Note = o.MustText("id", "helm-1500"), o.Text("note")
	if slices.ContainsFunc(c.Rows, func(x CaseRow) bool { return x.ID == row.ID }) {
		r.Wrong(n, "give each row an id of its own", "duplicate row id %q", spelling.Clip(row.ID))
	}
	if g := o.Word("group", CaseGroups...); g != "" {
		row.Group = g
	}
	if row.Group == "" {
		r.Wrong(n, "group: "+CaseGroups[0], "%s belongs to no group; there are %s", o.Path, strings.Join(CaseGroups, ", "))
	}
	if o.Has("sets_constant") {
		row.SetsConstant = setsConstant(o)
	} else {
		o.Raw("sets_constant")
	}
	row.Seat = r.seat(o, c)
	if less := o.Get("less"); less != nil {
		l := r.Object(less, o.Path+".less")
		s := r.seat(l, c)
		row.Less = &s
		l.Done()
	}
	r.measuredLevel(o, &row)
	row.Bands = r.Bands(o.Get("bands"), o.Path)
	o.Done()
	return row
}

// seat reads where and how a figure was measured, and checks every name.
func (r *reader) seat(o *decode.Object, c *Case) Seat {
	s := Seat{Listener: o.Text("listener"), SoundPower: o.Word("sound_power", "exhaust", "casing"), Engine: o.Text("engine"),
		Layout: o.Text("layout"), Duty: o.Text("duty")}
	if (s.Listener == "") == (s.SoundPower == "") {
		r.Wrong(o.At, "listener: helm", "%s names no place: give listener, or sound_power", o.Path)
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
		if _, at := o.At.Find(x.key); x.name != "" {
			r.known(at, o.Path+" "+x.key, x.name, x.allowed)
		}
	}
	return s
}

// measuredLevel reads measured, a figure or [from, to], or one of the two limits.
func (r *reader) measuredLevel(o *decode.Object, row *CaseRow) {
	most, least, value := o.Get("at_most"), o.Get("at_least"), o.Get("measured")
	stated := 0
	for _, n := range []*decode.Node{most, least, value} {
		if n != nil {
			stated++
		}
	}
	if stated != 1 {
		r.Wrong(o.At, "measured: 71 dBA, or measured: [70 dBA, 73 dBA]", "%s needs one of measured, at_most, at_least", o.Path)
		return
	}
	switch {
	case most != nil:
		row.High = r.levelOf(most, o.Path+" at_most", row)
	case least != nil:
		row.Low = r.levelOf(least, o.Path+" at_least", row)
	case value.Kind == decode.Sequence:
		if ends := r.List(value, o.Path+" measured", 2, 2); ends != nil {
			row.Low, row.High = r.levelOf(ends[0], o.Path+" measured", row), r.levelOf(ends[1], o.Path+" measured", row)
		}
	default:
		row.Low = r.levelOf(value, o.Path+" measured", row)
		row.High = row.Low
	}
	if row.Low != nil && row.High != nil && *row.Low > *row.High {
		r.Wrong(value, "write the lower figure first", "%s: the range ends below its beginning", o.Path)
	}
}

// levelOf reads a level, or for a difference one that may be negative and bear a plain dB.
func (r *reader) levelOf(n *decode.Node, what string, row *CaseRow) *float64 {
	lim, dims := decode.Limits{Min: 0, Max: 180}, []quantity.Dim{quantity.LevelA, quantity.LevelC}
	if row.Less != nil {
		lim, dims = decode.Limits{Min: -120, Max: 120}, []quantity.Dim{quantity.LevelA, quantity.LevelC, quantity.Level}
	}
	q, ok := r.Quantity(n, what, lim, dims...)
	if !ok {
		return nil
	}
	if row.Weighting = "A"; q.Dim == quantity.LevelC {
		row.Weighting = "C"
	}
	return &q.Value
}
