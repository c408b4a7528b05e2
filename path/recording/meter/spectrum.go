// Package meter measures levels of samples: octave and third octave bands, A and C, from an averaged spectrum, and octaves by
// filters as a sound level meter has them. Levels are relative to a mean square of 1.
package meter

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/dsp/window"

	"hushwake/source/spectrum"
)

const (
	// blockSeconds is the length of a block of the spectrum.
	blockSeconds = 8.0
	// lowest is where levels begin, Hz: under it lie offset and handling.
	lowest = 10.0
	// Thirds is the number of third octave bands, 25 Hz to 10 kHz.
	Thirds = 27
)

// Spectrum is the mean power spectrum of a sound in Hann blocks that overlap by half (P. D. Welch, IEEE Trans. Audio
// Electroacoustics 15 (1967) 70). Samples are added as they come; it holds one block of them whatever the length. A sound
// shorter than a block is one block of its own length.
type Spectrum struct {
	Rate  float64   // Hz
	Power []float64 // mean square of the bins, by k Rate/Size; see Close
	Size  int       // samples of a block

	full   int // of a block, where there are enough
	held   []float64
	blocks int
	fresh  int // samples since the last block
}

// NewSpectrum begins a spectrum.
func NewSpectrum(rate int) *Spectrum {
	return &Spectrum{Rate: float64(rate), full: Smooth(int(blockSeconds * float64(rate)))}
}

// Smooth is the largest number up to n that has no prime factor over 5: a length that transforms fast.
func Smooth(n int) int {
	for ; n > 1; n-- {
		m := n
		for _, p := range []int{2, 3, 5} {
			for m%p == 0 {
				m /= p
			}
		}
		if m == 1 {
			break
		}
	}
	return n
}

// Add takes samples in.
func (s *Spectrum) Add(samples []float64) {
	for len(samples) > 0 {
		n := min(s.full-len(s.held), len(samples))
		s.held, samples = append(s.held, samples[:n]...), samples[n:]
		s.fresh += n
		if len(s.held) == s.full {
			s.block(s.held)
			s.held = s.held[:copy(s.held, s.held[s.full/2:])]
		}
	}
}

// block adds the spectrum of one block, its mean removed.
func (s *Spectrum) block(x []float64) {
	s.fresh, s.Size = 0, len(x)
	mean, w := 0.0, make([]float64, len(x))
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for i := range w {
		w[i] = 1
	}
	window.Hann(w)
	squares := 0.0
	for i, v := range w {
		squares += v * v
		w[i] = v * (x[i] - mean)
	}
	c := fourier.NewFFT(len(x)).Coefficients(nil, w)
	if s.Power == nil {
		s.Power = make([]float64, len(c))
	}
	scale := 2 / (squares * float64(len(x)))
	for k, v := range c {
		s.Power[k] += scale * (real(v)*real(v) + imag(v)*imag(v))
	}
	s.blocks++
}

// Close ends the spectrum: the mean of its blocks. A rest of under half a block at the end is left out.
func (s *Spectrum) Close() error {
	if s.blocks == 0 && len(s.held) > 1 {
		s.block(s.held[:Smooth(len(s.held))])
	}
	if s.blocks == 0 {
		return fmt.Errorf("no samples to measure")
	}
	for k := range s.Power {
		s.Power[k] /= float64(s.blocks)
	}
	s.held, s.blocks = nil, 1
	return nil
}

// At is the frequency of a bin, Hz.
func (s *Spectrum) At(k int) float64 { return float64(k) * s.Rate / float64(s.Size) }

// Between is the power from one frequency to another, Hz; a bin counts where its middle lies.
func (s *Spectrum) Between(low, high float64) (p float64) {
	each := s.Rate / float64(s.Size)
	for k := max(int(math.Ceil(low/each)), 1); k < len(s.Power) && float64(k)*each < high; k++ {
		p += s.Power[k]
	}
	return p
}

// Edge is the ratio of a band's upper edge to its middle: 10^0.15 of octaves, 10^0.05 of thirds (IEC 61260-1:2014, base ten).
var (
	octaveEdge = math.Pow(10, 0.15)
	thirdEdge  = math.Pow(10, 0.05)
)

// Octaves are the levels of the nine octave bands, dB; a band that reaches over half the sampling rate is silent.
func (s *Spectrum) Octaves() (b spectrum.Bands) {
	for i, f := range spectrum.Exact {
		b[i] = s.band(f, octaveEdge)
	}
	return b
}

// ThirdOctaves are the levels of the third octave bands from 25 Hz, dB.
func (s *Spectrum) ThirdOctaves() (b [Thirds]float64) {
	for i := range b {
		b[i] = s.band(Third(i), thirdEdge)
	}
	return b
}

// Third is the exact middle of a third octave band, Hz.
func Third(i int) float64 { return 1000 * math.Pow(10, float64(i-16)/10) }

func (s *Spectrum) band(f, edge float64) float64 {
	if f*edge > s.Rate/2 {
		return spectrum.Silent
	}
	return spectrum.Level(s.Between(f/edge, f*edge))
}

// Weighted is the level with each bin weighted at its own frequency, dB; nil weights nothing.
func (s *Spectrum) Weighted(at func(f float64) float64) float64 {
	p := 0.0
	for k := range s.Power {
		f := s.At(k)
		switch {
		case f < lowest:
		case at == nil:
			p += s.Power[k]
		default:
			p += s.Power[k] * spectrum.Power(at(f))
		}
	}
	return spectrum.Level(p)
}
