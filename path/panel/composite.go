package panel

import (
	"math"

	"hushwake/source/spectrum"
)

// Part is one part of a wall.
type Part struct {
	Name string
	Area float64        // m2
	Loss spectrum.Bands // dB; zero for an opening
}

// Opening is a hole of that area: no loss.
func Opening(area float64) Part { return Part{Name: "opening", Area: area} }

// Composite is the loss of a wall made of parts, by energy:
//
//	R = -10 lg(sum S_i 10^(-R_i/10) / sum S_i)
//
// (ISO 12354-3:2017, 4, textbook form). No area at all is no panel: 0 dB.
func Composite(parts ...Part) (b spectrum.Bands) {
	total := 0.0
	for _, p := range parts {
		total += math.Max(0, p.Area)
	}
	if total <= 0 {
		return b
	}
	for i := range b {
		t := 0.0
		for _, p := range parts {
			t += math.Max(0, p.Area) * spectrum.Power(-p.Loss[i])
		}
		b[i] = -spectrum.Level(t / total)
	}
	return b
}

// WithOpen is a wall of one loss of which an area stands open; both areas in m2.
func WithOpen(loss spectrum.Bands, area, open float64) spectrum.Bands {
	open = math.Min(math.Max(open, 0), area)
	return Composite(Part{Area: area - open, Loss: loss}, Opening(open))
}
