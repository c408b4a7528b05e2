package choice

import (
	"math"
	"slices"
)

// merit is what a choice is weighed by, each the better the smaller: level in dB(A), back pressure at rated in Pa, length
// in m, price. +Inf is what is not known: never better than anything in it.
type merit [4]float64

// Places in a Merit.
const (
	byLevel = iota
	byPressure
	byLength
	atPrice
)

// grain is the least difference of each that counts: finer ones nobody hears, measures or builds; judgement.
var grain = merit{0.1, 10, 1e-3, 1e-2}

// rounded is a merit to the grain.
func (a merit) rounded() merit {
	for i, v := range a {
		if !math.IsInf(v, 0) {
			a[i] = math.Round(v/grain[i]) * grain[i]
		}
	}
	return a
}

// Beats says whether a is nowhere worse than b and somewhere better; differences in the tenth digit are none.
func (a merit) Beats(b merit) bool {
	better := false
	for i, v := range a {
		w := b[i]
		small := 0.0
		if !math.IsInf(w, 0) {
			small = 1e-9 * math.Max(1, math.Abs(w))
		}
		switch {
		case v > w+small:
			return false
		case v < w-small:
			better = true
		}
	}
	return better
}

// front is the places of those that no other beats, in order; of equal ones all.
func front(all []merit) (kept []int) {
	for i, m := range all {
		if !slices.ContainsFunc(all, func(o merit) bool { return o.Beats(m) }) {
			kept = append(kept, i)
		}
	}
	return kept
}

// scaled brings merits to 0..1 each over what is met; what is not known lies at 1.
func scaled(all []merit) []merit {
	low, high := all[0], merit{}
	for i := range high {
		high[i] = math.Inf(-1)
	}
	for _, m := range all {
		for i, v := range m {
			low[i] = math.Min(low[i], v)
			if !math.IsInf(v, 0) {
				high[i] = math.Max(high[i], v)
			}
		}
	}
	out := make([]merit, len(all))
	for k, m := range all {
		for i, v := range m {
			switch {
			case math.IsInf(v, 0):
				out[k][i] = 1
			case high[i] > low[i]:
				out[k][i] = (v - low[i]) / (high[i] - low[i])
			}
		}
	}
	return out
}

// least is the place of the best in one thing, the better in all things of equal ones; -1 where nobody knows it.
func least(all []merit, of int) int {
	best, sum, as := -1, 0.0, scaled(all)
	for k, m := range all {
		s := as[k][0] + as[k][1] + as[k][2] + as[k][3]
		if v := m[of]; !math.IsInf(v, 0) && (best < 0 || v < all[best][of] || v == all[best][of] && s < sum) {
			best, sum = k, s
		}
	}
	return best
}

// apart picks n places that lie far from each other: the best in each thing, then ever the one farthest from all that
// are picked.
func apart(all []merit, n int) []int {
	if len(all) == 0 {
		return nil
	}
	var picked []int
	as := scaled(all)
	near := make([]float64, len(all))
	for k := range near {
		near[k] = math.Inf(1)
	}
	pick := func(k int) {
		if k < 0 || len(picked) >= n || slices.Contains(picked, k) {
			return
		}
		picked = append(picked, k)
		for i := range all {
			d := 0.0
			for j := range as[i] {
				d += (as[i][j] - as[k][j]) * (as[i][j] - as[k][j])
			}
			near[i] = math.Min(near[i], d)
		}
	}
	for of := range all[0] {
		pick(least(all, of))
	}
	for len(picked) < min(n, len(all)) {
		far := -1
		for i := range all {
			if !slices.Contains(picked, i) && (far < 0 || near[i] > near[far]) {
				far = i
			}
		}
		pick(far)
	}
	return picked
}
