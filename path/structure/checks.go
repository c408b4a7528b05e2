//go:build !js

package structure

import (
	"fmt"
	"math"
	"math/cmplx"

	"hushwake/source/published"
)

var Checks = published.Values{
	"structure.Hysteretic":          func(a []float64) (float64, error) { return transmissibility(a[0], a[1]), nil },
	"structure.DeflectionFrequency": func(a []float64) (float64, error) { return DeflectionFrequency(a[0]/1e3, a[1]), nil },
	"structure.MassOnMounts": func(a []float64) (float64, error) {
		// engine mass, feet, natural frequency, loss factor, frequency; free of foot and bed, no mass in the mount
		each := a[0] / a[1]
		m := newSpring(a[2], a[3], each, each*1e-9).Mobility(a[4])
		return 10 * math.Log10(denominator(a[4], each, m, 0, 0)/denominator(a[4], each, 0, 0, 0)), nil
	},
	"structure.Rod":   func(a []float64) (float64, error) { return cmplx.Abs(rodStiffening(a[0], a[1])), nil },
	"structure.Plate": func(a []float64) (float64, error) { return plateMobility(a[0], a[1], a[2]/1e3), nil },
	"structure.BeamPhase": func([]float64) (float64, error) {
		return cmplx.Phase(beamMobility(7800, 5270, 0.2, 0.012, 100)) * 180 / math.Pi, nil
	},
	"structure.BeamSlope":         func(a []float64) (float64, error) { return beamRatio(a[0], a[1]), nil },
	"structure.criticalFrequency": func(a []float64) (float64, error) { return criticalFrequency(plateSpeed(a), a[3]/1e3), nil },
	"structure.Radiation": func(a []float64) (float64, error) {
		// E in GPa, Poisson's ratio, density, mm, two sides, frequency
		return radiationEfficiency(a[6], criticalFrequency(plateSpeed(a), a[3]/1e3), a[4], a[5]), nil
	},
	"structure.RadiationAbove": func(a []float64) (float64, error) {
		return radiationEfficiency(a[0], 1, 1, 1), nil
	},
	"structure.FieldRadiation": func(a []float64) (float64, error) {
		m, ok := MaterialNamed("steel")
		if !ok {
			return 0, fmt.Errorf("no steel in the table")
		}
		return octaveRadiation(m, a[0]/1e3)[int(a[1])], nil
	},
	"structure.Cross":        func([]float64) (float64, error) { return crossTransmission, nil },
	"structure.Corner":       func([]float64) (float64, error) { return cornerTransmission, nil },
	"structure.Tee":          func([]float64) (float64, error) { return teeTransmission, nil },
	"structure.TwoPlates":    func(a []float64) (float64, error) { return twoPlates(a[0]), nil },
	"structure.ChainBalance": func(a []float64) (float64, error) { return dissipated(int(a[0]), a[1]), nil },
}

// beamRatio is the mobility of a beam at one frequency over that at another.
func beamRatio(f, other float64) float64 {
	return cmplx.Abs(beamMobility(7800, 5270, 0.2, 0.012, f)) / cmplx.Abs(beamMobility(7800, 5270, 0.2, 0.012, other))
}

// plateSpeed is sqrt(E/(rho (1 - nu^2))) from E in GPa, Poisson's ratio and density.
func plateSpeed(a []float64) float64 { return math.Sqrt(a[0] * 1e9 / (a[2] * (1 - a[1]*a[1]))) }

// twoPlates is the energy of the far plate over that of the near one at f, dB.
func twoPlates(f float64) float64 {
	steel, _ := MaterialNamed("steel")
	h := Hull{Material: steel, Spaces: []Space{
		{Area: 40.32, Girth: 7.4, Plate: 0.006, Damping: 0.01}, {Area: 28.9, Girth: 7.4, Plate: 0.005, Damping: 0.01}}}
	e := h.Energies(f)
	return 10 * math.Log10(e[1]/e[0])
}

// dissipated is the power lost in all plates of n spaces for 1 W put in.
func dissipated(n int, f float64) (sum float64) {
	steel, _ := MaterialNamed("steel")
	h := Hull{Material: steel}
	for i := range n {
		h.Spaces = append(h.Spaces, NewSpace([3]float64{2 + 0.3*float64(i), 3, 2}, i == 0, 0.005, 0.005+0.004*float64(i)))
	}
	for i, e := range h.Energies(f) {
		sum += 2 * math.Pi * f * h.Spaces[i].Damping * e
	}
	return sum
}
