package audibility

import (
	"fmt"
	"math"

	"hushwake/source/spectrum"
)

// Narrow is a narrow-band spectrum, taken with a Hann window: levels of lines from First on, Step apart.
type Narrow struct {
	First, Step float64   // Hz
	Levels      []float64 // dB
}

// Steps that the form is made for, Hz (from memory).
const (
	finest   = 1.9
	coarsest = 4.0
)

// hann takes a mean of lines of a Hann window to a level: its noise bandwidth is 1.5 lines, dB.
const hann = 1.7609125905568124

// stands is by how much a line of a tone stands over the mean of the noise, dB; under is how far it may lie under its top.
const (
	stands = 6.0
	under  = 10.0
)

// widest is the width over which a hump is no tone, Hz (from memory).
func widest(f float64) float64 { return 26 * (1 + 0.001*f) }

// Check says what is wrong with a spectrum.
func (s Narrow) Check() error {
	if !(s.Step >= finest && s.Step <= coarsest) || !(s.First > 0) {
		return fmt.Errorf("lines %.3g Hz apart from %.3g Hz: the audibility of tones is judged by lines %g to %g Hz apart\nhint: take a longer or shorter window", s.Step, s.First, finest, coarsest)
	}
	for i, l := range s.Levels {
		if math.IsNaN(l) || math.IsInf(l, 0) {
			return fmt.Errorf("line %d of the spectrum is %v", i+1, l)
		}
	}
	return nil
}

func (s Narrow) frequency(i int) float64 { return s.First + float64(i)*s.Step }

// within are the lines of the critical band about line i; whole tells whether the spectrum holds all of it.
func (s Narrow) within(i int) (from, to int, whole bool) {
	low, high := edges(s.frequency(i))
	from, to = int(math.Ceil((low-s.First)/s.Step)), int(math.Floor((high-s.First)/s.Step))
	return max(from, 0), min(to, len(s.Levels)-1), from >= 0 && to < len(s.Levels)
}

// fewest is how many lines to each side of the tone must go into the mean of the noise (from memory).
const fewest = 5

// Mean is the level LS of the noise about line i, dB in a line: the energy mean of the critical band's other lines without
// those that stand 6 dB over it, repeated until it stands still or too few lines are left to a side, less 1.76 dB for the window.
func (s Narrow) Mean(i int) float64 {
	mean := math.Inf(1)
	for range 100 {
		next, below, above := s.mean(i, mean+stands)
		if math.Abs(next-mean) < 0.005 || !math.IsInf(mean, 1) && min(below, above) < fewest {
			break
		}
		mean = next
	}
	return mean
}

// mean is that of the lines under a level, with how many there are to each side of line i.
func (s Narrow) mean(i int, under float64) (level float64, below, above int) {
	from, to, _ := s.within(i)
	sum := 0.0
	for k := from; k <= to; k++ {
		switch {
		case k == i || s.Levels[k] >= under:
			continue
		case k < i:
			below++
		default:
			above++
		}
		sum += spectrum.Power(s.Levels[k])
	}
	return 10*math.Log10(sum/float64(max(below+above, 1))) - hann, below, above
}

// At is the tone with its top at line i: its lines are those beside it that stand over the noise and no more than 10 dB
// under the top; distinct tells whether they are few enough for a tone. A tone of one line has no correction for the window.
func (s Narrow) At(i int) (t Tone, distinct bool) {
	mean, top := s.Mean(i), s.Levels[i]
	least, sum, n := math.Max(mean+stands, top-under), spectrum.Power(top), 1
	for _, by := range []int{-1, 1} {
		for k := i + by; k >= 0 && k < len(s.Levels) && s.Levels[k] >= least && s.Levels[k] <= top; k += by {
			sum, n = sum+spectrum.Power(s.Levels[k]), n+1
		}
	}
	t = Tone{Frequency: s.frequency(i), Level: 10 * math.Log10(sum)}
	if n > 1 {
		t.Level -= hann
	}
	t.Noise = mean + lines(t.Frequency, s.Step)
	t.Audibility = excess(t.Frequency, t.Level, t.Noise)
	return t, float64(n)*s.Step <= widest(t.Frequency)
}

// Decisive is the tone that stands out most in the spectrum; ok is false where none does. Tones whose critical band the
// spectrum does not hold are left out.
func (s Narrow) Decisive() (best Tone, ok bool) {
	var all []Tone
	for i, l := range s.Levels {
		if _, _, whole := s.within(i); !whole || s.frequency(i) > Highest || i > 0 && s.Levels[i-1] > l || i+1 < len(s.Levels) && s.Levels[i+1] >= l {
			continue
		}
		if l < s.Mean(i)+stands {
			continue
		}
		if t, distinct := s.At(i); distinct && t.Audibility > 0 {
			all = append(all, t)
		}
	}
	for i := range all {
		if t, leads := together(all, i); leads && (!ok || t.Audibility > best.Audibility) {
			best, ok = t, true
		}
	}
	return best, ok
}

// lines takes the level of a line to that of the critical band about f (Hz), of lines so many Hz apart, dB.
func lines(f, step float64) float64 { return 10 * math.Log10(Bandwidth(f)/step) }
