package plot

import "math"

// Thinned picks the points that a chart can show: of every sliver of the logarithmic axis the
// first, the least, the greatest and every gap. Peaks and dips stay as they are.
func Thinned(f []float64, y []*float64) []int {
	const slivers = 400 // an octave of the usual span gets about 40, finer than a chart is drawn
	if len(f) <= 2*slivers {
		return UpTo(len(f))
	}
	step := math.Log(f[len(f)-1]/f[0]) / slivers
	var keep []int
	for a := 0; a < len(f); {
		b := a + 1
		for b < len(f) && math.Log(f[b]/f[0]) < step*(math.Floor(math.Log(f[a]/f[0])/step)+1) {
			b++
		}
		keep = append(keep, telling(y, a, b)...)
		a = b
	}
	if keep[len(keep)-1] != len(f)-1 {
		keep = append(keep, len(f)-1)
	}
	return keep
}

// UpTo are the whole numbers from 0 to n-1.
func UpTo(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

// telling keeps, in order, the ends, extremes and gaps of y[a:b].
func telling(y []*float64, a, b int) []int {
	low, high := a, a
	for i := a; i < b; i++ {
		if y[i] == nil {
			continue
		}
		if y[low] == nil || *y[i] < *y[low] {
			low = i
		}
		if y[high] == nil || *y[i] > *y[high] {
			high = i
		}
	}
	var keep []int
	for i := a; i < b; i++ {
		if i == a || i == low || i == high || y[i] == nil {
			keep = append(keep, i)
		}
	}
	return keep
}
