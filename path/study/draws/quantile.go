package draws

import (
	"math"
	"slices"
	"sync"
)

// Quantile is the value below which the share p of v lies, interpolated linearly between the values in order at the
// position p(n-1).
func Quantile(v []float64, p float64) float64 { return quantiles(v, p)[0] }

// loose keeps rows that may be put in order.
var loose = sync.Pool{New: func() any { return new([]float64) }}

// quantiles gives several of them. Only what it takes is put in order (Hoare's selection), v stays as it is.
func quantiles(v []float64, shares ...float64) []float64 {
	row := loose.Get().(*[]float64)
	defer loose.Put(row)
	*row = append((*row)[:0], v...)
	s, out := *row, make([]float64, len(shares))
	if slices.ContainsFunc(s, math.IsNaN) {
		slices.Sort(s)
	}
	var at []int // places in order already
	for i, p := range shares {
		x := p * float64(len(s)-1)
		k := min(int(x), len(s)-2)
		from, to := 0, len(s)
		for _, a := range at {
			if a <= k {
				from = max(from, a)
			} else {
				to = min(to, a+1)
			}
		}
		sink(s[from:to], k-from)
		at = append(at, k)
		out[i] = s[k] + (x-float64(k))*(slices.Min(s[k+1:to])-s[k])
	}
	return out
}

// sink brings the value of place k in order to that place, smaller ones before it and larger ones behind.
func sink(s []float64, k int) {
	for from, to := 0, len(s)-1; from < to; {
		mid := from + (to-from)/2
		pivot := max(min(s[from], s[mid]), min(max(s[from], s[mid]), s[to]))
		i, j := from, to
		for i <= j {
			for s[i] < pivot {
				i++
			}
			for s[j] > pivot {
				j--
			}
			if i <= j {
				s[i], s[j] = s[j], s[i]
				i, j = i+1, j-1
			}
		}
		switch {
		case k <= j:
			to = j
		case k >= i:
			from = i
		default:
			return
		}
	}
}
