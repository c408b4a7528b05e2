package silencer

import (
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// wall is one way from the sound in an element to its space.
type wall struct {
	ratio float64 // radiating area over cross-section
	loss  func(f float64) (float64, error)
	bands *spectrum.Bands // loss by octave where it is known so
}

func (w wall) octaves() (spectrum.Bands, error) {
	if w.bands != nil {
		return *w.bands, nil
	}
	return fourpole.WallBands(w.loss)
}

// casing is all walls of an element with what is wrapped round them.
type casing struct {
	walls   []wall
	lagging float64 // m
	published.Cited
}

// plateResonance is the first resonance of a clamped circular plate, Hz: 0.47 cL t/a^2 with the radius
// a and the speed cL of longitudinal waves (textbook form of 10.2/(2 pi a^2) sqrt(D/m)).
func plateResonance(diameter, thick, speed float64) float64 {
	return 0.47 * speed * thick / (diameter * diameter / 4)
}

// plateLoss is the mass law above a plate's first resonance; below it stiffness rules and the loss
// rises again by 6 dB an octave towards low frequency.
func plateLoss(mass, first float64) func(f float64) (float64, error) {
	return func(f float64) (float64, error) {
		if f >= first {
			return fourpole.ShellBreakout(mass, f)
		}
		tl, err := fourpole.ShellBreakout(mass, first)
		return tl + 20*math.Log10(first/f), err
	}
}

// radiates is the power through all walls for a level inside.
func (c casing) radiates(inside spectrum.Bands) (spectrum.Bands, error) {
	out := spectrum.Fill(spectrum.Silent)
	wrap := lagged(c.lagging)
	for _, w := range c.walls {
		tl, err := w.octaves()
		if err != nil {
			return out, err
		}
		var part spectrum.Bands
		for i := range part {
			if part[i], err = fourpole.RadiatedThroughWall(inside[i], tl[i]+wrap[i], w.ratio, 1); err != nil {
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
