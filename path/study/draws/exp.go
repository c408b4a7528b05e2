package draws

import "math"

// steps of the table between 1 and 2.
const expSteps = 512

// expTable is 2^(i/expSteps).
var expTable = func() (t [expSteps]float64) {
	for i := range t {
		t[i] = math.Exp2(float64(i) / expSteps)
	}
	return t
}()

// exponentials turns each x into e^x: by 2^(k/512) and a series to the second power for the rest, within 6e-11 of it, some
// 3e-10 dB; where e^x is no normal number it is that of the language.
func exponentials(xs []float64) {
	const whole = 0x1.8p52 // brings the bits of a small integer to the end
	for i, x := range xs {
		if !(x > -700 && x < 700) {
			xs[i] = math.Exp(x)
			continue
		}
		t := x*(expSteps/math.Ln2) + whole
		k := math.Float64bits(t)
		r := x - (t-whole)*(math.Ln2/expSteps)
		xs[i] = (1 + r*(1+r*(1.0/2))) * math.Float64frombits(math.Float64bits(expTable[k&(expSteps-1)])+k>>9<<52)
	}
}
