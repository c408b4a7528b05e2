package report

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/report/form"
)

// Doubt is one named cause of error of a step; equal keys move together, also between layouts.
type Doubt struct {
	Term   string        `json:"term"`
	Key    string        `json:"shared_key"`
	SD     []form.Number `json:"sd_db"`
	Source string        `json:"source"`
}

func doubtsOf(s path.Step) []Doubt {
	return form.Each(s.Uncertain, func(u path.Uncertain) Doubt { return Doubt{u.Term, u.Key, form.BandValues(u.SD), u.Source} })
}

// doubts names what makes a step uncertain, with the range of its deviations over the bands.
func doubts(s path.Step) string {
	var parts []string
	for _, u := range s.Uncertain {
		low, high := math.Inf(1), 0.0
		for _, v := range u.SD {
			low, high = math.Min(low, v), math.Max(high, v)
		}
		if high < 0.05 {
			continue
		}
		spread := fmt.Sprintf("%.1f", high)
		if high-low >= 0.05 {
			spread = fmt.Sprintf("%.1f to %.1f", low, high)
		}
		parts = append(parts, fmt.Sprintf("%s ±%s dB (%s)", u.Term, spread, u.Source))
	}
	if len(parts) == 0 {
		return ""
	}
	return " Doubt: " + strings.Join(parts, "; ") + "."
}
