// Package silencer models an exhaust line: elements in order from manifold to outlet, the march of
// the gas state, back pressure, transmission and insertion loss, self-noise, what the shell gives off,
// heat and growth. SI units throughout. It knows nothing of boats or listeners.
package silencer

import (
	"hushwake/silencer/chain"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
)

// Element is one part of an exhaust line and answers all that is asked of its kind. A new kind is one file with
// Kind, form, flow and sound; what it does not say of the rest is answered by the Common that it embeds.
type Element interface {
	// Kind is the name of the element as the boat file spells it.
	Kind() string
	// Base gives the fields every element has.
	Base() *Common
	// Form is its outer form: ports, length, outer size, mass, and what it is there for.
	Form() Form
	// flow puts what the gas meets into the stream, in order.
	flow(*march.Stream)
	// sound puts its four-poles into the chain, in order.
	sound(*chain.Chain)

	// Within is what it holds side by side, branch by branch; nil for most.
	Within() [][]Element
	// Injects is the water that joins the gas in it, nil = none.
	Injects() *WaterInjection
	// Quoted is what is only stated of it, nil = its inside is known.
	Quoted() *Given
	// LossSD is how far its pressure loss may be off, relative standard deviation; judgement.
	LossSD() float64
	// usual is what its wall is made of where that is not stated, "" = mild steel.
	usual() string
	// model names what one model error can be shared by, "" = its kind, and the sizes, all above 0, that its
	// sound depends on; bore is that of the line, m.
	model(bore float64) (shared string, sizes []float64)
	// instead puts what stays of it above its cut-on into the chain; false = a plain pipe of its length.
	instead(*chain.Chain) bool
	// WaterSide is what of it meets water, for those who look for what is wrong there.
	WaterSide() WaterSide
	// sizing opens its dimensions to a search, as SizeOf; nil = none to choose.
	sizing(bore, maxLength, maxDiameter float64) *Sizing
	// cuts is what to order for it, nil = one piece by its form.
	cuts() []Cut
	// check says which of its dimensions cannot be.
	check() error
}

// Lagging is insulation round an element; zero thickness means bare.
type Lagging = loss.Lagging

// Common holds what every element has.
type Common struct {
	Name     string
	In       string  // the space its shell radiates into; "" = not stated
	Unstated float64 `json:",omitempty"` // dB, what sizes that are not stated add to the doubt of its loss
	Material string  // of the wall; "" = default by kind
	Mass     *float64
	Price    *float64
	Lagging  Lagging
	Envelope []float64 // clear space in m, two cross sizes and optionally a length; nil = not stated
	// Clearance is what the owner wants between the outside and combustibles, m; 0 = not stated.
	Clearance float64
}

// Base gives the common fields.
func (c *Common) Base() *Common { return c }

// Within is nothing for most kinds.
func (*Common) Within() [][]Element { return nil }

// Injects is nothing for most kinds.
func (*Common) Injects() *WaterInjection { return nil }

// Quoted is nothing for most kinds.
func (*Common) Quoted() *Given { return nil }

// WaterSide is dry for most kinds.
func (*Common) WaterSide() WaterSide { return WaterSide{} }

// LossSD of one-phase flow in parts of known form.
func (*Common) LossSD() float64 { return 0.15 }

func (*Common) usual() string                            { return "" }
func (*Common) model(float64) (string, []float64)        { return "", nil }
func (*Common) instead(*chain.Chain) bool                { return false }
func (*Common) sizing(float64, float64, float64) *Sizing { return nil }
func (*Common) cuts() []Cut                              { return nil }
func (*Common) check() error                             { return nil }

// Bend is a bend in a pipe.
type Bend struct {
	Angle  float64 // rad
	Radius float64 // m, centreline; 0 = mitre
}

// Direction is where an outlet points.
type Direction [3]float64

// Outlet is the end of the line.
type Outlet struct {
	At         [3]float64 // m, ship's axes
	Pointing   Direction  // unit vector
	Bore       float64    // m
	BelowWater float64    // m of the mouth's axis under the waterline; 0 = above
	Waves      float64    // m, standard deviation of the level at it; 0 = usual
	Present    bool       // false on a bench without outlet
}

// Height is that of the mouth's axis over the waterline, m; negative = below.
func (o Outlet) Height() float64 {
	if o.BelowWater > 0 {
		return -o.BelowWater
	}
	return o.At[2]
}

// Line is an exhaust line.
type Line struct {
	Elements []Element
	Outlet   Outlet
}

// Injection is the first water injection among the line's own elements with its 1-based place, nil = none.
func (l *Line) Injection() (*WaterInjection, int) {
	for n, e := range l.Elements {
		if w := e.Injects(); w != nil {
			return w, n + 1
		}
	}
	return nil, 0
}

// Wet says whether water joins the gas anywhere in the line.
func (l *Line) Wet() (wet bool) {
	l.Each(func(e Element) { wet = wet || e.Injects() != nil })
	return wet
}

// HasBellows says whether a bellows anywhere in the line takes up growth and movement.
func (l *Line) HasBellows() (has bool) {
	l.Each(func(e Element) { has = has || e.Form().Bellows })
	return has
}

// Each visits the elements in order; those in branches stand in for the parallel part that holds them.
func (l *Line) Each(visit func(Element)) { eachElement(l.Elements, visit) }

func eachElement(list []Element, visit func(Element)) {
	for _, e := range list {
		branches := e.Within()
		if branches == nil {
			visit(e)
		}
		for _, b := range branches {
			eachElement(b, visit)
		}
	}
}
