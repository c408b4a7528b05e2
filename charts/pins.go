package charts

import (
	"fmt"
	"math"

	"hushwake/path/report"
)

// pinboard keeps pins from covering one another: one stands for all that fall together.
type pinboard struct {
	x, y   scale
	placed [][2]float64
}

func (p *pinboard) free(x, y float64) bool {
	for _, q := range p.placed {
		if math.Abs(q[0]-x) < 0.13*(p.x.high-p.x.low) && math.Abs(q[1]-y) < 0.13*(p.y.high-p.y.low) {
			return false
		}
	}
	p.placed = append(p.placed, [2]float64{x, y})
	return true
}

// endNames are what stands at the ends of the lines: their numbers, of lines that end together those of all at the
// first of them. The script writes what follows "ends".
func endNames(r *report.Page, y scale, value func(report.PageSpeed) *float64) []string {
	names := make([]string, len(r.Sweeps))
	var at []float64
	for n, s := range r.Sweeps {
		names[n] = fmt.Sprintf("nowhere %d", n)
		at = append(at, math.NaN())
		if len(s.Points) == 0 || value(s.Points[len(s.Points)-1]) == nil {
			continue
		}
		v, first := *value(s.Points[len(s.Points)-1]), n
		for m := range n {
			if math.Abs(v-at[m]) < 0.07*(y.high-y.low) {
				first = m
				break
			}
		}
		if first == n {
			at[n], names[n] = v, "ends "+tag(r, s.Layout)
		} else {
			names[first] += ", " + tag(r, s.Layout)
		}
	}
	return names
}
