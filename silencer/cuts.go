package silencer

import (
	"math"
	"strings"
)

// Units that a cut is ordered in.
const (
	pieces       = ""
	Metres       = "m"
	SquareMetres = "m2"
)

// Cut is one thing to order for an element.
type Cut struct {
	What, Material               string
	Bore, Wall, Diameter, Length float64 // m, of one piece; 0 = does not matter
	Angle, Radius                float64 // of a bend, rad and m; 0 = no bend
	Amount                       float64
	Unit                         string
}

// Cuts lists what to order for an element, never nothing: tube and hose by length, the rest by the piece, lagging by
// its mean area. In place of what holds others stand these.
func Cuts(e Element) []Cut { return cutsOf(e, Lagging{}) }

// cutsOf gives an element without lagging of its own that of the part it lies in.
func cutsOf(e Element, around Lagging) (list []Cut) {
	g := e.Base().Lagging
	if g.Thickness <= 0 {
		g = around
	}
	for _, branch := range e.Within() {
		for _, x := range branch {
			list = append(list, cutsOf(x, g)...)
		}
	}
	if list != nil {
		return list
	}
	f := e.Form()
	if list = e.cuts(); list == nil {
		list = []Cut{{What: strings.ReplaceAll(e.Kind(), "_", " "), Bore: f.In, Diameter: f.Body, Length: orDefault(f.Tall, f.Length), Amount: 1}}
	}
	if area := math.Pi * (f.Outer + g.Thickness) * f.Length; g.Thickness > 0 && f.Outer > 0 && area > 0 {
		list = append(list, Cut{What: "lagging", Material: g.Material, Wall: g.Thickness, Amount: area, Unit: SquareMetres})
	}
	return list
}

// bendCuts are bends of one bore.
func bendCuts(bends []Bend, bore float64) (list []Cut) {
	for _, b := range bends {
		list = append(list, Cut{What: "bend", Bore: bore, Angle: b.Angle, Radius: b.Radius, Amount: 1})
	}
	return list
}
