package wet

import (
	"math"

	"hushwake/source/spectrum"
)

// Plugs of water in a riser in slug flow (Taitel, Barnea and Dukler 1980, from memory).
const (
	plugLength = 16.0 // bores
	plugVoid   = 0.35
	cellVoid   = 0.88 // in the gas between plugs
	plugSeal   = 0.5  // how much of the time a plug shuts tight, judgement (0 to 1)
	plugMost   = 25.0 // dB, what wall and hose let pass beside a plug, judgement
)

// PlugMass is the water of a plug two bores long that sound must move, kg/m2.
func (f Flow) PlugMass() float64 { return f.WaterDensity * (1 - plugVoid) * 2 * f.Bore }

// plugLoss is the transmission loss of a plug of water (kg/m2) in gas of impedance rho c at a frequency (Hz), dB: the
// mass law 10 lg(1 + (w m/(2 rho c))^2), exact for a limp layer.
func plugLoss(mass, impedance, frequency float64) float64 {
	x := math.Pi * frequency * mass / impedance
	return 10 * math.Log10(1+x*x)
}

// Plugged is the share of the time that a riser of a length (m) is shut, from the book-keeping of the unit cell of
// slug flow (derived): plugs stand in the mean void fraction, an open core (Wallis number to 0.9) has none,
//
//	phi = 0.5 min(1, (ls + L)/ls max(0, 0.88 - alpha)/0.53) min(1, max(0, (0.9 - j*)/0.7))
func (f Flow) Plugged(length float64) float64 {
	if f.Water == 0 {
		return 0
	}
	ls := plugLength * f.Bore
	phi := math.Min(1, (ls+length)/ls*math.Max(0, cellVoid-f.DriftFlux())/(cellVoid-plugVoid))
	return plugSeal * phi * math.Min(1, math.Max(0, (0.9-f.Wallis())/0.7))
}

// PlugLoss is what a riser's plugs take by octave, as energy over time: -10 lg(1 - phi + phi tau). A riser shut half
// the time takes 3 dB, not the plug's 30. The length is in m, the impedance rho c in Pa s/m.
func (f Flow) PlugLoss(length, impedance float64) (b spectrum.Bands) {
	phi := f.Plugged(length)
	for i, hz := range spectrum.Exact {
		tau := spectrum.Power(-math.Min(plugMost, plugLoss(f.PlugMass(), impedance, hz)))
		b[i] = -10 * math.Log10(1-phi+phi*tau)
	}
	return b
}
