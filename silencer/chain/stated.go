package chain

import (
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/source/spectrum"
)

// statedLoss is a loss in dB by octave that comes without a phase: energy is taken out beside the chain.
type statedLoss struct{ Bands spectrum.Bands }

// at is the loss at a frequency: that of its octave, so that the octave keeps the stated value; beyond the
// nine octaves that of the nearest.
func (s statedLoss) at(hz float64) float64 {
	if b := spectrum.BandOf(hz); b >= 0 {
		return s.Bands[b]
	}
	if hz < spectrum.Exact[0] {
		return s.Bands[0]
	}
	return s.Bands[spectrum.N-1]
}

// attenuator is a stretch of pipe of no length that takes a stated loss out and reflects nothing:
// [cosh a, Y sinh a; sinh a / Y, cosh a] with a the loss in nepers.
type attenuator struct {
	loss statedLoss
	y    float64
}

// At is the matrix at omega.
func (p attenuator) At(omega float64) fourpole.Matrix {
	a := p.loss.at(omega/(2*math.Pi)) * math.Ln10 / 20
	co, si := complex(math.Cosh(a), 0), math.Sinh(a)
	return fourpole.Matrix{T11: co, T12: complex(p.y*si, 0), T21: complex(si/p.y, 0), T22: co}
}
