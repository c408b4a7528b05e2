package fourpole

import (
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// DuctNoise is the sound power in octaves of a flow of u m/s in a duct of s m2, raised by a shift in dB for the gas;
// Silent without flow.
func DuctNoise(u, s, shift float64) (b spectrum.Bands, by published.Cited) {
	for i, f := range spectrum.Nominal {
		v, err := ductFlowNoiseOctave(u, s, f)
		if err != nil {
			return spectrum.Fill(spectrum.Silent), published.By("no flow", "identity", "derived")
		}
		b[i] = v + shift
	}
	return AboveSilence(b), published.By("Lw = 7 + 50 lg U + 10 lg S - 2 - 26 lg (1.14 + 0.02 f/U) + 10 lg (rho c0/(rho0 c))",
		FlowNoiseSources["DuctFlowNoise"], "from memory")
}

func AboveSilence(b spectrum.Bands) spectrum.Bands {
	for i := range b {
		b[i] = math.Max(b[i], spectrum.Silent)
	}
	return b
}
