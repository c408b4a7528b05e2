package charts

import (
	"fmt"
	"math"

	"hushwake/charts/plot"
	"hushwake/path/report"
)

// endNames are what stands at the ends of the lines: their numbers, of lines that end together those of all at the
// first of them. The script writes what follows "ends".
func endNames(r *report.Page, y plot.Scale, value func(report.PageSpeed) *float64) []string {
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
			if math.Abs(v-at[m]) < 0.07*(y.High-y.Low) {
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
