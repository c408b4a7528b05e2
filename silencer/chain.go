package silencer

import (
	"fmt"
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/source/spectrum"
)

// chain collects the four-poles of a line, element after element, from the inlet on.
type chain struct {
	course *course
	opts   Options
	plain  standIn // elements that a plain pipe of the same length and bore stands for
	hot    bool    // the reference: no water joins
	beside bool    // one of several branches: a loss without a phase is taken out of the branch itself
	weight float64 // share of the area of all branches, 1 for the line itself

	pieces fourpole.Chain
	first  fourpole.End
	last   fourpole.End
	begun  bool
	err    error

	places   int   // elements begun so far, those in branches too
	element  int   // in work
	row      int   // of it
	parts    []int // of the stream that belong to it
	bore     float64
	dry      *state // gas before the injection, in the reference
	trusts   []trust
	quotes   []quoted
	marks    []mark
	before   [][]float64 // by mark and frequency, see along
	stated   []statedLoss
	hoses    *hoseWalls // so far
	doubts   []Doubt
	notes    []string
	warnings []string
}

// standIn says whether a plain pipe stands for the element at a place, and with which loss, dB.
type standIn func(place int, e Element) (ceiling float64, plain bool)

// trust is how far an element's model holds.
type trust struct {
	place   int // of the element, counted along the line and its branches
	name    string
	element Element
	bore    float64 // m, of the line there
	weight  float64 // of its branch
	cutOn   float64 // Hz
	first   float64 // Hz, first cross mode that a line as drawn excites
	across  float64 // Hz, first cross mode of any kind: the plane-wave limit
	ceiling float64 // dB above cutOn
	method  string
	why     string
	holds   float64 // Hz to which plane waves hold, 1 dB
	until   string  // why they end there
}

// chainOf lays the four-poles of the line out. plain may be nil.
func (c *course) chainOf(plain standIn, hot bool) (*chain, error) {
	a := &chain{course: c, opts: c.opts, plain: plain, hot: hot, weight: 1, pieces: make(fourpole.Chain, 0, 2*len(c.owner))}
	err := a.build()
	a.finish()
	if err == nil {
		err = a.err
	}
	if err != nil { // a neighbour complains too, in words of waves
		if choked := c.choked(); choked != nil {
			err = choked
		}
	}
	return a, err
}

func (a *chain) build() error {
	c := a.course
	for row, owner := range c.owner {
		if owner < 0 {
			continue
		}
		e := c.line.Elements[owner]
		a.begin(owner, row)
		if ceiling, plain := a.standIn(e); plain {
			a.asPipe(e, ceiling)
		} else {
			e.sound(a)
		}
		if a.err != nil {
			return fmt.Errorf("element %d (%s): %w", owner+1, e.Kind(), a.err)
		}
	}
	return nil
}

func (a *chain) standIn(e Element) (ceiling float64, plain bool) {
	if a.plain == nil {
		return 0, false
	}
	return a.plain(a.places, e)
}

func (a *chain) begin(element, row int) {
	a.places++
	a.element, a.row, a.bore = element, row, a.course.ports[element].in
	a.parts = a.parts[:0]
	for i := range a.course.stream.parts {
		if a.course.stream.parts[i].row == row {
			a.parts = append(a.parts, i)
		}
	}
	a.marks = append(a.marks, mark{course: a.course, element: element, row: row, pieces: len(a.pieces), end: a.last, stated: len(a.stated)})
	if w := a.course.line.Elements[element].Injects(); w != nil && w.Flow > 0 && a.hot && a.dry == nil {
		a.dry = a.stateAt(0)
	}
}

// finish joins the outlet's bore.
func (a *chain) finish() {
	if a.course.line.Outlet.Present && a.begun {
		a.element, a.parts, a.row = len(a.course.line.Elements), a.parts[:0], len(a.course.rows)-1
		a.join(a.end(a.course.outletBore(), 1))
	}
}

// asPipe stands in for a silencing element: same length, main bore, and a loss of its own.
func (a *chain) asPipe(e Element, loss float64) {
	if !e.instead(a) {
		a.stretch(a.bore, e.form().length, 0, 1)
	}
	if loss > 0 {
		a.takeOut(spectrum.Fill(loss))
	}
}

// takeOut takes a loss out that comes in octaves without a phase: beside the chain, and in one of several
// branches as a stretch of pipe that reflects nothing.
func (a *chain) takeOut(loss spectrum.Bands) {
	s := statedLoss{loss}
	if !a.beside {
		a.stated = append(a.stated, s)
		return
	}
	a.pieces = append(a.pieces, attenuator{s, a.last.Y()})
}

// stateAt is the gas at a share 0..1 of the element's length.
func (a *chain) stateAt(share float64) *state {
	if a.dry != nil {
		return a.dry
	}
	if len(a.parts) == 0 {
		return a.next()
	}
	total := 0.0
	for _, i := range a.parts {
		total += a.course.stream.parts[i].duct.length
	}
	if total == 0 || share >= 1 {
		if share > 0.5 {
			return a.behind()
		}
		return &a.course.stream.parts[a.parts[0]].state
	}
	return a.inside(share * total)
}

