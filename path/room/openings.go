package room

import "math"

// Space is the room that a box stands in, or that its air comes from or goes to, as one body of mixed air.
type Space struct {
	Name   string
	Open   float64 // m2 of free openings to elsewhere
	Walls  float64 // W/K that its walls pass to the open air
	Heat   float64 // W given off in it, but for what the box brings
	Height float64 // m over which its warm air makes a draught; 0 = none
}

// Opening is a hole in a box.
type Opening struct {
	Role  string  // inlet | outlet | leak
	Area  float64 // m2
	Duct  *Duct
	Mouth *Space // the room that it ends in; nil = the open air. Leaks end where the box stands
	Apart bool   // its sound goes a way of its own, not that of the walls; never a leak
}

// Resistance figures of openings, in velocity heads.
const (
	bareHole   = 2.8  // sharp-edged hole, in and out: 1/0.6^2 (textbook)
	ductEnds   = 1.5  // entry 0.5 and exit 1 (textbook)
	linedDrag  = 0.03 // friction factor of a lined duct (judgement)
	squareBend = 1.2  // square bend without vanes (textbook)
)

// Head is the resistance of an opening in velocity heads of its own area.
func (o Opening) Head() float64 {
	d := o.Duct
	if d == nil || d.Width <= 0 || d.Height <= 0 {
		return bareHole
	}
	hydraulic := 2 * d.Width * d.Height / (d.Width + d.Height)
	k := ductEnds + linedDrag*d.Length/hydraulic + squareBend*float64(d.Bends)
	clear := d.Width * d.Height
	if clear < o.Area { // the duct is the narrower part
		k *= math.Pow(o.Area/clear, 2)
	}
	return k
}

// AirPipe brings an engine its combustion air past the box.
type AirPipe struct {
	Bore, Length float64 // m
	Bends        int
}

// Figures of a corrugated air hose, in velocity heads (textbook, from memory).
const (
	hoseDrag = 0.05
	hoseBend = 0.3
)

// Loss is the pressure in Pa for a flow in m3/s of a density in kg/m3.
func (p AirPipe) Loss(flow, density float64) float64 {
	v := flow / (math.Pi / 4 * p.Bore * p.Bore)
	return (ductEnds + hoseDrag*p.Length/p.Bore + hoseBend*float64(p.Bends)) * density * v * v / 2
}
