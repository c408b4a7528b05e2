package sound

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

// StandsOut is the tone that stands out most of samples, by their own narrow-band spectra as ISO/PAS 20065:2016 asks: audibility
// is the mean over spectra of 3 s each, the rest that of the spectrum in which it stands out most. ok is false where none does.
func StandsOut(x []float64, rate int) (best audibility.Tone, ok bool) {
	n := int(float64(rate) / lineStep)
	for !smooth(n) {
		n++
	}
	whole := min(int(spectrumFor*float64(rate)), len(x))
	var each []float64
	for from := 0; from+whole <= len(x) && whole >= n; from += whole {
		s := narrow(x[from:from+whole], n, rate)
		if s.Check() != nil {
			return best, false
		}
		t, found := s.Decisive()
		if !found {
			t.Audibility = audibility.NeverBelow
		}
		each = append(each, t.Audibility)
		if found && (!ok || t.Audibility > best.Audibility) {
			best, ok = t, true
		}
	}
	best.Audibility = audibility.Decisive(each)
	return best, ok && best.Audibility > 0
}

// narrow is the mean spectrum of samples in Hann windows of n that overlap by half.
func narrow(x []float64, n, rate int) audibility.Narrow {
	w := make([]float64, n)
	for i := range w {
		w[i] = 1
	}
	window.Hann(w)
	gain, power, fft := 0.0, make([]float64, n/2+1), fourier.NewFFT(n)
	for _, v := range w {
		gain += v
	}
	block, count := make([]float64, n), 0.0
	for from := 0; from+n <= len(x); from += n / 2 {
		for i, v := range w {
			block[i] = v * x[from+i]
		}
		for k, c := range fft.Coefficients(nil, block) {
			power[k] += 2 * square(c) / (gain * gain)
		}
		count++
	}
	s := audibility.Narrow{First: float64(rate) / float64(n), Step: float64(rate) / float64(n)}
	top := min(len(power), int(2*audibility.Highest/s.Step))
	for _, p := range power[1:top] {
		s.Levels = append(s.Levels, math.Max(10*math.Log10(p/count+math.SmallestNonzeroFloat64), spectrum.Silent))
	}
	return s
}
