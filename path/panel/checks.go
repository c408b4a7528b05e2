//go:build !js

package panel

import (
	"errors"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

var Checks = published.Values{
	"panel.plateau":   func(a []float64) (float64, error) { return plateau(a[0], a[1], a[2]), nil },
	"panel.Leaf":      leafLoss,
	"panel.resonance": func(a []float64) (float64, error) { return resonance(a[0], a[1], a[2]), nil },
	"panel.Composite": compositeCheck,
	"panel.WithOpen": func(a []float64) (float64, error) {
		return WithOpen(spectrum.Fill(a[0]), 1, a[1])[4], nil
	},
	"panel.Glass":         func(a []float64) (float64, error) { return single("glass", a[0], int(a[1])), nil },
	"panel.Glazing":       doubleLeaf("glass"),
	"panel.DoubleSteel":   doubleLeaf("steel"),
	"panel.DoublePlywood": doubleLeaf("plywood"),
	"panel.StudWall":      doubleLeaf("gypsum"),
	"panel.Transmittance": transmittance,
	"panel.Deviation":     func(a []float64) (float64, error) { return modelDeviation(a[0], a[1]) },
	"panel.lowTaper": func(a []float64) (float64, error) {
		// ratio of room constants a/(1-a) of a band to that at 500 Hz
		t := lowTaper(a[0])
		r := func(i int) float64 { return t[i] / (1 - t[i]) }
		return r(int(a[1])) / r(4), nil
	},
	"panel.Absorption": func(a []float64) (float64, error) {
		b, _, _, ok := AbsorptionOf("glass fibre", a[0])
		if !ok {
			return 0, errors.New("no row")
		}
		return b[int(a[1])], nil
	},
}

func single(material string, thickness float64, band int) float64 {
	return Default().TransmissionLoss(BuildUp{{Material: material, Thickness: thickness}}).Bands[band]
}

// compositeCheck takes pairs of area and loss.
func compositeCheck(a []float64) (float64, error) {
	var parts []Part
	for ; len(a) >= 2; a = a[2:] {
		parts = append(parts, Part{Area: a[0], Loss: spectrum.Fill(a[1])})
	}
	return Composite(parts...)[0], nil
}

// doubleLeaf takes thickness, gap, thickness and band of two leaves on an empty gap.
func doubleLeaf(material string) published.Value {
	return func(a []float64) (float64, error) {
		r := Default().TransmissionLoss(BuildUp{{Material: material, Thickness: a[0]}, {Material: "air", Thickness: a[1]},
			{Material: material, Thickness: a[2]}})
		return r.Bands[int(a[3])], nil
	}
}

// transmittance takes the thickness of steel, plywood, foam, air and glass; 0 = none of it.
func transmittance(a []float64) (float64, error) {
	var b BuildUp
	for i, name := range []string{"steel", "plywood", "foam", "air", "glass"} {
		if a[i] > 0 {
			b = append(b, Layer{Material: name, Thickness: a[i]})
		}
	}
	u, _ := Default().Transmittance(b)
	return u, nil
}

// modelDeviation is the model's rms deviation from a published row: thickness and a density that tells steel from glass.
func modelDeviation(thickness, density float64) (float64, error) {
	name := "glass"
	if density > 5000 {
		name = "steel"
	}
	for _, f := range surfaceFits() {
		if f.Row.Material == name && f.Row.Thickness == thickness && f.Judged {
			return f.RMS, nil
		}
	}
	return 0, errors.New("no such row")
}

// leafLoss takes mass, critical frequency, plateau and frequency: the branch above fc.
func leafLoss(a []float64) (float64, error) {
	return aboveCritical(a[2], a[3], a[1]), nil
}
