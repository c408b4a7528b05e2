package cycle

import (
	"fmt"
	"math"
)

// Cylinder is the geometry and combustion of one cylinder.
type Cylinder struct {
	TwoStroke   bool
	Bore        float64 // m
	Stroke      float64 // m
	Rod         float64 // m, connecting rod
	Compression float64 // whole volume over clearance volume
	Exhaust     Opening
	Intake      Opening
	Burn        Wiebe
	Wall        float64 // K, mean wall temperature
}

// Wiebe is a heat release law: x = 1 - exp(-6.908 ((th - Start)/Duration)^(Shape+1)).
type Wiebe struct{ Start, Duration, Shape float64 } // rad, rad, -

// Fuel is what burns.
type Fuel struct {
	HeatingValue   float64 // J/kg, lower
	Stoichiometric float64 // kg of air per kg of fuel
}

// diesel is the usual fuel (handbook values, from memory).
var diesel = Fuel{HeatingValue: 42.7e6, Stoichiometric: 14.6}

// Kind is a family of cylinders with its usual valves and timing.
type Kind int

// Kinds of cylinder.
const (
	NaturalFour Kind = iota
	BoostedFour
	UniflowTwo
	SparkFour
)

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// Usual is a cylinder of a kind with bore and stroke in m. Timing, valve sizes, compression and heat
// release lie inside the ranges of Heywood (1988) and engine data, from memory; none is fitted to a
// measured pulse. Exhaust opens 130 deg (naturally aspirated), 122 (boosted) or 87 deg (uniflow
// two-stroke) after top dead centre.
func Usual(k Kind, bore, stroke float64) Cylinder {
	c := Cylinder{Bore: bore, Stroke: stroke, Rod: 1.75 * stroke, Compression: 18, Wall: 450,
		Burn: Wiebe{rad(-8), rad(60), 1}}
	valve := func(n int, d, lift, opens, closes float64) Opening {
		return Opening{Opens: rad(opens), Closes: rad(closes), Count: n, Diameter: d * bore, Lift: lift * d * bore, Discharge: 0.65}
	}
	c.Exhaust, c.Intake = valve(1, 0.38, 0.28, 130, 375), valve(1, 0.43, 0.28, 345, 585)
	switch k {
	case BoostedFour:
		c.Compression = 16
		c.Exhaust, c.Intake = valve(2, 0.28, 0.28, 122, 378), valve(2, 0.31, 0.28, 342, 575)
	case UniflowTwo:
		c.TwoStroke, c.Compression = true, 17
		c.Exhaust = valve(4, 0.26, 0.22, 87, 240)
		c.Intake = Opening{Opens: rad(133), Closes: rad(227), PortWidth: 0.6 * math.Pi * bore, Discharge: 0.7}
	case SparkFour:
		c.Compression = 9
		c.Burn = Wiebe{rad(-20), rad(55), 2}
	}
	return c
}

// Period is the crank angle of a cycle, rad.
func (c *Cylinder) Period() float64 {
	if c.TwoStroke {
		return 2 * math.Pi
	}
	return 4 * math.Pi
}

// Swept is the displacement of the cylinder, m3.
func (c *Cylinder) Swept() float64 { return c.piston() * c.Stroke }

// Check refuses geometry that cannot turn.
func (c *Cylinder) Check() error {
	switch {
	case !(c.Bore > 0 && c.Stroke > 0) || math.IsInf(c.Bore*c.Stroke, 0):
		return fmt.Errorf("cylinder of bore %g m and stroke %g m", c.Bore, c.Stroke)
	case !(c.Rod > 0.55*c.Stroke):
		return fmt.Errorf("a connecting rod of %g m cannot turn a stroke of %g m", c.Rod, c.Stroke)
	case !(c.Compression > 2 && c.Compression < 40):
		return fmt.Errorf("compression ratio %g is outside 2 to 40", c.Compression)
	case !(c.Burn.Duration > 0 && c.Burn.Duration < math.Pi && c.Burn.Shape >= 0):
		return fmt.Errorf("heat release over %g rad with shape %g", c.Burn.Duration, c.Burn.Shape)
	case !(c.Wall > 250 && c.Wall < 1000):
		return fmt.Errorf("cylinder wall at %g K", c.Wall)
	}
	for _, o := range []*Opening{&c.Exhaust, &c.Intake} {
		if !(o.Closes > o.Opens && o.Closes-o.Opens < c.Period() && o.Discharge > 0 && o.Discharge <= 1) {
			return fmt.Errorf("an opening from %g to %g rad with discharge coefficient %g", o.Opens, o.Closes, o.Discharge)
		}
		if !(o.PortWidth > 0 || o.Count > 0 && o.Diameter > 0 && o.Lift > 0) {
			return fmt.Errorf("an opening without area: %d valves of %g m, lift %g m", o.Count, o.Diameter, o.Lift)
		}
	}
	return nil
}

// travel is the piston's way down from top dead centre in m and its derivative in m/rad,
//
//	s = a (1 - cos th) + l - sqrt(l^2 - a^2 sin^2 th) ,  a = stroke/2
func (c *Cylinder) travel(theta float64) (s, ds float64) {
	a := c.Stroke / 2
	sin, cos := math.Sincos(theta)
	root := math.Sqrt(c.Rod*c.Rod - a*a*sin*sin)
	return a*(1-cos) + c.Rod - root, a * sin * (1 + a*cos/root)
}

// piston is its area, m2.
func (c *Cylinder) piston() float64 { return math.Pi / 4 * c.Bore * c.Bore }

// Volume is the cylinder volume in m3 at a crank angle in rad.
func (c *Cylinder) Volume(theta float64) float64 {
	s, _ := c.travel(theta)
	return c.clearance() + c.piston()*s
}

func (c *Cylinder) clearance() float64 { return c.Swept() / (c.Compression - 1) }

// area is the effective (flow coefficient times geometric) area of an opening, m2.
func (c *Cylinder) area(o *Opening, theta, s float64) float64 {
	x, ok := o.open(theta, c.Period())
	if !ok {
		return 0
	}
	if o.PortWidth > 0 {
		edge, _ := c.travel(o.Opens)
		return o.Discharge * o.PortWidth * math.Max(s-edge, 0)
	}
	return o.Discharge * o.valveArea(x)
}

// burned is the fraction of fuel burned per rad, and the fraction burned, at a crank angle.
func (c *Cylinder) burned(theta float64) (rate, x float64) {
	z := since(theta-c.Burn.Start, c.Period()) / c.Burn.Duration
	if z >= 1.3 { // exp(-6.908 z^2) is below 1e-5 there
		return 0, 1
	}
	n := c.Burn.Shape + 1
	zm := z
	if n != 2 {
		zm = math.Pow(z, n-1)
	}
	e := math.Exp(-6.908 * zm * z)
	return 6.908 * n / c.Burn.Duration * zm * e, 1 - e
}
