package fourpole

import (
	"fmt"
	"math"

	"hushwake/source/spectrum"
)

// Flow noise. Levels are dB re 1 pW for air at 20 C; U in m/s, S in m2. A level below spectrum.Silent is Silent.

// FlowNoiseSources name the published forms by function.
var FlowNoiseSources = map[string]string{
	"DuctFlowNoise":     "VDI 2081-1:2001 eq. 16, 17 (read second-hand)",
	"BendFlowNoise":     "Bies, Hansen & Howard, 5th ed., eq. 8.254 (read second-hand)",
	"SplitterFlowNoise": "VDI 2081-1:2001 eq. 49 (read second-hand)",
	"JetNoise":          "Lighthill 1952 (from memory)",
	"SilencerFlowNoise": "form of VDI 2081-1:2001 eq. 16, constant from one measured silencer (derived, ±5 dB)",
}

func checkFlow(what string, numbers ...float64) error {
	for _, x := range numbers {
		if !(x > 0) || math.IsInf(x, 0) {
			return fmt.Errorf("flow noise of a %s: velocity, area, and sizes must be positive, not %g", what, x)
		}
	}
	return nil
}

// ductFlowNoise is the sound power of a straight duct, 7 + 50 lg U + 10 lg S dB, and A-weighted -25 + 70 lg U + 10 lg S
// dB (VDI 2081-1:2001 eq. 16, 17). It underrates a silencer by 20-30 dB. U is in m/s, S in m2.
func ductFlowNoise(u, s float64) (linear, weighted float64, err error) {
	if err := checkFlow("duct", u, s); err != nil {
		return 0, 0, err
	}
	return 7 + 50*math.Log10(u) + 10*math.Log10(s), -25 + 70*math.Log10(u) + 10*math.Log10(s), nil
}

// ductFlowNoiseOctave is its level in the octave at f Hz, less 2 + 26 lg(1.14 + 0.02 f/U) (VDI 2081-1:2001; Bies 5th
// ed. eq. 8.251). U is in m/s, S in m2.
func ductFlowNoiseOctave(u, s, f float64) (float64, error) {
	all, _, err := ductFlowNoise(u, s)
	return all + flowShape(u, f), err
}

func flowShape(u, f float64) float64 { return -2 - 26*math.Log10(1.14+0.02*f/u) }

// silencerFlowNoise is the A-weighted sound power at the outlet of a silencer, or behind a constriction, whose smallest
// passage has the velocity U and the area S: 25 + 50 lg U + 10 lg S dB. The constant rests on the only measured
// silencer known here (49.7, 64.8 and 79.7 dB, slope 52 dB per decade): ±5 dB, not validated. U is in m/s, S in m2.
func silencerFlowNoise(u, s float64) (float64, error) {
	if err := checkFlow("silencer", u, s); err != nil {
		return 0, err
	}
	return math.Max(25+50*math.Log10(u)+10*math.Log10(s), spectrum.Silent), nil
}

// SilencerFlowNoiseBands spreads silencerFlowNoise over the octaves with the shape of ductFlowNoiseOctave, so that
// their A-weighted sum is that level. HotFlowNoiseShift corrects for the gas. U is in m/s, S in m2.
func SilencerFlowNoiseBands(u, s float64) (spectrum.Bands, error) {
	total, err := silencerFlowNoise(u, s)
	if err != nil {
		return spectrum.Fill(spectrum.Silent), err
	}
	var b spectrum.Bands
	for i, f := range spectrum.Nominal {
		b[i] = flowShape(u, f)
	}
	b = b.Shift(total - b.DBA())
	for i := range b {
		b[i] = math.Max(b[i], spectrum.Silent)
	}
	return b, nil
}

// HotFlowNoiseShift is what a gas of this density and speed of sound adds at equal velocity, 10 lg((rho/1.204)(343/c)):
// sources that send plane waves into a pipe go as rho U^4/c (derived); -5 dB at 400 C. Compact sources in the open
// lose more (rho/c^3).
func HotFlowNoiseShift(m Medium) float64 {
	return 10 * math.Log10(m.Density/1.204*343/m.SoundSpeed)
}
