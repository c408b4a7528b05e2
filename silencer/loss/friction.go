package loss

import (
	"fmt"
	"math"

	"hushwake/source/published"
)

// The ends of the blend between laminar and turbulent friction.
const (
	laminarBelow   = 2300.0
	turbulentAbove = 4000.0
)

// Friction is the Darcy friction factor over the whole range of Reynolds number: 64/Re below 2300,
// Colebrook above 4000, and a straight blend in Re between their values at those ends (our own choice:
// the flow there is neither). Zero flow gives 0: no loss.
func Friction(re, roughness float64) float64 {
	switch {
	case !(re > 0):
		return 0
	case re <= laminarBelow:
		return 64 / re
	case re >= turbulentAbove:
		return fastColebrook(re, roughness)
	}
	low, high := 64/laminarBelow, fastColebrook(turbulentAbove, roughness)
	return low + (high-low)*(re-laminarBelow)/(turbulentAbove-laminarBelow)
}

// fastColebrook starts from a fixed guess and takes Newton steps to 1e-7: no powers in a march.
func fastColebrook(re, roughness float64) float64 {
	x := 6.0
	a, b := roughness/3.7, 2.51/re
	for range 8 {
		arg := a + b*x
		step := (x + (2/math.Ln10)*math.Log(arg)) / (1 + 2/math.Ln10*b/arg)
		x -= step
		if math.Abs(step) < 1e-5 { // quadratic convergence: the error left is far smaller
			break
		}
	}
	return 1 / (x * x)
}

// checkFriction says whether the friction models hold for a Reynolds number and a relative roughness.
func checkFriction(re, roughness float64) error {
	switch {
	case !(re >= 0) || math.IsInf(re, 0):
		return fmt.Errorf("friction: Reynolds number %.4g is not a flow", re)
	case re > 1e8:
		return fmt.Errorf("friction: Reynolds number %.3g lies outside the friction chart (up to 1e8)", re)
	case !(roughness >= 0 && roughness <= 0.05):
		return fmt.Errorf("friction: relative roughness %.3g lies outside the friction chart (0 to 0.05)", roughness)
	}
	return nil
}

// HandbookFriction is the constant friction factor hidden in a marine installation manual's formula
// (6.32 L Q^2/(D^5 (t + 273)) Pa): for comparing with a maker's sheet, not for predicting.
const HandbookFriction = 0.022

// Method picks the friction factor.
type Method int

// Friction methods.
const (
	ByColebrook Method = iota
	ByHandbook         // f = 0.022 whatever the flow
)

// Pipe is a straight run: what friction costs.
type Pipe struct {
	Bore, Length, Roughness float64 // m
	Method                  Method
	Factor                  float64 // multiplies friction (corrugated, perforated walls); 0 = 1
}

// Loss gives the loss in velocity heads of the run for a density, viscosity and velocity: K = f L/D. They are in kg/m3,
// Pa s and m/s.
func (p Pipe) Loss(density, viscosity, velocity float64) Coefficient {
	c := Coefficient{Cited: published.By("K = f L/D, f by Colebrook (64/Re below Re 2300)", "Colebrook 1939; Darcy-Weisbach", FromMemory), SD: 0.10}
	if p.Method == ByHandbook {
		c.Cited, c.SD = published.By("K = f L/D, f = 0.022", "constant of a marine installation manual", asRead), 0.25
	}
	c.K = p.Friction(density*math.Abs(velocity)*p.Bore/viscosity) * p.Length / p.Bore
	if err := checkFriction(density*math.Abs(velocity)*p.Bore/viscosity, p.Roughness/p.Bore); err != nil {
		c.Warning = err.Error()
	}
	return c
}

// Friction is the run's friction factor at a Reynolds number; no allocation, for use in a march.
func (p Pipe) Friction(re float64) float64 {
	f := HandbookFriction
	if p.Method == ByColebrook {
		f = Friction(re, p.Roughness/p.Bore)
	}
	if p.Factor > 0 {
		f *= p.Factor
	}
	return f
}
