// Package chain puts the four-poles that elements add one behind the other, each at the gas of its place in the conduit, and
// keeps beside them what is taken out without a phase and how far each part is trusted. SI units, losses in dB; plane waves
// between the parts, so below the first cross mode of their bores.
package chain

import (
	"math"

	"hushwake/silencer/doubt"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/march"
	"hushwake/source/spectrum"
)

// Chain collects the four-poles of a line, element after element, from the inlet on.
type Chain struct {
	Setting
	Gas    *march.Conduit // that the element in work lies in
	hot    bool           // the reference: no water joins
	beside bool           // one of several branches: a loss without a phase is taken out of the branch itself
	Weight float64        // share of the area of all branches, 1 for the line itself

	Pieces fourpole.Chain
	First  fourpole.End
	Last   fourpole.End
	begun  bool
	Err    error

	Places   int    // elements begun so far, those in branches too
	name     string // of the element in work
	Row      int    // of it
	Parts    []int  // of the gas's that belong to it
	Bore     float64
	dry      *march.State // gas before the injection, in the reference
	Trusts   []Trust
	Quotes   []quoted
	Marks    []Mark
	Before   [][]float64 // by mark and frequency, see along
	Stated   []statedLoss
	hoses    *HoseWalls // so far
	doubts   []doubt.Doubt
	Notes    []string
	Warnings []string
}

// Setting is how the sound of a line is worked out, and what is known of its source.
type Setting struct {
	WallLoss   fourpole.Loss
	Corrected  fourpole.Corrections
	Method     string // "" (modes where every part is centred) | modes | plane
	Isothermal bool
	Source     func() (duty, rated float64) // dB(A) re 1 pW; 0 = not known
	StandIns   bool                         // plain pipes stand for some of its elements
	Memo       map[OneMoreHose]*HoseWalls   // for all chains of the line
}

// quoted is the place of a stated silencer with the share of its branch.
type quoted struct {
	Place  int
	Weight float64
}

// Mark is where an element begins in the chain, or where a branch ends (place 0).
type Mark struct {
	Place, Pieces int
	End           fourpole.End
	Stated        int      // losses in octaves that lie before it
	Branches      []*Chain // several side by side in it
}

// NewChain is one without a piece along a conduit.
func NewChain(s Setting, gas *march.Conduit, hot bool, room int) *Chain {
	return &Chain{Setting: s, Gas: gas, hot: hot, Weight: 1, Pieces: make(fourpole.Chain, 0, room)}
}

// Begin goes on to the element of a row of the conduit; it comes out of a bore.
func (a *Chain) Begin(name string, row int, bore float64) {
	a.Places++
	a.name, a.Row, a.Bore = name, row, bore
	a.Parts = a.Parts[:0]
	for i := range a.Gas.Stream.Parts {
		if a.Gas.Stream.Parts[i].Row == row {
			a.Parts = append(a.Parts, i)
		}
	}
	a.Marks = append(a.Marks, Mark{Place: a.Places, Pieces: len(a.Pieces), End: a.Last, Stated: len(a.Stated)})
}

// KeepDry lets the gas of the reference be that which meets the water.
func (a *Chain) KeepDry() {
	if a.hot && a.dry == nil {
		a.dry = a.StateAt(0)
	}
}

// Finish joins the outlet's bore.
func (a *Chain) Finish(bore float64) {
	if a.begun {
		a.Parts, a.Row = a.Parts[:0], math.MaxInt
		a.Join(a.End(bore, 1))
	}
}

// Fork begins the chain of one of several branches, from its share of the flow on.
func (a *Chain) Fork(gas *march.Conduit, head fourpole.End, share float64) *Chain {
	sub := NewChain(a.Setting, gas, a.hot, 0)
	sub.Places, sub.beside, sub.Weight = a.Places, true, a.Weight*head.Area/a.Last.Area
	sub.First, sub.Last, sub.begun = head, head, true
	if a.dry != nil {
		s := a.dry.Shared(share)
		sub.dry = &s
	}
	return sub
}

// Gather takes over what a branch tells of itself.
func (a *Chain) Gather(sub *Chain) {
	a.Places, a.Trusts = sub.Places, append(a.Trusts, sub.Trusts...)
	a.Quotes = append(a.Quotes, sub.Quotes...)
	sub.closeWalls()
	for _, d := range sub.doubts {
		a.doubt(d.Term, d.Key, d.SD.Times(1/a.Weight), d.Source) // the branch's share is in it
	}
	a.Notes, a.Warnings = append(a.Notes, sub.Notes...), append(a.Warnings, sub.Warnings...)
	m := &a.Marks[len(a.Marks)-1]
	m.Branches = append(m.Branches, sub)
}

// Quoted notes that nothing but figures is known of the element.
func (a *Chain) Quoted() { a.Quotes = append(a.Quotes, quoted{a.Places, a.Weight}) }

// TakeOut takes a loss out that comes in octaves without a phase: beside the chain, and in one of several
// branches as a stretch of pipe that reflects nothing.
func (a *Chain) TakeOut(loss spectrum.Bands) {
	s := statedLoss{loss}
	if !a.beside {
		a.Stated = append(a.Stated, s)
		return
	}
	a.Pieces = append(a.Pieces, attenuator{s, a.Last.Y()})
}

