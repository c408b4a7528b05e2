package structure

import "math"

// mobilitySource is that of the point mobilities.
const mobilitySource = "Cremer, Heckl and Petersson, Structure-Borne Sound, table 5.1; EN 12354-5:2009 annex D"

// plateMobility is that of an infinite plate of thickness h, m/(N s): 1/(8 sqrt(B' m”)), real. Valid where bending
// waves are long against the thickness. The density is in kg/m3, cL the speed of longitudinal waves in m/s, h in m.
func plateMobility(density, cL, h float64) float64 {
	return math.Sqrt(12) / (8 * density * cL * h * h)
}

// beamMobility is that of an infinite beam of that depth and width excited in its middle, m/(N s):
//
//	Y = 1/(2 m' cB (1 + j)), m' = rho depth width
//
// It lags by 45 degrees and falls with the root of the frequency. The density is in kg/m3, cL in m/s, depth and width
// in m, f in Hz.
func beamMobility(density, cL, depth, width, f float64) complex128 {
	return 1 / complex(2*density*depth*width*bendingSpeed(cL, depth, f), 0) / complex(1, 1)
}

// Bed is a girder that the feet stand on, m.
type Bed struct {
	Depth, Width, Cap float64
}

// capShare is the part of its mobility that is left to a cap plate with the web under it (judgement).
const capShare = 0.1

// mobility is the magnitude of the bed's mobility, m/(N s): the girder as a beam, at high frequency
// not less than a share of its cap plate's.
func (b Bed) mobility(m Material) func(f float64) float64 {
	cap := capShare * plateMobility(m.Density, m.Speed, b.Cap)
	at1 := magnitude(beamMobility(m.Density, m.Speed, b.Depth, b.Width, 1))
	return func(f float64) float64 { return math.Max(at1/math.Sqrt(f), cap) }
}

// footMobility is that of an engine's foot bracket, m/(N s), by the engine's mass in kg (judgement).
func footMobility(mass float64) float64 { return 2e-5 * math.Cbrt(500/mass) }

func magnitude(c complex128) float64 { return math.Hypot(real(c), imag(c)) }

func square(c complex128) float64 { return real(c)*real(c) + imag(c)*imag(c) }
