package wet

import (
	"math"

	"hushwake/source/gas"
)

// WaterHeat is the specific heat of sea water, J/(kg K), from memory.
const WaterHeat = 3990.0

// Entrained is the share of the water that gas tears off the film on a wall and carries along as drops,
//
//	E = tanh(7.25e-7 We^1.25 Re^0.25),  We = (rho jg^2 D/s)((rl - rho)/rho)^(1/3),  Re = rl jl D/mu_l
//
// (Ishii and Mishima 1989; constant and exponents read, cube root from memory). From upright tubes to 32 mm bore;
// factor 2. In level pipes settling lowers it.
func (f Flow) Entrained() float64 {
	j := f.GasVelocity()
	we := f.GasDensity * j * j * f.Bore / f.Tension * math.Cbrt((f.WaterDensity-f.GasDensity)/f.GasDensity)
	re := f.WaterDensity * f.WaterVelocity() * f.Bore / f.WaterViscous
	return math.Tanh(7.25e-7 * math.Pow(we, 1.25) * math.Pow(re, 0.25))
}

// DropSize is the Sauter mean diameter of those drops, m,
//
//	d32 = l [15.4 We^-0.58 + 3.5 E jl/jg],  l = sqrt(s/(rl g)),  We = rl jg^2 l/s
//
// (Azzopardi 1985, constants from memory), factor 1.4. Gas at rest carries none: infinite.
func (f Flow) DropSize() float64 {
	j := f.GasVelocity()
	if j == 0 {
		return math.Inf(1)
	}
	l := math.Sqrt(f.Tension / (f.WaterDensity * gravity))
	we := f.WaterDensity * j * j * l / f.Tension
	return l * (15.4*math.Pow(we, -0.58) + 3.5*f.Entrained()*f.WaterVelocity()/j)
}

// rosinRammler is the width of the distribution of sizes, from memory.
const rosinRammler = 2.6

// Sizes are five classes of equal mass for a Sauter mean diameter (m), at 10, 30, 50, 70 and 90 % of the mass under
// X (-ln(1-P))^(1/n), X = d32 Gamma(1 - 1/n) (Rosin and Rammler 1933).
func Sizes(d32 float64) (d [5]float64) {
	x := d32 * math.Gamma(1-1/rosinRammler)
	for i := range d {
		d[i] = x * math.Pow(-math.Log(0.9-0.2*float64(i)), 1/rosinRammler)
	}
	return d
}

// classes share a loading among the five sizes. Drops over 5 mm are rain that sound passes by.
func classes(loading, d32 float64) (all []gas.Class) {
	for _, d := range Sizes(d32) {
		if d <= 5e-3 {
			all = append(all, gas.Class{Loading: loading / 5, Diameter: math.Max(d, 1e-6)})
		}
	}
	return all
}

// Drops are those that fly along in a hose or riser: the loading E (W/G) over the slip of 0.8 (judgement).
func (f Flow) Drops() []gas.Class {
	e := f.Entrained()
	if f.Gas == 0 || e*f.Water < 1e-6*f.Gas {
		return nil
	}
	return classes(e*f.Water/f.Gas/0.8, f.DropSize())
}
