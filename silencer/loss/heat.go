package loss

import (
	"math"

	"hushwake/source/gas"
)

const stefanBoltzmann = 5.670374419e-8 // W/(m2 K4)

// Emissivities of the outside: painted, rusted or dull cladding, and bright metal cladding.
const (
	dullCladding   = 0.9
	brightCladding = 0.2
)

// Wall is a round wall between gas and air, bare or lagged.
type Wall struct {
	Bore, Thickness float64         // m
	Conductivity    float64         // W/mK of the wall; 0 = 45, steel
	Lagging         float64         // m; 0 = bare
	Insulation      LaggingMaterial // used when Lagging > 0
	Emissivity      float64         // of the outermost surface; 0 = 0.9
	Vertical        float64         // m, height of a vertical run; 0 = horizontal
	Pulsation       float64         // multiplies the inside coefficient; 0 = 1 (pulsating flow 1.5 to 2, from memory)
}

// HeatResult is the heat a metre of wall gives off.
type HeatResult struct {
	PerMetre          float64 // W/m
	WallTemperature   float64 // K, of the metal (its outer face)
	SkinTemperature   float64 // K, of what a hand would touch
	InsideCoefficient float64 // W/(m2 K)
	Unsettled         float64 // K, how far the skin may be off where all steps did not settle it: the last of them; else 0
}

// HeatSteps are the most Newton steps to a skin temperature.
const HeatSteps = 40

// HeatFrom is the steady heat from gas at a state and velocity (m/s) through the wall to still air at ambient (K),
// per metre of run, from a first guess of the skin temperature (K, 0 = none). The outer surface is found by Newton
// steps on the balance of heat in and out, until a step is under 1e-3 K; with a lagging whose conductivity leaps
// they may not get there, which Unsettled tells.
func (w Wall) HeatFrom(s gas.State, velocity, ambient, skin float64) HeatResult {
	r := HeatResult{InsideCoefficient: w.inside(s, velocity)}
	outer := w.Bore + 2*w.Thickness
	size := outer + 2*w.Lagging
	up := w.wallResistance(outer) + 1/(r.InsideCoefficient*math.Pi*w.Bore)
	log := math.Log(size / outer)
	emissivity, ts := w.start(s.Temperature, ambient, skin)
	total := up
	for range HeatSteps {
		if w.Lagging > 0 {
			metal := s.Temperature - (s.Temperature-ts)*up/total
			total = up + log/(2*math.Pi*w.Insulation.At((metal+ts)/2))
		}
		out, slope := surfaceHeat(size, ts, ambient, emissivity, w.Vertical)
		step := ((s.Temperature-ts)/total - out) / (slope + 1/total)
		ts = max(ts+step, 1)
		if math.Abs(step) < 1e-3 {
			r.Unsettled = 0
			break
		}
		r.Unsettled = min(math.Abs(step), math.Abs(s.Temperature-ambient))
	}
	r.SkinTemperature = ts
	r.PerMetre = (s.Temperature - ts) / total
	r.WallTemperature = s.Temperature - r.PerMetre*up
	if w.Lagging == 0 {
		r.WallTemperature = ts
	}
	return r
}

// start gives the emissivity and the first guess of the skin temperature.
func (w Wall) start(hot, ambient, skin float64) (emissivity, ts float64) {
	emissivity = w.Emissivity
	if emissivity == 0 {
		emissivity = dullCladding
	}
	switch {
	case skin > 0:
		return emissivity, skin
	case w.Lagging > 0:
		return emissivity, ambient + 0.15*(hot-ambient)
	}
	return emissivity, ambient + 0.6*(hot-ambient)
}

// wallResistance is that of the pipe wall per metre, K m/W.
func (w Wall) wallResistance(outer float64) float64 {
	if w.Thickness == 0 {
		return 0
	}
	k := w.Conductivity
	if k == 0 {
		k = 45
	}
	return math.Log(outer/w.Bore) / (2 * math.Pi * k)
}