// inside is the gas at a distance into the element's ducts.
func (a *chain) inside(x float64) *state {
	for _, i := range a.parts {
		p := &a.course.stream.parts[i]
		if p.kind != ductPart {
			continue
		}
		if x <= p.duct.length {
			s := p.state
			n := len(s.slices) - 1
			y := x / p.duct.length * float64(n)
			j := min(int(y), n-1)
			s.t = s.slices[j] + (y-float64(j))*(s.slices[j+1]-s.slices[j])
			return &s
		}
		x -= p.duct.length
	}
	return a.behind()
}

// behind is the gas that leaves the element.
func (a *chain) behind() *state {
	if i := a.parts[len(a.parts)-1] + 1; i < len(a.course.stream.parts) {
		return a.course.stream.parts[i].head()
	}
	return &a.course.last
}

// next is the gas at the first part that comes after this row; an element without parts changes nothing.
func (a *chain) next() *state {
	for i := range a.course.stream.parts {
		if a.course.stream.parts[i].row > a.row {
			return a.course.stream.parts[i].head()
		}
	}
	return &a.course.last
}

// end is a cross-section of a bore at a share of the element's length.
func (a *chain) end(bore, share float64) fourpole.End { return a.stateAt(share).end(circle(bore)) }

// add appends a piece that ends in the given cross-section.
func (a *chain) add(p fourpole.Piece, err error, end fourpole.End) {
	if err != nil {
		a.err = err
		return
	}
	a.pieces = append(a.pieces, p)
	a.last = end
}

// join brings the chain to a cross-section: an area step, a temperature step, both or nothing.
func (a *chain) join(e fourpole.End) {
	if !a.begun {
		a.first, a.last, a.begun = e, e, true
		return
	}
	if a.err != nil {
		return
	}
	if math.Abs(a.last.Area-e.Area) > 2e-3*math.Max(a.last.Area, e.Area) {
		p, err := fourpole.NewStep(a.last, e, a.corrections())
		a.add(p, err, e)
		return
	}
	if a.last.Medium.SoundSpeed != e.Medium.SoundSpeed || a.last.Medium.Density != e.Medium.Density {
		p, err := fourpole.NewTemperatureStep(a.last.Medium, e.Medium)
		a.add(p, err, e)
		return
	}
	a.last = e
}

// run is the whole element as one pipe, with or without water in it.
func (a *chain) run(bore, length float64) {
	if a.stateAt(0).liquid == 0 || length <= 0 {
		a.stretch(bore, length, 0, 1)
		return
	}
	a.wetRun(bore, length, a.lost()/length, a.rise())
}

// stretch is a pipe without water over a share of the element; a temperature that falls by more than 1 % is followed
// in 8 slices or more.
func (a *chain) stretch(bore, length, from, to float64) {
	head, tail := a.end(bore, from), a.end(bore, to)
	if length <= 0 {
		a.join(head)
		return
	}
	n := slicesFor(head, tail)
	for i := range n {
		mid := a.end(bore, from+(to-from)*(float64(i)+0.5)/float64(n))
		a.join(mid)
		d, err := fourpole.NewDuct(mid.Medium, bore, length/float64(n), mid.Mach, a.walls())
		a.add(d, err, mid)
	}
}

// slicesFor is in how many slices the temperature between two ends is followed.
func slicesFor(head, tail fourpole.End) int {
	if fall := math.Abs(tail.Medium.SoundSpeed/head.Medium.SoundSpeed - 1); fall > 0.005 {
		return max(8, int(math.Ceil(fall/0.01)))
	}
	return 1
}

func (a *chain) walls() fourpole.Loss {
	if a.opts.Walls == "lossless" {
		return fourpole.Lossless
	}
	return fourpole.ViscoThermal
}

func (a *chain) corrections() fourpole.Corrections {
	return fourpole.Corrections(a.opts.Corrections != "none")
}

// modal says whether an element is to be solved by modes.
func (a *chain) modal(centred bool) bool {
	if a.opts.Method == "modes" && !centred {
		a.warn("is not centred: modes do not hold for it, plane waves are used")
	}
	return centred && a.opts.Method != "plane"
}

func (a *chain) name() string {
	if a.row < len(a.course.rows) {
		return a.course.rows[a.row].Name
	}
	return "line"
}

func (a *chain) warn(text string) { a.warnings = append(a.warnings, a.name()+": "+text) }

func (a *chain) note(text string) { a.notes = append(a.notes, a.name()+": "+text) }

// trusted notes how far the element's model goes.
func (a *chain) trusted(t trust) {
	t.place, t.name, t.element, t.bore, t.weight = a.places, a.name(), a.course.line.Elements[a.element], a.bore, a.weight
	if t.holds == 0 {
		t.holds, t.until = planeReach*t.cutOn, "modes that do not travel yet"
	}
	a.trusts = append(a.trusts, t)
}
