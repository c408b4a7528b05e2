package silencer

import (
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/source/spectrum"
)

func ductNoise(u, s, shift float64) (b spectrum.Bands, formula, source string) {
	for i, f := range spectrum.Nominal {
		v, err := fourpole.DuctFlowNoiseOctave(u, s, f)
		if err != nil {
			return spectrum.Fill(spectrum.Silent), "no flow", "identity"
		}
		b[i] = v + shift
	}
	return floor(b), "Lw = 7 + 50 lg U + 10 lg S - 2 - 26 lg (1.14 + 0.02 f/U) + 10 lg (rho c0/(rho0 c))",
		fourpole.FlowNoiseSources["DuctFlowNoise"]
}

func floor(b spectrum.Bands) spectrum.Bands {
	for i := range b {
		b[i] = math.Max(b[i], spectrum.Silent)
	}
	return b
}
