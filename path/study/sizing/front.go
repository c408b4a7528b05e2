package sizing

import (
	"math"

	"hushwake/path/study/advice"
)

// front keeps what no other choice beats in all of level, pressure, length and price.
func front(kept []trial) (f []trial) {
	values := func(t trial) [4]*float64 {
		return [4]*float64{&t.out.Level, &t.out.Pressure, t.out.Length, t.out.Price}
	}
	for i, t := range kept {
		beaten := false
		for j, o := range kept {
			same := i > j && !advice.Dominates(values(t), values(o)) && !advice.Dominates(values(o), values(t)) && equal(t.u, o.u)
			if same || i != j && advice.Dominates(values(o), values(t)) {
				beaten = true
				break
			}
		}
		if !beaten {
			f = append(f, t)
		}
	}
	return f
}

func equal(a, b []float64) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// thinned keeps the quietest of a front in each of some slices of back pressure; quietest first.
func thinned(f []trial) []trial {
	if len(f) <= frontSize {
		return f
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, t := range f {
		low, high = math.Min(low, t.out.Pressure), math.Max(high, t.out.Pressure)
	}
	taken := map[int]bool{}
	var out []trial
	for _, t := range f {
		k := int(float64(frontSize-1) * (t.out.Pressure - low) / math.Max(high-low, 1e-12))
		if !taken[k] {
			taken[k] = true
			out = append(out, t)
		}
	}
	return out
}
