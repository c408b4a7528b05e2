package silencer

import (
	"math"

	"hushwake/silencer/doubt"
	"hushwake/silencer/fourpole"
	"hushwake/source/spectrum"
)

// chain collects the four-poles of a line, element after element, from the inlet on.
type chain struct {
	setting
	gas    *conduit // that the element in work lies in
	hot    bool     // the reference: no water joins
	beside bool     // one of several branches: a loss without a phase is taken out of the branch itself
	weight float64  // share of the area of all branches, 1 for the line itself

	pieces fourpole.Chain
	first  fourpole.End
	last   fourpole.End
	begun  bool
	err    error

	places   int    // elements begun so far, those in branches too
	name     string // of the element in work
	row      int    // of it
	parts    []int  // of the gas's that belong to it
	bore     float64
	dry      *state // gas before the injection, in the reference
	trusts   []trust
	quotes   []quoted
	marks    []mark
	before   [][]float64 // by mark and frequency, see along
	stated   []statedLoss
	hoses    *hoseWalls // so far
	doubts   []doubt.Doubt
	notes    []string
	warnings []string
}

// setting is how the sound of a line is worked out, and what is known of its source.
type setting struct {
	wallLoss   fourpole.Loss
	corrected  fourpole.Corrections
	method     string // "" (modes where every part is centred) | modes | plane
	isothermal bool
	source     func() (duty, rated float64) // dB(A) re 1 pW; 0 = not known
	standIns   bool                         // plain pipes stand for some of its elements
	memo       map[oneMoreHose]*hoseWalls   // for all chains of the line
}

// quoted is the place of a stated silencer with the share of its branch.
type quoted struct {
	place  int
	weight float64
}

// mark is where an element begins in the chain, or where a branch ends (place 0).
type mark struct {
	place, pieces int
	end           fourpole.End
	stated        int      // losses in octaves that lie before it
	branches      []*chain // several side by side in it
}

// newChain is one without a piece along a conduit.
func newChain(s setting, gas *conduit, hot bool, room int) *chain {
	return &chain{setting: s, gas: gas, hot: hot, weight: 1, pieces: make(fourpole.Chain, 0, room)}
}

// begin goes on to the element of a row of the conduit; it comes out of a bore.
func (a *chain) begin(name string, row int, bore float64) {
	a.places++
	a.name, a.row, a.bore = name, row, bore
	a.parts = a.parts[:0]
	for i := range a.gas.stream.parts {
		if a.gas.stream.parts[i].row == row {
			a.parts = append(a.parts, i)
		}
	}
	a.marks = append(a.marks, mark{place: a.places, pieces: len(a.pieces), end: a.last, stated: len(a.stated)})
}

// keepDry lets the gas of the reference be that which meets the water.
func (a *chain) keepDry() {
	if a.hot && a.dry == nil {
		a.dry = a.stateAt(0)
	}
}

// finish joins the outlet's bore.
func (a *chain) finish(bore float64) {
	if a.begun {
		a.parts, a.row = a.parts[:0], math.MaxInt
		a.join(a.end(bore, 1))
	}
}

// fork begins the chain of one of several branches, from its share of the flow on.
func (a *chain) fork(gas *conduit, head fourpole.End, share float64) *chain {
	sub := newChain(a.setting, gas, a.hot, 0)
	sub.places, sub.beside, sub.weight = a.places, true, a.weight*head.Area/a.last.Area
	sub.first, sub.last, sub.begun = head, head, true
	if a.dry != nil {
		s := a.dry.shared(share)
		sub.dry = &s
	}
	return sub
}

// gather takes over what a branch tells of itself.
func (a *chain) gather(sub *chain) {
	a.places, a.trusts = sub.places, append(a.trusts, sub.trusts...)
	a.quotes = append(a.quotes, sub.quotes...)
	sub.closeWalls()
	for _, d := range sub.doubts {
		a.doubt(d.Term, d.Key, d.SD.Times(1/a.weight), d.Source) // the branch's share is in it
	}
	a.notes, a.warnings = append(a.notes, sub.notes...), append(a.warnings, sub.warnings...)
	m := &a.marks[len(a.marks)-1]
	m.branches = append(m.branches, sub)
}

// quoted notes that nothing but figures is known of the element.
func (a *chain) quoted() { a.quotes = append(a.quotes, quoted{a.places, a.weight}) }

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
		total += a.gas.stream.parts[i].duct.length
	}
	if total == 0 || share >= 1 {
		if share > 0.5 {
			return a.behind()
		}
		return &a.gas.stream.parts[a.parts[0]].state
	}
	return a.inside(share * total)
}

// inside is the gas at a distance into the element's ducts.
func (a *chain) inside(x float64) *state {
	for _, i := range a.parts {
		p := &a.gas.stream.parts[i]
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
	if i := a.parts[len(a.parts)-1] + 1; i < len(a.gas.stream.parts) {
		return a.gas.stream.parts[i].head()
	}
	return &a.gas.last
}

// next is the gas at the first part that comes after this row; an element without parts changes nothing.
func (a *chain) next() *state {
	for i := range a.gas.stream.parts {
		if a.gas.stream.parts[i].row > a.row {
			return a.gas.stream.parts[i].head()
		}
	}
	return &a.gas.last
}

// end is a cross-section of a bore at a share of the element's length.
func (a *chain) end(bore, share float64) fourpole.End {
	return a.stateAt(share).end(fourpole.CircleArea(bore))
}

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

// walls says what the walls of ducts take.
func (a *chain) walls() fourpole.Loss { return a.wallLoss }

// corrections says whether near fields at steps count.
func (a *chain) corrections() fourpole.Corrections { return a.corrected }

// modal says whether an element is to be solved by modes.
func (a *chain) modal(centred bool) bool {
	if a.method == modes && !centred {
		a.warn("is not centred: modes do not hold for it, plane waves are used")
	}
	return centred && a.method != plane
}

// warn adds a caution about the element in work.
func (a *chain) warn(text string) { a.warnings = append(a.warnings, a.name+": "+text) }

// note says how the element in work was treated.
func (a *chain) note(text string) { a.notes = append(a.notes, a.name+": "+text) }

// told says whether notes and doubts of the chain are read: of the line itself, not of what stands in for parts of it.
func (a *chain) told() bool { return !a.standIns }

// trusted notes how far the element's model goes.
func (a *chain) trusted(t trust) {
	t.place, t.name, t.bore, t.weight = a.places, a.name, a.bore, a.weight
	if t.holds == 0 {
		t.holds, t.until = planeReach*t.cutOn, "modes that do not travel yet"
	}
	a.trusts = append(a.trusts, t)
}
