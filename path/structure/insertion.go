package structure

import (
	"math"

	"hushwake/source"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// InsertionCited cites the insertion loss of mounts.
var InsertionCited = published.By("-10 lg(D/D0), D = |1/(j w m) + Ym|^2 + Yf^2 + Yb^2; 0.7 vertical, 0.3 horizontal",
	"form of EN 12354-5:2009 eq. (19e) with the mass, the mount, foot and bed; energy sum of the parts of unknown phase (judgement)", "derived")

// Lines are the frequencies that an engine excites: multiples of Step, Hz.
type Lines struct {
	Step   float64 // half order of a four-stroke, whole order of a two-stroke
	Turn   float64 // turns a second
	Firing source.EngineFiring
}

// Weights of an engine's lines (judgement), and up to where lines are used.
const (
	wholeWeight = 0.3
	halfWeight  = 0.1
	linesUpTo   = 300.0 // Hz
	gridPoints  = 30    // a band above
)

func multiple(f, of float64) bool { return of > 0 && math.Abs(f/of-math.Round(f/of)) < 1e-6 }

func (l Lines) weight(f float64) float64 {
	switch {
	case multiple(f, float64(l.Firing)):
		return 1
	case multiple(f, l.Turn):
		return wholeWeight
	}
	return halfWeight
}

// samples are the frequencies that stand for a band, with their weights.
func (l Lines) samples(band int) (f, w []float64) {
	centre := spectrum.Exact[band]
	low, high := centre/octaveHalf, centre*octaveHalf
	if centre > linesUpTo {
		for i := range gridPoints {
			f = append(f, low*math.Pow(high/low, (float64(i)+0.5)/gridPoints))
			w = append(w, 1)
		}
		return f, w
	}
	if l.Step > 0 {
		for k := math.Ceil(low / l.Step); k*l.Step < high; k++ {
			f, w = append(f, k*l.Step), append(w, l.weight(k*l.Step))
		}
	}
	if len(f) == 0 {
		return []float64{centre}, []float64{1}
	}
	return f, w
}

// octaveHalf is half an octave of base ten, 10^0.15.
var octaveHalf = math.Pow(10, 0.15)

// denominator is |1/(j w m) + Ym|^2 + Yf^2 + Yb^2 of one foot. f is in Hz, the mass in kg, mobilities in m/(N s).
func denominator(f, mass float64, mount complex128, foot, bed float64) float64 {
	return square(complex(0, -1/(2*math.Pi*f*mass))+mount) + foot*foot + bed*bed
}

// insertion is the loss that springs of natural frequency f0 bring in each band, dB.
func (f Feet) insertion(f0 float64, l Lines) (il spectrum.Bands) {
	each := f.Mass / float64(f.Count)
	s, foot := newSpring(f0, rubberDamping, each, rubberMass*each), footMobility(f.Mass)
	for b := range il {
		at, weight := l.samples(b)
		with, without := 0.0, 0.0
		for i, x := range at {
			bed := f.bed(x)
			with += weight[i] / denominator(x, each, s.Mobility(x), foot, bed)
			without += weight[i] / denominator(x, each, 0, foot, bed)
		}
		il[b] = 10 * math.Log10(without/with)
	}
	return il
}

// Shares of the power by direction, and limits of a second stage (judgement).
const (
	verticalShare = 0.7
	secondMost    = 12.0 // dB
)

// Insertion is what the mounts take off the power into the bed, dB: vertical and horizontal motion
// together, a second stage added. Below zero where the engine's lines lie under sqrt 2 times the natural
// frequency. Unstated mounts take off half, in dB, of what rubber does.
func (f Feet) Insertion(l Lines) (il spectrum.Bands) {
	m := f.Mount
	if m.Kind == Rigid {
		return il
	}
	v, h := f.insertion(m.Frequency, l), f.insertion(m.Frequency*math.Sqrt(m.Stiffening), l)
	for b := range il {
		il[b] = -10 * math.Log10(verticalShare*spectrum.Power(-v[b])+(1-verticalShare)*spectrum.Power(-h[b]))
		if m.Second > 0 {
			il[b] += math.Min(secondMost, math.Max(0, 40*math.Log10(spectrum.Exact[b]/(3*m.Second))))
		}
	}
	return il
}
