package fourpole

import (
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Skin is one way from the sound in an element to its space.
type Skin struct {
	Ratio float64 // radiating area over cross-section
	Loss  func(f float64) (float64, error)
	Bands *spectrum.Bands // loss by octave where it is known so
}

func (w Skin) octaves() (spectrum.Bands, error) {
	if w.Bands != nil {
		return *w.Bands, nil
	}
	return wallBands(w.Loss)
}

// Casing is all walls of an element with what is wrapped round them.
type Casing struct {
	Walls   []Skin
	Lagging float64 // m
	published.Cited
}

// PlateResonance is the first resonance of a clamped circular plate, Hz: 0.47 cL t/a^2 with the radius a and the speed
// cL of longitudinal waves (textbook form of 10.2/(2 pi a^2) sqrt(D/m)). Diameter and thickness are in m, the speed in
// m/s.
func PlateResonance(diameter, thick, speed float64) float64 {
	return 0.47 * speed * thick / (diameter * diameter / 4)
}

// PlateLoss is the mass law above a plate's first resonance; below it stiffness rules and the loss rises again by 6 dB
// an octave towards low frequency. The mass is in kg/m2, the first resonance in Hz.
func PlateLoss(mass, first float64) func(f float64) (float64, error) {
	return func(f float64) (float64, error) {
		if f >= first {
			return shellBreakout(mass, f)
		}
		tl, err := shellBreakout(mass, first)
		return tl + 20*math.Log10(first/f), err
	}
}

// Radiates is the power through all walls for a level inside.
func (c Casing) Radiates(inside spectrum.Bands) (spectrum.Bands, error) {
	out := spectrum.Fill(spectrum.Silent)
	wrap := lagged(c.Lagging)
	for _, w := range c.Walls {
		tl, err := w.octaves()
		if err != nil {
			return out, err
		}
		var part spectrum.Bands
		for i := range part {
			if part[i], err = radiatedThroughWall(inside[i], tl[i]+wrap[i], w.Ratio, 1); err != nil {
				return out, err
			}
		}
		out = spectrum.SumBands(out, part)
	}
	return out, nil
}

// lagged is what fibrous lagging with its cladding adds to a wall, dB: nothing at low frequency, more with
// frequency and thickness. Judgement.
func lagged(thickness float64) (b spectrum.Bands) {
	at50 := spectrum.Bands{0, 0, 0, 2, 5, 8, 10, 12, 12}
	for i := range b {
		b[i] = at50[i] * math.Min(1.5, thickness/0.05)
	}
	return b
}
