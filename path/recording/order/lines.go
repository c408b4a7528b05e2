package order

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/dsp/window"

	"hushwake/source/spectrum"
)

const (
	lobe       = 3    // bins either side of a line that are its own
	stands     = 6.0  // dB over what lies round it from which a line is one (judgement)
	highOrders = 6    // multiples of firing up to which orders are listed
	unsteady   = 0.05 // share that the speed may vary either way
	steadyFor  = 10.0 // s that are looked at where it varies more
)

// Line is one line of an engine.
type Line struct {
	Order     float64 // of the crank
	Frequency float64 // Hz, at the mean speed
	Level     float64 // dB re a mean square of 1
	Over      float64 // dB over the broadband in its own width
	Firing    bool    // a multiple of the firing order
	Label     string  // of what is not the engine's own: shaft, blades
}

// Lines are what an engine's sound is made of.
type Lines struct {
	Speed, Low, High float64 // rpm: mean, least, most
	Cycles           int
	Orders           []Line // those that stand out, by order
	Broadband        spectrum.Bands
	Hum              []Line // left out: mains hum would lie there too
	Together         []Line // lines of shaft or blades that meet an order of the engine
	Steadiest        bool   // the speed varied so much that only the steadiest seconds were looked at
}

// Driven is what the engine turns beside itself.
type Driven struct {
	Blades int     // of the propeller, 0 = not known
	Gear   float64 // turns of the engine for one of the shaft, 0 = not known
}

// Part takes a sound apart along the course of its speed. Octaves give the broadband where the signal does not reach.
func Part(s *Signal, t Track, e Engine, d Driven, octaves spectrum.Bands) (out Lines, err error) {
	if t.Swing() > unsteady {
		s, t = s.steadiest(t, steadyFor)
		out.Steadiest = true
	}
	turns := s.turns(t, e)
	s.refine(turns, e)
	x, cycles, points, err := s.resample(turns)
	if err != nil {
		return out, err
	}
	c := spectrumOf(x, cycles, points)
	c.mean = (turns[len(turns)-1] - turns[0]) / (float64(len(turns)-1) / s.Rate)
	out.Cycles, out.Speed = cycles, c.mean/e.Cycle()*60
	out.Low, out.High = out.Speed*slices.Min(t.Speeds)/t.Middle(), out.Speed*slices.Max(t.Speeds)/t.Middle()
	c.reach = s.Reach()
	out.list(c, e)
	out.driven(c, e, d)
	slices.SortFunc(out.Orders, func(a, b Line) int { return int(math.Copysign(1, a.Order-b.Order)) })
	out.broadband(c, octaves)
	return out, nil
}

// cranked is a power spectrum over multiples of the cycle.
type cranked struct {
	power       []float64 // by bin; bin over cycles is the multiple
	cycles      int
	mean, reach float64   // cycle frequency, and highest that is looked at, Hz
	between     []float64 // power a bin between a multiple and the next
}

// spectrumOf is the Hann spectrum of samples at equal steps of the crank.
func spectrumOf(x []float64, cycles, points int) cranked {
	n := len(x)
	squares, mean := 0.0, 0.0
	for _, v := range x {
		mean += v / float64(n)
	}
	w := make([]float64, n)
	for i := range w {
		w[i] = 1
	}
	window.Hann(w)
	for i, v := range w {
		squares += v * v
		w[i] = v * (x[i] - mean)
	}
	c := fourier.NewFFT(n).Coefficients(nil, w)
	out := cranked{power: make([]float64, len(c)), cycles: cycles}
	for k, v := range c {
		out.power[k] = 2 / (squares * float64(n)) * (real(v)*real(v) + imag(v)*imag(v))
	}
	var gap []float64
	for k := 0; k < points/2; k++ {
		gap = append(gap[:0], out.power[k*cycles+lobe+1:(k+1)*cycles-lobe]...)
		slices.Sort(gap)
		out.between = append(out.between, gap[len(gap)/2]/math.Ln2) // the median of an exponential distribution is ln 2 of its mean
	}
	return out
}