// StateAt is the gas at a share 0..1 of the element's length.
func (a *Chain) StateAt(share float64) *march.State {
	if a.dry != nil {
		return a.dry
	}
	if len(a.Parts) == 0 {
		return a.next()
	}
	total := 0.0
	for _, i := range a.Parts {
		total += a.Gas.Stream.Parts[i].Duct.Length
	}
	if total == 0 || share >= 1 {
		if share > 0.5 {
			return a.behind()
		}
		return &a.Gas.Stream.Parts[a.Parts[0]].State
	}
	return a.inside(share * total)
}

// inside is the gas at a distance into the element's ducts.
func (a *Chain) inside(x float64) *march.State {
	for _, i := range a.Parts {
		p := &a.Gas.Stream.Parts[i]
		if p.Kind != march.DuctPart {
			continue
		}
		if x <= p.Duct.Length {
			s := p.State
			n := len(s.Slices) - 1
			y := x / p.Duct.Length * float64(n)
			j := min(int(y), n-1)
			s.T = s.Slices[j] + (y-float64(j))*(s.Slices[j+1]-s.Slices[j])
			return &s
		}
		x -= p.Duct.Length
	}
	return a.behind()
}

// behind is the gas that leaves the element.
func (a *Chain) behind() *march.State {
	if i := a.Parts[len(a.Parts)-1] + 1; i < len(a.Gas.Stream.Parts) {
		return a.Gas.Stream.Parts[i].Head()
	}
	return &a.Gas.Last
}

// next is the gas at the first part that comes after this row; an element without parts changes nothing.
func (a *Chain) next() *march.State {
	for i := range a.Gas.Stream.Parts {
		if a.Gas.Stream.Parts[i].Row > a.Row {
			return a.Gas.Stream.Parts[i].Head()
		}
	}
	return &a.Gas.Last
}

// End is a cross-section of a bore at a share of the element's length. The bore is in m, the share from 0 to 1.
func (a *Chain) End(bore, share float64) fourpole.End {
	return a.StateAt(share).End(fourpole.CircleArea(bore))
}

// Add appends a piece that ends in the given cross-section.
func (a *Chain) Add(p fourpole.Piece, err error, end fourpole.End) {
	if err != nil {
		a.Err = err
		return
	}
	a.Pieces = append(a.Pieces, p)
	a.Last = end
}

// Join brings the chain to a cross-section: an area step, a temperature step, both or nothing.
func (a *Chain) Join(e fourpole.End) {
	if !a.begun {
		a.First, a.Last, a.begun = e, e, true
		return
	}
	if a.Err != nil {
		return
	}
	if math.Abs(a.Last.Area-e.Area) > 2e-3*math.Max(a.Last.Area, e.Area) {
		p, err := fourpole.NewStep(a.Last, e, a.Corrections())
		a.Add(p, err, e)
		return
	}
	if a.Last.Medium.SoundSpeed != e.Medium.SoundSpeed || a.Last.Medium.Density != e.Medium.Density {
		p, err := fourpole.NewTemperatureStep(a.Last.Medium, e.Medium)
		a.Add(p, err, e)
		return
	}
	a.Last = e
}

// Run is the whole element as one pipe, with or without water in it. Both are in m.
func (a *Chain) Run(bore, length float64) {
	if a.StateAt(0).Liquid == 0 || length <= 0 {
		a.Stretch(bore, length, 0, 1)
		return
	}
	a.WetRun(bore, length, a.lost()/length, a.rise())
}

// Stretch is a pipe without water over a share of the element; a temperature that falls by more than 1 % is followed in
// 8 slices or more. Bore and length are in m; from and to are shares of the element, 0 to 1.
func (a *Chain) Stretch(bore, length, from, to float64) {
	head, tail := a.End(bore, from), a.End(bore, to)
	if length <= 0 {
		a.Join(head)
		return
	}
	n := SlicesFor(head, tail)
	for i := range n {
		mid := a.End(bore, from+(to-from)*(float64(i)+0.5)/float64(n))
		a.Join(mid)
		d, err := fourpole.NewDuct(mid.Medium, bore, length/float64(n), mid.Mach, a.Walls())
		a.Add(d, err, mid)
	}
}

// SlicesFor is in how many slices the temperature between two ends is followed.
func SlicesFor(head, tail fourpole.End) int {
	if fall := math.Abs(tail.Medium.SoundSpeed/head.Medium.SoundSpeed - 1); fall > 0.005 {
		return max(8, int(math.Ceil(fall/0.01)))
	}
	return 1
}

// Walls says what the walls of ducts take.
func (a *Chain) Walls() fourpole.Loss { return a.WallLoss }

// Corrections says whether near fields at steps count.
func (a *Chain) Corrections() fourpole.Corrections { return a.Corrected }

// modal says whether an element is to be solved by modes.
func (a *Chain) modal(centred bool) bool {
	if a.Method == Modes && !centred {
		a.Warn("is not centred: modes do not hold for it, plane waves are used")
	}
	return centred && a.Method != Plane
}

// Warn adds a caution about the element in work.
func (a *Chain) Warn(text string) { a.Warnings = append(a.Warnings, a.name+": "+text) }

// Note says how the element in work was treated.
func (a *Chain) Note(text string) { a.Notes = append(a.Notes, a.name+": "+text) }

// isRead says whether notes and doubts of the chain are read: of the line itself, not of what stands in for parts of it.
func (a *Chain) isRead() bool { return !a.StandIns }

// Trusted notes how far the element's model goes.
func (a *Chain) Trusted(t Trust) {
	t.Place, t.Name, t.Bore, t.Weight = a.Places, a.name, a.Bore, a.Weight
	if t.holds == 0 {
		t.holds, t.until = planeReach*t.CutOn, "modes that do not travel yet"
	}
	a.Trusts = append(a.Trusts, t)
}
