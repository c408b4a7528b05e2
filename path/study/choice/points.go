package choice

import (
	"math"
	"slices"

	"hushwake/path/study/advice"
)

// merit of a point, by the full prediction.
func (x *Point) merit() merit {
	m := merit{x.OverBand, x.Pressure, x.Length, math.Inf(1)}
	if x.Price != nil {
		m[atPrice] = *x.Price
	}
	return m.rounded()
}

// grouped puts what nobody tells apart side by side: the quietest group first, each cheapest first, then freest.
func grouped(points []Point) (out []Point) {
	slices.SortStableFunc(points, func(a, b Point) int { return less(a.OverBand, b.OverBand) })
	taken := make([]bool, len(points))
	for i := range points {
		if taken[i] {
			continue
		}
		var group []Point
		for k := i; k < len(points); k++ {
			if !taken[k] && (k == i || same(points[i], points[k])) {
				group, taken[k] = append(group, points[k]), true
			}
		}
		slices.SortStableFunc(group, func(a, b Point) int {
			x, y := a.merit(), b.merit()
			if d := less(x[atPrice], y[atPrice]); d != 0 {
				return d
			}
			return less(x[byPressure], y[byPressure])
		})
		from := len(out)
		for k := range group {
			for other := range group {
				if other != k {
					group[k].Equal = append(group[k].Equal, from+other)
				}
			}
		}
		out = append(out, group...)
	}
	return out
}

// same is whether nobody hears a difference, at running and over the band.
func same(a, b Point) bool {
	return math.Abs(a.OverBand-b.OverBand) < heard && advice.Same(advice.Choice{Levels: [][]float64{a.draws}}, advice.Choice{Levels: [][]float64{b.draws}}, 0)
}

// heard is a difference that may be heard side by side, dB.
const heard = 3.0

// name says what a point is the best in.
func name(points []Point) {
	var all []merit
	for i := range points {
		all = append(all, points[i].merit())
	}
	if len(all) == 0 {
		return
	}
	for of, word := range []string{"quietest", "freest", "shortest", "cheapest"} {
		if k := least(all, of); k >= 0 {
			points[k].Names = append(points[k].Names, word)
		}
	}
	if k := knee(all); len(all) > 2 && len(points[k].Names) == 0 {
		points[k].Names = append(points[k].Names, "middle way")
	}
}

// knee is the place where level and back pressure together lie nearest to the best of each.
func knee(all []merit) (at int) {
	best := math.Inf(1)
	for k, m := range scaled(all) {
		if d := math.Hypot(m[byLevel], m[byPressure]); d < best {
			best, at = d, k
		}
	}
	return at
}