// inside is the film coefficient of the gas, W/(m2 K): Gnielinski above Re 4000, 3.66 below 2300, a
// straight blend between.
//
//	Nu = (f/8)(Re - 1000)Pr/[1 + 12.7 sqrt(f/8)(Pr^(2/3) - 1)],  f = (0.790 ln Re - 1.64)^-2
func (w Wall) inside(s gas.State, velocity float64) float64 {
	re := s.Density * math.Abs(velocity) * w.Bore / s.Viscosity
	pr := s.Prandtl()
	nu := 3.66
	switch {
	case re >= turbulentAbove:
		nu = gnielinski(re, pr)
	case re > laminarBelow:
		nu += (gnielinski(turbulentAbove, pr) - nu) * (re - laminarBelow) / (turbulentAbove - laminarBelow)
	}
	if w.Pulsation > 0 {
		nu *= w.Pulsation
	}
	return nu * s.Conductivity / w.Bore
}

// gnielinski is the Nusselt number of turbulent pipe flow (Gnielinski 1976), re 3000 to 5e6, pr 0.5 to 2000.
func gnielinski(re, pr float64) float64 {
	l := 0.790*math.Log(re) - 1.64
	f := 1 / (8 * l * l)
	third := math.Cbrt(pr)
	return f * (re - 1000) * pr / (1 + 12.7*math.Sqrt(f)*(third*third-1))
}

// surfaceHeat is the heat that a round surface of a temperature (K) gives off to still air (K) by natural
// convection and radiation, W/m, and about its slope, W/(m K); size is its diameter, height 0 = a horizontal run.
func surfaceHeat(size, ts, ambient, emissivity, height float64) (out, slope float64) {
	hc := outside(ts, ambient, size, height)
	rad := emissivity * stefanBoltzmann
	t2, a2 := ts*ts, ambient*ambient
	out = math.Pi * size * (hc*(ts-ambient) + rad*(t2*t2-a2*a2))
	return out, math.Pi * size * (1.3*hc + 4*rad*t2*ts)
}

// outside is the natural-convection coefficient of the outer surface, W/(m2 K), film properties at the mean
// of surface and air.
func outside(ts, ambient, size, height float64) float64 {
	d := max(math.Abs(ts-ambient), 1e-9)
	lift, k := film((ts + ambient) / 2)
	if height > 0 {
		return verticalPlate(lift*d*height*height*height, airPrandtl) * k / height
	}
	return horizontalCylinder(lift*d*size*size*size, airPrandtl) * k / size
}

// airPrandtl is that of air between 250 and 900 K within 3 %.
const airPrandtl = 0.70

// horizontalCylinder is the Nusselt number of natural convection (Churchill and Chu 1975), Ra up to 1e12:
//
//	Nu = {0.6 + 0.387 Ra^(1/6)/[1 + (0.559/Pr)^(9/16)]^(8/27)}^2
func horizontalCylinder(ra, pr float64) float64 {
	n := 0.6 + 0.387*math.Cbrt(math.Sqrt(ra))/brake(0.559, pr)
	return n * n
}

// verticalPlate is the Nusselt number of a vertical plate by its height (Churchill and Chu 1975); a stack
// of slender pipe lies up to 20 % above.
//
//	Nu = {0.825 + 0.387 Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27)}^2
func verticalPlate(ra, pr float64) float64 {
	n := 0.825 + 0.387*math.Cbrt(math.Sqrt(ra))/brake(0.492, pr)
	return n * n
}

var cylinderBrake, plateBrake = brakeOf(0.559, airPrandtl), brakeOf(0.492, airPrandtl)

// brake is the Prandtl term, kept ready for air.
func brake(c, pr float64) float64 {
	switch {
	case pr == airPrandtl && c == 0.559:
		return cylinderBrake
	case pr == airPrandtl && c == 0.492:
		return plateBrake
	}
	return brakeOf(c, pr)
}

func brakeOf(c, pr float64) float64 { return math.Pow(1+math.Pow(c/pr, 9.0/16), 8.0/27) }

// film gives g beta/(nu alpha) of air (1/(m3 K)) and its conductivity (W/mK) at standard pressure, by
// Sutherland's law for viscosity and conductivity (White, Viscous Fluid Flow, 3rd ed. 2006).
func film(t float64) (lift, k float64) {
	r := t / 273.15
	r15 := r * math.Sqrt(r)
	mu := 1.716e-5 * r15 * (273.15 + 110.4) / (t + 110.4)
	k = 0.0241 * r15 * (273.15 + 194) / (t + 194)
	nu := mu * t / 352.98
	return 9.80665 / t / (nu * nu) * airPrandtl, k
}
