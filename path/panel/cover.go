package panel

import (
	"math"
	"math/cmplx"

	"hushwake/source/published"
)

// coverCited cites what a porous layer outside brings.
var coverCited = published.By("+20 lg|cosh(g d) + (rho c/Zc) sinh(g d)|",
	"fibre as an equivalent fluid, Delany and Bazley, Applied Acoustics 3 (1970); transfer matrix of a heavy panel with a layer on it, derived; held to 15 dB, common practice", "from memory")

// covered is what porous layers on a leaf bring at f Hz, dB.
func covered(layers []piece, f float64) (sum float64) {
	for _, p := range layers {
		sum += coverLoss(p.Resistivity, p.thickness, f)
	}
	return math.Min(sum, gainLimit)
}

// coverLoss is what a porous layer of d m and a flow resistivity in Pa s/m2 brings on a panel much heavier than it at
// f Hz, dB, on either side, with or without a face:
//
//	20 lg|cosh(g d) + (rho c/Zc) sinh(g d)|, g = j k
//
// with wave number k and impedance Zc of the fibre by Delany and Bazley, made for 0.01 < rho f/sigma < 1. Sound
// is taken to run straight through. Where the layer's depth resonates it would take away a little: that counts as 0.
func coverLoss(resistivity, d, f float64) float64 {
	if !(resistivity > 0) || !(d > 0) || !(f > 0) {
		return 0
	}
	x := 1.204 * f / resistivity
	z := complex(1+0.0571*math.Pow(x, -0.754), -0.087*math.Pow(x, -0.732))
	g := complex(0, 2*math.Pi*f/airSpeed*d) * complex(1+0.0978*math.Pow(x, -0.700), -0.189*math.Pow(x, -0.595))
	if real(g) > 100 {
		return gainLimit
	}
	return math.Min(gainLimit, math.Max(0, 20*math.Log10(cmplx.Abs(cmplx.Cosh(g)+cmplx.Sinh(g)/z))))
}
