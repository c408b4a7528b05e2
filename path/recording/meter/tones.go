package meter

import (
	"math"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/dsp/window"

	"hushwake/source/spectrum"
	"hushwake/source/spectrum/audibility"
)

// Spectra by which tones are judged: lines about so far apart, each spectrum a mean over so long.
const (
	lineStep    = 3.0 // Hz
	spectrumFor = 3.0 // s
)

// Tones judges which tone stands out most of samples, by their own narrow-band spectra as ISO/PAS 20065:2016 asks: one each 3 s, the
// audibility the mean over them, the rest that of the spectrum in which the tone stands out most. It needs no scale of levels.
// Samples are added as they come; it holds 3 s of them, and what is left over at the end is not judged.
type Tones struct {
	rate, size int // samples of a window
	held       []float64
	each       []float64 // audibility, dB
	best       audibility.Tone
	weights    []float64
	fft        *fourier.FFT
}

// NewTones begins.
func NewTones(rate int) *Tones {
	t := &Tones{rate: rate, size: Smooth(int(float64(rate) / lineStep)), held: make([]float64, 0, int(spectrumFor*float64(rate)))}
	t.weights, t.fft = make([]float64, t.size), fourier.NewFFT(t.size)
	for i := range t.weights {
		t.weights[i] = 1
	}
	window.Hann(t.weights)
	return t
}

// Add takes samples in.
func (t *Tones) Add(samples []float64) {
	for len(samples) > 0 {
		n := min(len(samples), cap(t.held)-len(t.held))
		t.held, samples = append(t.held, samples[:n]...), samples[n:]
		if len(t.held) == cap(t.held) {
			t.judge(t.narrow())
			t.held = t.held[:0]
		}
	}
}

// judge takes one spectrum in; one that is none counts as one without a tone.
func (t *Tones) judge(s audibility.Narrow) {
	tone, found := audibility.Tone{}, false
	if s.Check() == nil {
		tone, found = s.Decisive()
	}
	if !found {
		tone.Audibility = audibility.NeverBelow
	}
	t.each = append(t.each, tone.Audibility)
	if found && tone.Audibility > t.best.Audibility {
		t.best = tone
	}
}

// StandsOut is the tone that stands out most; its audibility is not over 0 where none does.
func (t *Tones) StandsOut() audibility.Tone {
	best := t.best
	best.Audibility = audibility.Decisive(t.each)
	return best
}

// narrow is the mean spectrum of what is held, in Hann windows that overlap by half.
func (t *Tones) narrow() audibility.Narrow {
	gain, power := 0.0, make([]float64, t.size/2+1)
	for _, v := range t.weights {
		gain += v
	}
	block, c, count := make([]float64, t.size), make([]complex128, t.size/2+1), 0.0
	for from := 0; from+t.size <= len(t.held); from += t.size / 2 {
		for i, v := range t.weights {
			block[i] = v * t.held[from+i]
		}
		for k, c := range t.fft.Coefficients(c, block) {
			power[k] += 2 * (real(c)*real(c) + imag(c)*imag(c)) / (gain * gain)
		}
		count++
	}
	s := audibility.Narrow{First: float64(t.rate) / float64(t.size), Step: float64(t.rate) / float64(t.size)}
	for _, p := range power[1:min(len(power), int(2*audibility.Highest/s.Step))] {
		s.Levels = append(s.Levels, math.Max(10*math.Log10(p/count+math.SmallestNonzeroFloat64), spectrum.Silent))
	}
	return s
}
