// Package recording listens to what an owner recorded: levels, the engine's speed and lines, what two recordings differ by, and
// what is wrong with them. Levels are relative to full scale, a mean square of 1, until a meter's reading at the same place is
// stated: a phone by itself says no dB(A).
package recording

import (
	"fmt"
	"io"
	"path/filepath"
	"sync"
	"time"

	"hushwake/path/recording/audio"
	"hushwake/path/recording/meter"
	"hushwake/path/recording/order"
	"hushwake/source/spectrum"
	"hushwake/source/spectrum/audibility"
)

const (
	leastSeconds = 5.0   // under which nothing is said
	askedSeconds = 10.0  // under which it is said to be short
	silence      = -70.0 // dB re full scale under which a recording holds nothing but its own noise (judgement)
)

// Levels are what a recording shows, dB re full scale.
type Levels struct {
	audio.Format
	Name     string
	Seconds  float64
	Bands    spectrum.Bands // a band over half the sampling rate is silent
	Thirds   [meter.Thirds]float64
	A, C, Z  float64
	Clipped  bool
	Warnings []string
}

// Recording is a recording with what its engine's lines are found from.
type Recording struct {
	Levels
	Lines      *order.Lines  // nil: the speed is not known
	Candidates []order.Track // where it is not: up to three
	Kind       order.Engine
	Tone       audibility.Tone // that stands out most of its own spectrum; of no word where none does
	signal     *order.Signal
	spectrum   *meter.Spectrum
	seconds    []spectrum.Bands
}

// sink is what takes samples in.
type sink interface{ Add([]float64) }

// stamp tells a file by its name, size and time: as long as they stand it is not read again.
type stamp struct {
	name string
	size int64
	time time.Time
}

var measured sync.Map

// Measure reads the levels of a file of sound.
func Measure(name string) (Levels, error) {
	f, err := audio.Open(name)
	if err != nil {
		return Levels{}, err
	}
	defer f.Close()
	key := stamp{name, f.Size, f.Time}
	if l, ok := measured.Load(key); ok {
		return l.(Levels), nil
	}
	l, err := measure(name, f.Stream, meter.NewSpectrum(f.Rate))
	if err == nil {
		measured.Store(key, l)
	}
	return l, err
}

// Open reads a file of sound for Listen.
func Open(name string) (*Recording, error) {
	f, err := audio.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r := &Recording{signal: order.NewSignal(f.Rate), spectrum: meter.NewSpectrum(f.Rate)}
	bank, tones := meter.NewBank(f.Rate), meter.NewTones(f.Rate)
	if r.Levels, err = measure(name, f.Stream, r.spectrum, r.signal, bank, tones); err != nil {
		return nil, err
	}
	r.seconds, r.Tone = bank.Seconds, tones.StandsOut()
	if r.signal.Cut {
		r.warn("only the first %.1f minutes are searched for the engine's lines; levels are of the whole", r.signal.Seconds()/60)
	}
	return r, nil
}

func (l *Levels) warn(format string, args ...any) {
	l.Warnings = append(l.Warnings, fmt.Sprintf(format, args...))
}

// measure passes samples on, block by block, and reads what they come to.
func measure(name string, s *audio.Stream, p *meter.Spectrum, more ...sink) (Levels, error) {
	l := Levels{Format: s.Format, Name: filepath.Base(name)}
	block, n, tops := make([]float64, 1<<14), 0, &tops{}
	for {
		got, err := s.Read(block)
		p.Add(block[:got])
		tops.Add(block[:got])
		for _, to := range more {
			to.Add(block[:got])
		}
		if n += got; err == io.EOF {
			break
		} else if err != nil {
			return l, err
		}
	}
	l.Seconds = float64(n) / float64(s.Rate)
	if l.Seconds < leastSeconds {
		return l, fmt.Errorf("%.1f s are too short\nhint: record 20 s, at least %g", l.Seconds, leastSeconds)
	}
	if err := p.Close(); err != nil {
		return l, err
	}
	l.Bands, l.Thirds = p.Octaves(), p.ThirdOctaves()
	l.Z, l.A, l.C = p.Weighted(nil), p.Weighted(spectrum.AAt), p.Weighted(spectrum.CAt)
	l.Clipped = tops.clipped()
	return l, l.judge()
}

// judge says what is wrong with a recording as such.
func (l *Levels) judge() error {
	if l.Z < silence {
		return fmt.Errorf("silence: %.0f dB re full scale\nhint: the sound may be in another channel than the first, or the microphone was covered", l.Z)
	}
	if l.Seconds < askedSeconds {
		l.warn("%.0f s are short: record 20 s", l.Seconds)
	}
	if l.Clipped {
		l.warn("clipped: levels are too low and lines are made that the engine has not; record with less gain or farther away")
	}
	if l.Channels > 1 {
		l.warn("%d channels: the first is measured; the microphones of one phone are no two places", l.Channels)
	}
	if l.Bands[spectrum.N-1] <= spectrum.Silent {
		l.warn("%d samples a second: no 8 kHz octave", l.Rate)
	}
	return nil
}

// tops looks at the samples nearest to the peaks, above and below apart: a recorder clips each at its own.
type tops [2]top

// top is the highest value so far with the samples at it, those near it, and the longest run.
type top struct {
	peak          float64
	at, near, run int
	longest       int
}

const (
	nearPeak  = 0.9886 // 0.1 dB under the peak
	quietPeak = 0.1    // re full scale, under which a few digits are all there is between a peak and 0.1 dB under it
	flat      = 0.3    // share of samples near the peak that stand at it from which it is cut off (judgement)
)

// Add takes samples in.
func (t *tops) Add(samples []float64) {
	for _, v := range samples {
		t[0].add(v)
		t[1].add(-v)
	}
}

func (t *top) add(v float64) {
	switch {
	case v > t.peak:
		if t.peak < v*nearPeak {
			t.near = 0
		}
		t.peak, t.at, t.run, t.longest = v, 1, 1, 1
		t.near++
	case v == t.peak && v > 0:
		t.at++
		t.near++
		t.run++
		t.longest = max(t.longest, t.run)
	default:
		t.run = 0
		if v >= t.peak*nearPeak && v > 0 {
			t.near++
		}
	}
}

// clipped tells whether a peak is cut off: three samples in a row at it, and many of those near it. A slow tone spends a tenth
// of its time within 0.1 dB of its peak, but little of that at it.
func (t *tops) clipped() bool {
	for _, x := range t {
		if x.peak >= quietPeak && x.longest >= 3 && float64(x.at) >= flat*float64(x.near) {
			return true
		}
	}
	return false
}
