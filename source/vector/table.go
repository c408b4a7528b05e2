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
