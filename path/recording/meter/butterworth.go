package meter

import (
	"fmt"
	"math"
	"math/cmplx"

	"hushwake/source/spectrum"
)

// pairs is the number of pole pairs of a band filter: a Butterworth band-pass of sixth order.
const pairs = 3

// butterworth is an octave band-pass of sixth order as a chain of three sections, by the bilinear transform with its edges where
// they belong (A. V. Oppenheim, R. W. Schafer, Discrete-Time Signal Processing, ch. 7).
type butterworth struct {
	sections [pairs]section
}

// section is (1 - z^-2) gain / (1 + a1 z^-1 + a2 z^-2), with what it remembers.
type section struct {
	gain, a1, a2 float64
	s1, s2       float64
}

// newFilter makes the filter of an octave with its exact middle at f Hz.
func newFilter(f float64, rate int) (*butterworth, error) {
	if !(f > 0) || f*octaveEdge >= float64(rate)/2 {
		return nil, fmt.Errorf("an octave at %g Hz reaches over half of %d samples a second", f, rate)
	}
	twice := 2 * float64(rate)
	warp := func(f float64) float64 { return twice * math.Tan(math.Pi*f/float64(rate)) }
	low, high := warp(f/octaveEdge), warp(f*octaveEdge)
	x := &butterworth{}
	middle, n := low*high, 0
	for k := range pairs {
		// a low-pass pole p becomes the roots of s^2 - B p s + middle
		p := cmplx.Rect(1, math.Pi*(0.5+(2*float64(k)+1)/(2*pairs)))
		b := complex(high-low, 0) * p
		root := cmplx.Sqrt(b*b - complex(4*middle, 0))
		for _, s := range []complex128{(b + root) / 2, (b - root) / 2} {
			if imag(s) > 0 {
				x.sections[n] = digital((complex(twice, 0) + s) / (complex(twice, 0) - s))
				n++
			}
		}
	}
	// unity where the analogue middle comes to lie
	at := 2 * math.Atan(math.Sqrt(middle)/twice)
	gain := math.Pow(1/cmplx.Abs(x.gain(at)), 1.0/pairs)
	for i := range x.sections {
		x.sections[i].gain = gain
	}
	return x, nil
}

// digital is a section with a pole at z and its conjugate.
func digital(z complex128) section {
	return section{gain: 1, a1: -2 * real(z), a2: real(z)*real(z) + imag(z)*imag(z)}
}

// gain is the response at an angular frequency in rad a sample.
func (x *butterworth) gain(w float64) complex128 {
	z1, h := cmplx.Rect(1, -w), complex(1, 0)
	for _, s := range x.sections {
		h *= complex(s.gain, 0) * (1 - z1*z1) / (1 + complex(s.a1, 0)*z1 + complex(s.a2, 0)*z1*z1)
	}
	return h
}

// Next filters one sample.
func (x *butterworth) Next(v float64) float64 {
	for i := range x.sections {
		s := &x.sections[i]
		v *= s.gain
		out := v + s.s1
		s.s1 = s.s2 - s.a1*out
		s.s2 = -v - s.a2*out
		v = out
	}
	return v
}

// Bank is the nine octave filters of a sound level meter, read every second. White noise reads 0.20 dB over its band: the
// filters are wider (derived).
type Bank struct {
	Seconds []spectrum.Bands // levels, dB; a band over half the sampling rate is silent

	rate, n int
	filters [spectrum.N]*butterworth
	sums    spectrum.Bands
}

// NewBank makes the filters that a sampling rate allows.
func NewBank(rate int) *Bank {
	b := &Bank{rate: rate}
	for i, f := range spectrum.Exact {
		b.filters[i], _ = newFilter(f, rate) // none, and silent, where the band reaches too high
	}
	return b
}

// Add takes samples in.
func (b *Bank) Add(samples []float64) {
	for len(samples) > 0 {
		n := min(b.rate-b.n, len(samples))
		for i, x := range b.filters {
			if x != nil {
				for _, v := range samples[:n] {
					y := x.Next(v)
					b.sums[i] += y * y
				}
			}
		}
		samples, b.n = samples[n:], b.n+n
		if b.n == b.rate {
			b.Seconds = append(b.Seconds, b.level())
			b.n, b.sums = 0, spectrum.Bands{}
		}
	}
}

func (b *Bank) level() (l spectrum.Bands) {
	for i, p := range b.sums {
		l[i] = spectrum.Level(p / float64(b.n))
	}
	return l
}
