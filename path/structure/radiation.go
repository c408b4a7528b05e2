package structure

import (
	"math"

	"hushwake/source/spectrum"
)

// radiationSource is that of the radiation efficiency.
const radiationSource = "Hopkins, Sound Insulation (2007), method 1, eq. (2.227) to (2.230): Leppington, in a baffle, simply supported"

// mostRadiation caps the efficiency of a third octave: near the critical frequency the form overshoots.
const mostRadiation = 3.0

// criticalFrequency is where the bending waves of a plate are as fast as sound in air, Hz. cL is the speed of
// longitudinal waves in m/s, the thickness h in m.
func criticalFrequency(cL, h float64) float64 {
	return soundSpeed * soundSpeed / (bendingFactor * cL * h)
}

// radiationEfficiency is that of a simply supported plate of lx by ly, m, in a baffle, in the third
// octave around f, Hz, for a field of bending waves of the critical frequency fc:
//
//	below: U/(2 pi mu k S sqrt(mu^2-1)) (ln((mu+1)/(mu-1)) + 2 mu/(mu^2-1)), mu = sqrt(fc/f)
//	at fc: (0.5 - 0.15 L1/L2) sqrt(k L1), L1 the shorter side
//	above: 1/sqrt(1 - mu^2)
func radiationEfficiency(f, fc, lx, ly float64) float64 {
	switch {
	case math.Abs(math.Log10(fc/f)) <= thirdHalf:
		short, long := math.Min(lx, ly), math.Max(lx, ly)
		return (0.5 - 0.15*short/long) * math.Sqrt(2*math.Pi*fc/soundSpeed*short)
	case f > fc:
		return 1 / math.Sqrt(1-fc/f)
	}
	mu, k := math.Sqrt(fc/f), 2*math.Pi*f/soundSpeed
	over := mu*mu - 1
	return 2 * (lx + ly) / (2 * math.Pi * mu * k * lx * ly * math.Sqrt(over)) *
		(math.Log((mu+1)/(mu-1)) + 2*mu/over)
}

// thirdHalf is half a third octave of base ten in lg of the frequency.
const thirdHalf = 0.05

// octaveRadiation is 10 lg of the octave means of the efficiency over three thirds, dB.
func octaveRadiation(m Material, h float64) (db spectrum.Bands) {
	fc := criticalFrequency(m.Speed, h)
	for i, f := range spectrum.Exact {
		sum := 0.0
		for _, third := range [3]float64{-0.1, 0, 0.1} {
			sum += math.Min(mostRadiation, radiationEfficiency(f*math.Pow(10, third), fc, m.Field[0], m.Field[1]))
		}
		db[i] = 10 * math.Log10(sum/3)
	}
	return db
}