// line is the level at a multiple of the cycle, less what lies round it.
func (c cranked) line(multiple float64) (l Line, ok bool) {
	bin := int(math.Round(multiple * float64(c.cycles)))
	gap := min(int(multiple), len(c.between)-1)
	if bin <= lobe || bin+lobe >= len(c.power) {
		return l, false
	}
	round := c.between[gap]
	if whole := float64(int(multiple)); multiple == whole && gap > 0 {
		round = (round + c.between[gap-1]) / 2
	}
	sum := 0.0
	for _, p := range c.power[bin-lobe : bin+lobe+1] {
		sum += p
	}
	own := round * (2*lobe + 1)
	l = Line{Frequency: multiple * c.mean, Level: spectrum.Level(sum - own), Over: spectrum.Level(math.Max(sum-own, 0) / own)}
	return l, l.Over >= stands
}

// list lists the engine's own orders that stand out, but for those on mains hum.
func (out *Lines) list(c cranked, e Engine) {
	for k := 1; float64(k)*c.mean < c.reach && k <= highOrders*e.Cylinders; k++ {
		l, ok := c.line(float64(k))
		l.Order = float64(k) * e.Cycle()
		l.Firing = k%e.Cylinders == 0
		switch {
		case !ok:
		case !l.Firing && out.humming(l.Order, c):
			out.Hum = append(out.Hum, l)
		default:
			out.Orders = append(out.Orders, l)
		}
	}
}

// humming tells whether an order comes within a bin of a multiple of the mains frequency at any speed of the recording.
func (out *Lines) humming(order float64, c cranked) bool {
	bin := c.mean / float64(c.cycles)
	low, high := order*out.Low/60-bin, order*out.High/60+bin
	for _, mains := range []float64{50, 60} {
		if m := math.Ceil(low / mains); m >= 1 && m*mains <= high && m*mains <= mostHum {
			return true
		}
	}
	return false
}

// mostHum is how far up mains hum is looked for, Hz (judgement).
const mostHum = 300.0

// driven lists the lines of shaft and blades; one that meets an order of the engine can't be told apart.
func (out *Lines) driven(c cranked, e Engine, d Driven) {
	if d.Gear <= 0 {
		return
	}
	add := func(order float64, label string) {
		multiple := order / e.Cycle()
		l, ok := c.line(multiple)
		l.Order, l.Label = order, label
		switch {
		case math.Abs(multiple-math.Round(multiple))*float64(c.cycles) <= 2*lobe:
			l.Frequency = multiple * c.mean
			out.Together = append(out.Together, l)
		case ok && !out.humming(order, c):
			out.Orders = append(out.Orders, l)
		}
	}
	add(1/d.Gear, "shaft")
	for k := 1; k <= 3 && d.Blades > 0; k++ {
		add(float64(k*d.Blades)/d.Gear, "propeller blades")
	}
}

// broadband is what lies between the lines, by octave, dB; where the signal does not reach, the octave less the lines in it.
func (out *Lines) broadband(c cranked, octaves spectrum.Bands) {
	width := c.mean / float64(c.cycles)
	var sum spectrum.Bands
	for k := 1; k < len(c.between)*c.cycles; k++ {
		if b := spectrum.BandOf(float64(k) * width); b >= 0 {
			sum[b] += c.between[k/c.cycles]
		}
	}
	for b := range out.Broadband {
		if upper := spectrum.Exact[b] * math.Pow(10, 0.15); upper > c.reach {
			sum[b] = spectrum.Power(octaves[b])
			for _, l := range out.Orders {
				if spectrum.BandOf(l.Frequency) == b {
					sum[b] -= spectrum.Power(l.Level)
				}
			}
			if octaves[b] <= spectrum.Silent {
				sum[b] = 0
			}
		}
		out.Broadband[b] = spectrum.Level(math.Max(sum[b], 0))
	}
}
