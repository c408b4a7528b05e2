package structure

import "hushwake/source/spectrum"

// Standard deviations of the way, dB, all judgement; those of values not stated come on top.
var (
	FeetSD   = spectrum.Fill(4)
	BedSD    = spectrum.Fill(2)
	BridgeSD = spectrum.Fill(3)
	HullSD   = spectrum.Bands{6, 6, 6, 4, 4, 4, 4, 4, 4}
	PlatesSD = spectrum.Fill(3)
	StatedSD = spectrum.Fill(2) // of a maker's free velocity

	MountsUnstatedSD     = spectrum.Fill(6.6) // half of what lies between rigid feet and rubber
	SetMountsUnstatedSD  = spectrum.Fill(4)   // generator sets come on mounts
	DeflectionUnstatedSD = spectrum.Bands{5, 5, 2, 2, 2, 2, 2, 2, 2}
	BridgesUnstatedSD    = spectrum.Fill(3)
	MassUnstatedSD       = spectrum.Fill(1)
	HullUnstatedSD       = spectrum.Fill(5)
	WayUnknownSD         = spectrum.Fill(5) // no wall and no place says how a space hangs together with the engine's
	SandwichSD           = spectrum.Fill(3) // taken as solid laminate
)

// MountSD is that of mounts of natural frequency f0, Hz: more in bands below four times it.
func MountSD(f0 float64) (sd spectrum.Bands) {
	for i, f := range spectrum.Exact {
		if sd[i] = 3; f < 4*f0 {
			sd[i] = 6
		}
	}
	return sd
}
