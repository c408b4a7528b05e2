package silencer

import (
	"math"

	"hushwake/silencer/weigh"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Solved is a line worked out for one feed: its march, its losses and what its shells give off come from
// one solution. Make it with Solve.
type Solved struct {
	response *response
	samples  []weigh.Sample
	losses   []losses
	spread   bool // between the source impedances too
}

// Solve marches the gas and works the losses of the line out at the lines and bands of the feed.
func (l *Line) Solve(f Feed, o Options) (*Solved, error) {
	c, err := l.Course(f, o)
	if err != nil {
		return nil, err
	}
	return c.Solve()
}

// March is that of the line, as by Line.March.
func (x *Solved) March() Marched { return x.response.course.marched() }

// Acoustics is Solve and its acoustics in one.
func (l *Line) Acoustics(f Feed, o Options) (Acoustics, error) {
	s, err := l.Solve(f, o)
	if err != nil {
		return Acoustics{}, err
	}
	return s.Acoustics(), nil
}

// Acoustics gives the losses by octave band, weighted with the lines and the broadband share of the
// feed: a chamber that is blind at the firing frequency shows it. Insertion loss compares with the line
// whose silencing elements are plain pipe of their length and inlet bore, hot gas throughout.
// Band values are averages of transmitted energy.
func (x *Solved) Acoustics() Acoustics {
	r, s, v := x.response, x.samples, x.losses
	a := Acoustics{
		TransmissionLoss: weigh.Average(s, func(i int) float64 { return v[i].tl }),
		InsertionLoss:    weigh.Average(s, func(i int) float64 { return v[i].il }),
		BroadbandLoss:    weigh.Average(weigh.Even(s), func(i int) float64 { return v[i].il }),
		LineLoss:         x.LineLosses(r.course.feed.Lines),
		Cited:            published.By("IL = 20 lg |(T11 Zr + T12 + Zs (T21 Zr + T22))/(same of plain pipe)| + 10 lg (W'/W), energy average over lines and broadband", "Munjal, Acoustics of Ducts and Mufflers (1987), ch. 2; "+r.method()+" solution of each element", "derived"),
		Warnings:         r.warnings(highest(octaves.hz), 0),
		Notes:            r.with.Notes,
	}
	if x.spread {
		a.ImpedanceSD = impedanceSD(s, v, a.InsertionLoss)
	}
	a.Doubts = append(r.doubts(), r.with.AllDoubts()...)
	if d, warning := r.course.steepening(); d != nil {
		a.Doubts = append(a.Doubts, *d)
		if warning != "" {
			a.Warnings = append(a.Warnings, warning)
		}
	}
	a.SelfNoise, a.Noise = r.course.selfNoise()
	return a
}

// impedanceSD is the spread of the insertion loss between the three source impedances, by band.
func impedanceSD(s []weigh.Sample, v []losses, matched spectrum.Bands) (sd spectrum.Bands) {
	a := weigh.Average(s, func(i int) float64 { return v[i].spread[0] })
	b := weigh.Average(s, func(i int) float64 { return v[i].spread[1] })
	for i := range sd {
		mean := (matched[i] + a[i] + b[i]) / 3
		d := [3]float64{matched[i] - mean, a[i] - mean, b[i] - mean}
		sd[i] = math.Sqrt((d[0]*d[0] + d[1]*d[1] + d[2]*d[2]) / 2)
	}
	return sd
}
