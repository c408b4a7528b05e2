// Package spectrum does decibel arithmetic on the nine octave bands 31.5 Hz to 8 kHz:
// energy sums, weightings, noise ratings, speech and exposure.
package spectrum

import "math"

// N is the number of octave bands used everywhere in the program.
const N = 9

// Silent stands for "no sound at all" in dB: finite, so that sums and JSON stay clean.
const Silent = -200.0

// Bands holds one value per octave band, 31.5 Hz to 8 kHz, usually in dB.
type Bands [N]float64

// Nominal gives the nominal band centres in Hz (IEC 61260-1, nominal midband frequencies).
var Nominal = Bands{31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000}

// Exact gives the exact band centres 1000*10^(3n/10) in Hz (IEC 61260-1, base ten).
var Exact = exactCentres()

func exactCentres() (b Bands) {
	for i := range b {
		b[i] = 1000 * math.Pow(10, 0.3*float64(i-5))
	}
	return b
}

// BandOf is the index of the octave band that holds a frequency in Hz, -1 for none. Edges lie at
// 10^(+-0.15) of the exact centres, 22.4 Hz to 11.2 kHz (IEC 61260-1, base ten); a lower edge belongs
// to its band.
func BandOf(f float64) int {
	if !(f > 0) || math.IsInf(f, 1) {
		return -1
	}
	i := int(math.Floor(math.Log10(f/1000)/0.3+0.5)) + 5
	if i < 0 || i >= N {
		return -1
	}
	return i
}

// Fill returns bands that all hold v.
func Fill(v float64) (b Bands) {
	for i := range b {
		b[i] = v
	}
	return b
}

// Plus adds o to b band by band (decibels add when a gain or loss is applied to a level).
func (b Bands) Plus(o Bands) Bands {
	for i := range b {
		b[i] += o[i]
	}
	return b
}

// Minus subtracts o from b band by band.
func (b Bands) Minus(o Bands) Bands {
	for i := range b {
		b[i] -= o[i]
	}
	return b
}

// Times multiplies every band.
func (b Bands) Times(f float64) Bands {
	for i := range b {
		b[i] *= f
	}
	return b
}

// Shift adds v dB to every band.
func (b Bands) Shift(v float64) Bands { return b.Plus(Fill(v)) }

// Power turns a level in dB into a relative energy, 10^(L/10).
func Power(db float64) float64 { return math.Exp(db * (math.Ln10 / 10)) }

// Level turns a relative energy into dB, not lower than Silent.
func Level(power float64) float64 {
	if power <= 1e-20 {
		return Silent
	}
	return 10 * math.Log10(power)
}

// Sum adds levels as energy, in dB.
func Sum(levels ...float64) float64 {
	p := 0.0
	for _, l := range levels {
		p += Power(l)
	}
	return Level(p)
}

// SumBands adds several spectra as energy, band by band.
func SumBands(spectra ...Bands) (b Bands) {
	for i := range b {
		p := 0.0
		for _, s := range spectra {
			p += Power(s[i])
		}
		b[i] = Level(p)
	}
	return b
}

// Total is the unweighted energy sum of the bands, in dB.
func (b Bands) Total() float64 { return Sum(b[:]...) }

// Powers turns levels into energy ratios, band by band.
func Powers(db Bands) (b Bands) {
	for i := range db {
		b[i] = Power(db[i])
	}
	return b
}

// Levels turns energy ratios into levels, dB, band by band.
func Levels(power Bands) (b Bands) {
	for i := range power {
		b[i] = Level(power[i])
	}
	return b
}
