package study

import (
	"fmt"
	"math"
	"math/cmplx"

	"hushwake/path/structure"
	"hushwake/source/spectrum"
)

var _ = register(structureChecks)

var structureChecks = map[string]checkFunc{
	"structure.Viscous":             func(a []float64) (float64, error) { return structure.ViscousTransmissibility(a[0], a[1]), nil },
	"structure.Hysteretic":          func(a []float64) (float64, error) { return structure.Transmissibility(a[0], a[1]), nil },
	"structure.DeflectionFrequency": func(a []float64) (float64, error) { return structure.DeflectionFrequency(a[0]/1e3, a[1]), nil },
	"structure.Passed": func(a []float64) (float64, error) {
		// share of the force passed, by deflection in mm, frequency and damping ratio
		r := a[1] / structure.DeflectionFrequency(a[0]/1e3, 1)
		return math.Pow(10, structure.ViscousTransmissibility(r, a[2])/20), nil
	},
	"structure.MassOnMounts": func(a []float64) (float64, error) {
		// engine mass, feet, natural frequency, loss factor, frequency; free of foot and bed, no mass in the mount
		each := a[0] / a[1]
		m := structure.NewSpring(a[2], a[3], each, each*1e-9).Mobility(a[4])
		return 10 * math.Log10(structure.Denominator(a[4], each, m, 0, 0)/structure.Denominator(a[4], each, 0, 0, 0)), nil
	},
	"structure.Rod":             func(a []float64) (float64, error) { return cmplx.Abs(structure.RodStiffening(a[0], a[1])), nil },
	"structure.Plate":           func(a []float64) (float64, error) { return structure.PlateMobility(a[0], a[1], a[2]/1e3), nil },
	"structure.PlateStandard":   func(a []float64) (float64, error) { return 1 / (2.3 * a[0] * a[1] * a[2] * a[2] * 1e-6), nil },
	"structure.PlateEdge":       func(a []float64) (float64, error) { return structure.EdgeMobility(a[0], a[1], a[2]/1e3), nil },
	"structure.BeamEndToMiddle": func([]float64) (float64, error) { return beamRatio(100, 100), nil },
	"structure.BeamPhase": func([]float64) (float64, error) {
		return cmplx.Phase(structure.BeamMobility(7800, 5270, 0.2, 0.012, 100)) * 180 / math.Pi, nil
	},
	"structure.BeamSlope":         func(a []float64) (float64, error) { return beamRatio(a[0], a[1]) / 4, nil },
	"structure.CriticalFrequency": func(a []float64) (float64, error) { return structure.CriticalFrequency(plateSpeed(a), a[3]/1e3), nil },
	"structure.Radiation": func(a []float64) (float64, error) {
		// E in GPa, Poisson's ratio, density, mm, two sides, frequency
		return structure.RadiationEfficiency(a[6], structure.CriticalFrequency(plateSpeed(a), a[3]/1e3), a[4], a[5]), nil
	},
	"structure.RadiationAbove": func(a []float64) (float64, error) {
		return structure.RadiationEfficiency(a[0], 1, 1, 1), nil
	},
	"structure.FieldRadiation": func(a []float64) (float64, error) {
		m, ok := structure.MaterialNamed("steel")
		if !ok {
			return 0, fmt.Errorf("no steel in the table")
		}
		return structure.OctaveRadiation(m, a[0]/1e3)[int(a[1])], nil
	},
	"structure.Cross":        func([]float64) (float64, error) { return structure.CrossTransmission, nil },
	"structure.Corner":       func([]float64) (float64, error) { return structure.CornerTransmission, nil },
	"structure.Tee":          func([]float64) (float64, error) { return structure.TeeTransmission, nil },
	"structure.TwoPlates":    func(a []float64) (float64, error) { return twoPlates(a[0]), nil },
	"structure.ChainBalance": func(a []float64) (float64, error) { return dissipated(int(a[0]), a[1]), nil },
	"structure.Coupling": func(a []float64) (float64, error) {
		return structure.CouplingTerm(complex(a[0], 0), complex(a[1], 0)), nil
	},
	"structure.InSitu": func(a []float64) (float64, error) { return inSitu(int(a[0])), nil },
}

// beamRatio is the mobility at the end of a beam at one frequency over that in its middle at another.
func beamRatio(end, middle float64) float64 {
	return cmplx.Abs(structure.BeamEndMobility(7800, 5270, 0.2, 0.012, end)) / cmplx.Abs(structure.BeamMobility(7800, 5270, 0.2, 0.012, middle))
}

// plateSpeed is sqrt(E/(rho (1 - nu^2))) from E in GPa, Poisson's ratio and density.
func plateSpeed(a []float64) float64 { return math.Sqrt(a[0] * 1e9 / (a[2] * (1 - a[1]*a[1]))) }

// twoPlates is the energy of the far plate over that of the near one at f, dB.
func twoPlates(f float64) float64 {
	steel, _ := structure.MaterialNamed("steel")
	h := structure.Hull{Material: steel, Spaces: []structure.Space{
		{Area: 40.32, Girth: 7.4, Plate: 0.006, Damping: 0.01}, {Area: 28.9, Girth: 7.4, Plate: 0.005, Damping: 0.01}}}
	e := h.Energies(f)
	return 10 * math.Log10(e[1]/e[0])
}

// dissipated is the power lost in all plates of n spaces for 1 W put in.
func dissipated(n int, f float64) (sum float64) {
	steel, _ := structure.MaterialNamed("steel")
	h := structure.Hull{Material: steel}
	for i := range n {
		h.Spaces = append(h.Spaces, structure.NewSpace([3]float64{2 + 0.3*float64(i), 3, 2}, i == 0, 0.005, 0.005+0.004*float64(i)))
	}
	for i, e := range h.Energies(f) {
		sum += 2 * math.Pi * f * h.Spaces[i].Damping * e
	}
	return sum
}

// inSitu is the worked example of EN 12354-5:2009 annex I.3, table I.9, in band 63 Hz + i octaves: a source on
// wall and floor, four paths by wall and floor of the far room.
func inSitu(i int) float64 {
	wall, floor := structure.CouplingTerm(1e-3, 24.1e-6), structure.CouplingTerm(1e-3, 1.65e-6)
	lw := [2][6]float64{{84.4, 82.5, 69.9, 67.6, 61.6, 49.9}, {80.1, 78.9, 66.7, 65.1, 57.6, 51.6}}
	dsa := [2][6]float64{{-13.6, -17.3, -17.4, -20.0, -26.9, -32.9}, {-15.5, -19.4, -26.7, -33.2, -39.1, -44.8}}
	area := [2]float64{12.8, 15.4}
	r := [2][2][6]float64{
		{{43.0, 46.0, 50.2, 54.7, 64.6, 73.0}, {37.0, 41.2, 35.9, 37.7, 49.0, 57.8}},
		{{42.4, 45.9, 50.1, 54.7, 64.6, 73.0}, {29.1, 32.3, 43.7, 53.5, 62.1, 70.1}}}
	var all []float64
	for from, dc := range [2]float64{wall, floor} {
		for to := range 2 {
			all = append(all, lw[from][i]-dc-dsa[from][i]-r[from][to][i]-10*math.Log10(area[from]/10)-10*math.Log10(10.0/4))
		}
	}
	return spectrum.Sum(all...)
}
