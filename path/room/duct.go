package room

import (
	"math"

	"hushwake/source/published"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// Duct is a lined duct before an opening.
type Duct struct {
	Length        float64 // m
	Width, Height float64 // m, clear
	Lining        string  // "" = unlined
	Thickness     float64 // m
	Bends         int     // square bends

	Measured *spectrum.Bands // dB, insertion loss of a silencer in the duct in place of the regression; nil = none
}

// LinedDuctCited cites the loss of a lined duct and its bends.
var LinedDuctCited = published.By("regression of lined ducts, bends", "Reynolds and Bledsoe, Algorithms for HVAC Acoustics (1990), regression for lined rectangular ducts", "read")

// ductCap is the most a lined duct is credited with, dB (same source).
const ductCap = 40.0

// narrowest clear side in m and lining in m that the regression was made for.
const (
	narrowestDuct = 0.15
	thinnestDuct  = 0.025
	thickestDuct  = 0.05
)

// linedDuct is the insertion loss of a straight duct lined on all four sides, dB:
//
//	IL = 3.281 b (0.305 P/A)^c (0.039 t)^d L, at most 40
//
// width and height clear in m, thickness t in mm inside the formula, length L in m; 31.5 Hz counts as 0.
// Source: LinedDuctCited; made for ducts from 150 mm and linings of 25 to 50 mm; a thicker one counts as 50 mm.
func linedDuct(width, height, thickness, length float64) (b spectrum.Bands) {
	if width <= 0 || height <= 0 || thickness <= 0 || length <= 0 {
		return b
	}
	coefficient := [8]float64{.0133, .0574, .271, 1.0147, 1.77, 1.392, 1.518, 1.581}
	shape := [8]float64{1.959, 1.41, .824, .5, .695, .802, .451, .219}
	depth := [8]float64{.917, .941, 1.079, 1.087, 0, 0, 0, 0}
	x, t := 0.305*2*(width+height)/(width*height), 0.039*math.Min(thickness, thickestDuct)*1e3
	for i := range coefficient {
		v := 3.281 * coefficient[i] * math.Pow(x, shape[i]) * math.Pow(t, depth[i]) * length
		b[i+1] = math.Min(ductCap, v)
	}
	return b
}

// bendLoss is the loss of a square bend of that clear width in m by frequency times width, dB.
// Source: ASHRAE Applications, square mitre bends; from memory.
func bendLoss(width float64, lined bool) (b spectrum.Bands) {
	steps := []float64{0, 1, 5, 8, 4, 3}
	if lined {
		steps = []float64{0, 1, 6, 11, 10, 10}
	}
	for i, f := range spectrum.Nominal {
		x, k := f/1e3*width/0.0254, 0
		for k < 5 && x >= 1.9*math.Exp2(float64(k)) {
			k++
		}
		b[i] = steps[k]
	}
	return b
}

// Loss is what a duct with its bends takes off what comes through an opening, dB.
func (d *Duct) Loss() (b spectrum.Bands) {
	if d == nil {
		return b
	}
	if d.Measured != nil {
		return *d.Measured
	}
	lined := d.Lining != "" && d.Thickness > 0
	if lined {
		b = linedDuct(d.Width, d.Height, d.Thickness, d.Length)
	}
	bend := bendLoss(math.Max(d.Width, d.Height), lined)
	for range d.Bends {
		b = b.Plus(bend)
	}
	for i := range b {
		b[i] = math.Min(b[i], ductCap)
	}
	return b
}

// flags says where a duct lies outside the regression.
func (d *Duct) flags(role string) (out []string) {
	if d == nil || d.Measured != nil {
		return nil
	}
	if least := math.Min(d.Width, d.Height); least < narrowestDuct {
		out = append(out, said.Textf("%s duct {%.0f mm} wide: the lined-duct regression was made from {150 mm}; extrapolated", role, least*1e3))
	}
	switch lined := d.Lining != ""; {
	case lined && d.Thickness > thickestDuct*1.01:
		out = append(out, said.Textf("%s duct lined {%.0f mm}: counted as the {50 mm} that the regression ends at", role, d.Thickness*1e3))
	case lined && d.Thickness > 0 && d.Thickness < thinnestDuct*0.99:
		out = append(out, said.Textf("%s duct lined {%.0f mm}: the regression was made from {25 mm}; extrapolated", role, d.Thickness*1e3))
	}
	if d.Lining == "" || d.Thickness <= 0 {
		out = append(out, role+" duct without lining: only its bends count")
	}
	return out
}
