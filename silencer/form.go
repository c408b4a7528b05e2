package silencer

import (
	"math"

	"hushwake/silencer/loss"
	"hushwake/silencer/wet"
)

// Form is the outer form of an element. Zero in a port means "that of the neighbour".
type Form struct {
	In, Out   float64 // m, bores of its ports
	Length    float64 // m along the line
	Outer     float64 // m, largest outside size without lagging
	Tall      float64 // m, height of an upright vessel; 0 = lies along the line
	Body      float64 // m, bore of its shell; 0 = none
	Wall      float64 // m; 0 = by outer size and bore
	Mass      float64 // kg by its dimensions; 0 = cannot be told
	Centred   bool    // every part lies on the axis of its shell
	Silencing bool    // the plain-pipe reference has a plain pipe here
	Massless  bool    // nothing of it hangs on the line
	Unseen    bool    // its shell is known, its inside is not
	Holes     bool    // a perforate shares the doubt of all of them
	Tube      bool    // a plain run of gas: its bore is that of the line behind it
	Bellows   bool    // takes up growth
	Travel    float64 // m of it, 0 = not stated
	Hose      bool
	Make      wet.HoseKind // of a hose
	Laid      bool         // a hose that has to fall towards the outlet
	Rating    float64      // K a hose stands, 0 = not stated
	Rise      float64      // m that it lifts what is in it, negative = falls
}

// thickness is that of its wall round a diameter, m.
func (f Form) thickness(diameter float64) float64 {
	return math.Max(0.5e-3, orDefault(f.Wall, (f.Outer-diameter)/2))
}

const (
	pipeWall  = 3e-3 // m, common practice
	shellWall = 2e-3 // m, common practice
)

// tubeMass is the mass of a round tube, kg.
func tubeMass(material, usual string, bore, wall, length float64) float64 {
	return loss.MaterialOf(material, usual).Wall.Density * math.Pi * (bore + wall) * wall * length
}

// vesselMass is the mass of a shell with two flat ends, kg.
func vesselMass(material, usual string, bore, wall, length float64) float64 {
	ends := 2 * loss.MaterialOf(material, usual).Wall.Density * math.Pi / 4 * bore * bore * wall
	return tubeMass(material, usual, bore, wall, length) + ends
}

func orDefault(v, otherwise float64) float64 {
	if v > 0 {
		return v
	}
	return otherwise
}

func circle(bore float64) float64 { return math.Pi / 4 * bore * bore }

// ends are the bores of an element's ports with the neighbours' filled in.
type ends struct{ in, out float64 }

// ports resolves the bores of all ports: what an element does not say comes from the one before it,
// or from the next that does; before is the bore the line comes from, 0 = none.
func ports(elements []Element, before, outlet float64) []ends {
	r := make([]ends, len(elements))
	for i, e := range elements {
		f := e.Form()
		r[i] = ends{f.In, f.Out}
	}
	last := before
	for i := range r {
		if r[i].in == 0 {
			r[i].in = orDefault(last, firstBore(r[i:], outlet))
		}
		if r[i].out == 0 {
			r[i].out = r[i].in
		}
		last = r[i].out
	}
	return r
}

func firstBore(r []ends, outlet float64) float64 {
	for _, e := range r {
		if e.in > 0 {
			return e.in
		}
		if e.out > 0 {
			return e.out
		}
	}
	return outlet
}

// Length is that of an element along the line, m.
func Length(e Element) float64 { return e.Form().Length }

// BoreBefore is the bore of the last tube that is no silencer (pipe, cone, hose, elbow, bellows) before the element at a place
// in a line, m; else that of the element's own inlet; 0 where neither is known.
func BoreBefore(elements []Element, at int) float64 {
	for i := at - 1; i >= 0; i-- {
		if f := elements[i].Form(); f.Tube {
			return f.Out
		}
	}
	if at < len(elements) {
		return elements[at].Form().In
	}
	return 0
}

// WallOf is the material of an element's wall.
func WallOf(e Element) loss.WallMaterial { return loss.MaterialOf(e.Base().Material, e.usual()).Wall }
