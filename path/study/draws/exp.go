package draws

import "math"

// steps of the table between 1 and 2.
const expSteps = 256

// expTable is 2^(i/expSteps).
var expTable = func() (t [expSteps]float64) {
	for i := range t {
		t[i] = math.Exp2(float64(i) / expSteps)
	}
	return t
}()

// addExponentials adds e^x of each x to the place beside it: by 2^(k/256) and a series to the second power for the rest,
// within 5e-10 of it, some 2e-9 dB; where e^x is no normal number it is that of the language.
func addExponentials(to, xs []float64) {
	const whole = 0x1.8p52 // brings the bits of a small integer to the end
	to = to[:len(xs)]
	for i, x := range xs {
		if !(x > -700 && x < 700) {
			to[i] += math.Exp(x)
			continue
		}
		t := x*(expSteps/math.Ln2) + whole
		k := math.Float64bits(t)
		r := x - (t-whole)*(math.Ln2/expSteps)
		to[i] += (1 + r*(1+r*(1.0/2))) * math.Float64frombits(math.Float64bits(expTable[k&(expSteps-1)])+k>>8<<52)
	}
}
