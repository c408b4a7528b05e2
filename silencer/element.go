// Package silencer models an exhaust line: elements in order from manifold to outlet, the march of
// the gas state, back pressure, transmission and insertion loss, self-noise, what the shell gives off,
// heat and growth. SI units throughout. It knows nothing of boats or listeners.
package silencer

// Element is one part of an exhaust line. A new kind is one file with these methods.
type Element interface {
	// Kind is the name of the element as the boat file spells it.
	Kind() string
	// Base gives the fields every element has.
	Base() *Common
	// form is its outer form: ports, length, outer size, mass.
	form() form
	// flow puts what the gas meets into the stream, in order.
	flow(*stream)
	// sound puts its four-poles into the chain, in order.
	sound(*chain)
}

// Lagging is insulation round an element; zero thickness means bare.
type Lagging struct {
	Thickness float64 // m
	Material  string
	// Conductivity in W/(m K), held over temperature, and the highest temperature in K are an owner's own
	// figures with their source; 0 = by Material.
	Conductivity, MaxTemperature float64
	Source                       string
}

// Common holds what every element has.
type Common struct {
	Name     string
	In       string // the space its shell radiates into; "" = not stated
	Material string // of the wall; "" = default by kind
	Mass     *float64
	Price    *float64
	Lagging  Lagging
	Envelope []float64 // clear space in m, two cross sizes and optionally a length; nil = not stated
	// Clearance is what the owner wants between the outside and combustibles, m; 0 = not stated.
	Clearance float64
}

// Base gives the common fields.
func (c *Common) Base() *Common { return c }

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

// Each visits the elements in order; those in branches stand in for the parallel part that holds them.
func (l *Line) Each(visit func(Element)) { eachElement(l.Elements, visit) }

func eachElement(list []Element, visit func(Element)) {
	for _, e := range list {
		p, ok := e.(*Parallel)
		if !ok {
			visit(e)
			continue
		}
		for _, b := range p.Branches {
			eachElement(b, visit)
		}
	}
}
