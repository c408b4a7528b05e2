package order

import (
	"math"

	"gonum.org/v1/gonum/dsp/window"
)

const (
	lowRate = 6000    // least sampling rate of a signal, Hz
	reach   = 0.32    // of its rate up to which it is as it was
	most    = 1 << 20 // samples of it that are kept: nearly three minutes
	across  = 16      // samples of it on either side that the low-pass looks at
)

// Signal is a sound at a lower sampling rate: what lies under Reach is as it was. Samples are added as they come; what comes
// after nearly three minutes is left out, so that a long recording costs no more memory.
type Signal struct {
	Rate    float64 // Hz
	Samples []float64
	Cut     bool // something was left out

	by   int
	taps []float64
	held []float64
}

// NewSignal begins a signal of samples at a rate.
func NewSignal(rate int) *Signal {
	s := &Signal{by: max(rate/lowRate, 1)}
	s.Rate = float64(rate) / float64(s.by)
	s.taps = make([]float64, 2*across*s.by+1)
	for i := range s.taps {
		s.taps[i] = sinc(0.82 * float64(i-across*s.by) / float64(s.by))
	}
	window.Blackman(s.taps)
	sum := 0.0
	for _, v := range s.taps {
		sum += v
	}
	for i := range s.taps {
		s.taps[i] /= sum
	}
	s.held = make([]float64, across*s.by)
	return s
}

// Reach is the highest frequency that it holds, Hz.
func (s *Signal) Reach() float64 { return reach * s.Rate }

// Seconds is its length.
func (s *Signal) Seconds() float64 { return float64(len(s.Samples)) / s.Rate }

// Add takes samples in.
func (s *Signal) Add(samples []float64) {
	if s.Cut = s.Cut || len(s.Samples) >= most; s.Cut {
		return
	}
	if s.by == 1 {
		s.Samples = append(s.Samples, samples...)
		return
	}
	s.held = append(s.held, samples...)
	at := 0
	for ; at+len(s.taps) <= len(s.held); at += s.by {
		v := 0.0
		for i, x := range s.held[at : at+len(s.taps)] {
			v += x * s.taps[i]
		}
		s.Samples = append(s.Samples, v)
	}
	s.held = s.held[:copy(s.held, s.held[at:])]
}

// sinc is sin(pi x) / (pi x).
func sinc(x float64) float64 {
	if x == 0 {
		return 1
	}
	return math.Sin(math.Pi*x) / (math.Pi * x)
}
