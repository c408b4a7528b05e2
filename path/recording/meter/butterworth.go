package meter

import (
	"fmt"
	"math"
	"math/cmplx"

	"hushwake/source/spectrum"
)

// pairs is the number of pole pairs of a band filter: a Butterworth band-pass of sixth order.
const pairs = 3

// Filter is an octave band-pass of sixth order as a chain of three sections, by the bilinear transform with its edges where
// they belong (A. V. Oppenheim, R. W. Schafer, Discrete-Time Signal Processing, ch. 7).
type Filter struct {
	sections [pairs]section
}

// section is (1 - z^-2) gain / (1 + a1 z^-1 + a2 z^-2), with what it remembers.
type section struct {
	gain, a1, a2 float64
	s1, s2       float64
}

// NewFilter makes the filter of an octave with its exact middle at f Hz.
func NewFilter(f float64, rate int) (*Filter, error) {
	if !(f > 0) || f*octaveEdge >= float64(rate)/2 {
		return nil, fmt.Errorf("an octave at %g Hz reaches over half of %d samples a second", f, rate)
	}
	twice := 2 * float64(rate)
	warp := func(f float64) float64 { return twice * math.Tan(math.Pi*f/float64(rate)) }
	low, high := warp(f/octaveEdge), warp(f*octaveEdge)
	x := &Filter{}
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
func (x *Filter) gain(w float64) complex128 {
	z1, h := cmplx.Rect(1, -w), complex(1, 0)
	for _, s := range x.sections {
		h *= complex(s.gain, 0) * (1 - z1*z1) / (1 + complex(s.a1, 0)*z1 + complex(s.a2, 0)*z1*z1)
	}
	return h
}

// Attenuation is what the filter takes out at a frequency in Hz, dB.
func (x *Filter) Attenuation(f float64, rate int) float64 {
	return -20 * math.Log10(cmplx.Abs(x.gain(2*math.Pi*f/float64(rate))))
}

// Next filters one sample.
func (x *Filter) Next(v float64) float64 {
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

// FilteredOctaves are the levels of the octave bands by filters, as a sound level meter shows them over the whole time. The
// first tenth lets the filters settle and does not count. Bands over half the sampling rate are silent.
func FilteredOctaves(samples []float64, rate int) (b spectrum.Bands) {
	from := len(samples) / 10
	for i, f := range spectrum.Exact {
		x, err := NewFilter(f, rate)
		if err != nil {
			b[i] = spectrum.Silent
			continue
		}
		p := 0.0
		for k, v := range samples {
			if y := x.Next(v); k >= from {
				p += y * y
			}
		}
		b[i] = spectrum.Level(p / float64(len(samples)-from))
	}
	return b
}
