package vector

import "math"

// Exp turns each x into e^x: by 2^(k/512) and a series to the second power for the rest, within 6e-11 of it, the first term
// left out, some 3e-10 dB. Where e^x is no number of full length it is the one next to it, 0 or infinite; NaN stays NaN.
func Exp(xs []float64) { series{}.exp(xs) }

// ExpFine is Exp with the third power too: within 1e-14 and what rounding takes of x itself, 2.3e-16 x, some 1e-13 dB.
func ExpFine(xs []float64) { series{1.0 / 6}.exp(xs) }

// series is that of the rest, by its factor of the third power.
type series struct{ third float64 }

func (s series) exp(xs []float64) {
	for done := 0; done < len(xs); {
		done += expWide(xs[done:], s.third)
		for end := min(done+4, len(xs)); done < end; done++ {
			xs[done] = s.of(xs[done])
		}
	}
}

func (s series) of(x float64) float64 {
	switch {
	case x > -expRange && x < expRange:
		return s.near(x)
	case x >= 2*expFar:
		return math.Inf(1)
	case x <= -2*expFar:
		return 0
	case x > 0:
		return float64(s.near(x-expFar) * s.near(expFar))
	}
	return float64(s.near(x+expFar) * s.near(-expFar))
}

func (s series) near(x float64) float64 {
	t := float64(x*perNeper) + expWhole
	k := math.Float64bits(t)
	r := x - float64((t-expWhole)*nepersEach)
	p := 1 + float64(r*(1+float64(r*(0.5+float64(r*s.third)))))
	return float64(p * math.Float64frombits(math.Float64bits(expTable[k%expSteps])+k>>expBits<<52))
}
