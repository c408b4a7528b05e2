package vector

import "math"

// steps of the table between 1 and 2.
const (
	expBits  = 9
	expSteps = 1 << expBits
)

// expTable is 2^(i/expSteps).
var expTable = func() (t [expSteps]float64) {
	for i := range t {
		t[i] = exp2(float64(i) / expSteps)
	}
	return t
}()

// exp2 is 2^x for x from 0 to 1 by a rational series, within one unit of the last place and equal on every machine, which the
// language's own need not be (FreeBSD's e_exp.c, Sun Microsystems 1993, as in the language's plain Go).
func exp2(x float64) float64 {
	k := math.Floor(x + 0.5)
	t := x - k
	hi, lo := float64(t*6.93147180369123816490e-01), float64(-t*1.90821492927058770002e-10)
	r := hi - lo
	s := float64(r * r)
	c := 4.13813679705723846039e-08
	for _, p := range []float64{-1.65339022054652515390e-06, 6.61375632143793436117e-05, -2.77777777770155933842e-03, 1.66666666666666657415e-01} {
		c = p + float64(s*c)
	}
	c = r - float64(s*c)
	return math.Ldexp(1-((lo-float64(r*c)/(2-c))-hi), int(k))
}

// expRange is how far from 0 an exponent is taken by the table alone; e^expFar brings those beyond it back into the range.
const (
	expRange = 700.0
	expFar   = 600.0
)

// Numbers of the reduction of an exponent to a step of the table and a rest; expWhole brings the bits of a small integer to the
// end of a number.
const (
	expWhole   = 0x1.8p52
	perNeper   = expSteps / math.Ln2
	nepersEach = math.Ln2 / expSteps
)

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
