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

// addExponentials adds e^x of each x to the place beside it: by 2^(k/256) and a series to the fifth power for the rest,
// within 5e-16 of it; where e^x is no normal number it is that of the language.
func addExponentials(to, xs []float64) {
	const (
		whole = 0x1.8p52       // brings the bits of a small integer to the end
		most  = 0x1.62e42fep-1 // of ln 2, so short that no product rounds
		rest  = math.Ln2 - most
	)
	to = to[:len(xs)]
	for i, x := range xs {
		if !(x > -700 && x < 700) {
			to[i] += math.Exp(x)
			continue
		}
		t := x*(expSteps/math.Ln2) + whole
		k := int64(math.Float64bits(t)<<13) >> 13
		r := x - (t-whole)*(most/expSteps) - (t-whole)*(rest/expSteps)
		p := 1 + r*(1+r*(1.0/2+r*(1.0/6+r*(1.0/24+r*(1.0/120)))))
		to[i] += p * math.Float64frombits(math.Float64bits(expTable[k&(expSteps-1)])+uint64(k>>8)<<52)
	}
}
