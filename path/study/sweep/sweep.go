// Package sweep predicts layouts over engine speed, or load at a set speed, and names the speeds that boom, with the order that makes them.
package sweep

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"

	"hushwake/path"
	"hushwake/source/cores"
	"hushwake/source/spectrum"
)

// SweepFunc predicts a layout at an engine speed in rpm; LossFunc gives the insertion loss in dB of
// an engine's line at that speed at each frequency. Both are called from several goroutines.
type (
	Predict func(layout string, rpm float64) (path.Prediction, error)
	Loss    func(layout, engine string, rpm float64, hz []float64) ([]float64, error)
)

// Level is the level at a listener, dB(A).
type Level struct {
	Name  string
	Level float64
}

// Point is one speed.
type Point struct {
	Speed, Power, BackPressure float64 // rpm, W of the running engines together, Pa (the highest)
	Load                       float64 // share of the rated power, in a sweep over load
	Listeners                  []Level
	exhausts                   []path.ExhaustResult
}

// Boom is a speed that stands out, with the order that makes it.
type Boom struct {
	Speed            float64 // rpm
	Listener         string
	Rise             float64 // dB over the lowest level beside it, on the side where it falls less
	Engine           string
	Order, Frequency float64 // 0 where no order explains it
	Loss, Around     float64 // dB of the line at the order, and on average half an octave about it
	Text             string
	From, To         float64 // rpm between which it stands over half its rise
}

// Swept is one layout over speed.
type Swept struct {
	Name   string
	Points []Point
	Booms  []Boom

	OverLoad bool // at the set speed instead
}

// Run predicts every layout at every speed, and names the booms. Without a LossFunc a boom is
// named by speed alone. It stops between two predictions when ctx is done.
func Run(ctx context.Context, layouts []string, speeds []float64, predict Predict, loss Loss) ([]Swept, error) {
	if len(speeds) == 0 || predict == nil {
		return nil, errors.New("no speed to sweep\nhint: --from, --to and --step in rpm")
	}
	all, each := make([]Swept, len(layouts)), len(speeds)
	for l, name := range layouts {
		all[l] = Swept{Name: name, Points: make([]Point, each)}
	}
	failed := make([]error, len(layouts)*each)
	cores.Each(len(failed), func(i int) {
		if l, k := i/each, i%each; ctx.Err() == nil {
			all[l].Points[k], failed[i] = sweepPoint(layouts[l], speeds[k], predict)
		}
	})
	if err := cmp.Or(append(failed, ctx.Err())...); err != nil {
		return nil, err
	}
	failed = failed[:len(layouts)]
	cores.Each(len(layouts), func(l int) { all[l].Booms, failed[l] = findBooms(all[l], loss) })
	return all, cmp.Or(failed...)
}

func sweepPoint(layout string, rpm float64, predict Predict) (Point, error) {
	pt := Point{Speed: rpm}
	p, err := predict(layout, rpm)
	if err != nil {
		return pt, fmt.Errorf("layout %q at %.0f rpm: %w", layout, rpm, err)
	}
	for _, x := range p.Exhausts {
		pt.Power += x.Source.Duty.Power
		pt.BackPressure = math.Max(pt.BackPressure, x.Running.BackPressure)
	}
	for _, h := range p.Listeners {
		l := h.DBA()
		if math.IsNaN(l) || math.IsInf(l, 0) {
			return pt, fmt.Errorf("layout %q at %.0f rpm: no finite level at %s", layout, rpm, h.Listener.Name)
		}
		pt.Listeners = append(pt.Listeners, Level{h.Listener.Name, l})
	}
	pt.exhausts = p.Exhausts // the ways of all points would fill the memory
	return pt, nil
}

// A peak is named where the level falls by this much on both sides of it, dB, which an ear hears at once between two
// speeds that follow each other; and only among so many speeds: of fewer one may be a boom by chance of where it lies
// (both judgement). A level that only stops to climb is none: no other speed avoids it.
const (
	boomRise   = 3.0
	BoomSpeeds = 25
)

// findBooms looks at each listener for speeds at which the level rises and falls again.
func findBooms(s Swept, loss Loss) ([]Boom, error) {
	var all []Boom
	if len(s.Points) < BoomSpeeds {
		return nil, nil
	}
	for j := range s.Points[0].Listeners {
		level := levelsAt(s.Points, j)
		for i := 1; i < len(level)-1; i++ {
			left, right := valley(level, i, -1), valley(level, i, 1)
			rise := level[i] - math.Max(level[left], level[right])
			if level[i] < level[i-1] || level[i] <= level[i+1] || rise < boomRise {
				continue
			}
			b := Boom{Speed: s.Points[i].Speed, Listener: s.Points[i].Listeners[j].Name, Rise: rise}
			b.From, b.To = crossing(s.Points, level, i, -1, rise/2), crossing(s.Points, level, i, 1, rise/2)
			if err := b.explain(s, i, left, right, loss); err != nil {
				return nil, err
			}
			if !b.octaveStep(s.Points, i) {
				all = append(all, b)
			}
		}
	}
	return merged(all), nil
}

// merged puts booms of one cause together whose speeds overlap, as where several listeners hear it: the strongest is
// named, the speeds to avoid are those of all.
func merged(all []Boom) (out []Boom) {
	sort.SliceStable(all, func(a, b int) bool { return all[a].Rise > all[b].Rise })
	for again := true; again; all, again = out, len(out) < len(all) {
		out = nil
		for _, b := range all {
			if i := slices.IndexFunc(out, b.sameAs); i >= 0 {
				out[i].From, out[i].To = math.Min(out[i].From, b.From), math.Max(out[i].To, b.To)
				continue
			}
			out = append(out, b)
		}
	}
	for i := range out {
		out[i].Text = out[i].said()
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].Speed < out[b].Speed })
	return out
}

// sameAs says whether two booms overlap in speed and have one cause.
func (b *Boom) sameAs(o Boom) bool {
	return b.Engine == o.Engine && b.Order == o.Order && b.From <= o.To && o.From <= b.To
}

// octaveStep is true where nothing but the passage of the order from one octave to the next made the
// rise: the A-weighting of a band jumps there by several dB, the sound does not.
func (b *Boom) octaveStep(points []Point, i int) bool {
	if b.Order == 0 || b.Loss < b.Around-2 {
		return false
	}
	band := spectrum.BandOf(b.Frequency)
	for _, k := range []int{i - 1, i + 1} {
		if spectrum.BandOf(b.Frequency*points[k].Speed/b.Speed) != band {
			return true
		}
	}
	return false
}

// levelsAt are those of one listener over speed, dB(A).
func levelsAt(points []Point, j int) (level []float64) {
	for _, p := range points {
		level = append(level, p.Listeners[j].Level)
	}
	return level
}

// valley walks from a peak to the lowest point before the curve climbs over the peak.
func valley(v []float64, i, way int) int {
	low := i
	for k := i + way; k >= 0 && k < len(v) && v[k] <= v[i]; k += way {
		if v[k] < v[low] {
			low = k
		}
	}
	return low
}

// crossing is the speed on one side of a peak at which the level is so far under it, rpm; both valleys lie lower.
func crossing(points []Point, v []float64, peak, way int, under float64) float64 {
	k := peak + way
	for v[k] > v[peak]-under {
		k += way
	}
	share := (v[peak] - under - v[k]) / (v[k-way] - v[k])
	return points[k].Speed + share*(points[k-way].Speed-points[k].Speed)
}

// said is the one line of a boom: the speeds to avoid, how much louder it is where, and the cause.
func (b *Boom) said() string {
	cause, tone := "no tone of an exhaust explains it", fmt.Sprintf("%.0f Hz (order %g of %s)", b.Frequency, b.Order, b.Engine)
	switch {
	case b.Order == 0:
	case b.Loss < b.Around-2:
		cause = "the line hardly damps " + tone
	default:
		cause = "the engine is stronger at " + tone
	}
	return fmt.Sprintf("avoid %.0f to %.0f rpm: %.0f dB more at %s; %s", 10*math.Floor(b.From/10), 10*math.Ceil(b.To/10), b.Rise, b.Listener, cause)
}

// explain finds the order whose sound behind the line grows most from the valleys to the peak.
func (b *Boom) explain(s Swept, at, left, right int, loss Loss) error {
	best := 0.0
	for e, x := range s.Points[at].exhausts {
		if loss == nil {
			break
		}
		behind := map[int]map[float64]float64{}
		for _, i := range []int{left, at, right} {
			o, err := behindLine(s, i, e, loss)
			if err != nil {
				return err
			}
			behind[i] = o
		}
		for _, o := range x.Source.Orders {
			growth := spectrum.Power(behind[at][o.Order]) - 0.5*(spectrum.Power(behind[left][o.Order])+spectrum.Power(behind[right][o.Order]))
			if growth > best {
				best, b.Engine, b.Order, b.Frequency = growth, x.Engine, o.Order, o.Frequency
			}
		}
	}
	if b.Order == 0 {
		return nil
	}
	return b.around(s.Name, loss)
}

// behindLine is the A-weighted level of each order behind the lines of all pipes of an engine.
func behindLine(s Swept, i, e int, loss Loss) (map[float64]float64, error) {
	x := s.Points[i].exhausts[e]
	var hz []float64
	for _, o := range x.Source.Orders {
		hz = append(hz, o.Frequency)
	}
	l, err := loss(s.Name, x.Engine, s.Points[i].Speed, hz)
	if err != nil {
		return nil, fmt.Errorf("loss of the line of %s at %.0f rpm: %w", x.Engine, s.Points[i].Speed, err)
	}
	if len(l) != len(hz) {
		return nil, errors.New("the loss of the line lacks values")
	}
	out := map[float64]float64{}
	for k, o := range x.Source.Orders {
		if v := o.All(x.Source.Pipes).Level + spectrum.AAt(o.Frequency) - l[k]; !math.IsNaN(v) && !math.IsInf(v, 0) {
			out[o.Order] = v
		}
	}
	return out, nil
}

// around compares the loss at the order with that half an octave about it.
func (b *Boom) around(layout string, loss Loss) error {
	hz := []float64{b.Frequency}
	for k := -8; k <= 8; k++ {
		hz = append(hz, b.Frequency*math.Exp2(float64(k)/16))
	}
	l, err := loss(layout, b.Engine, b.Speed, hz)
	if err != nil {
		return err
	}
	if len(l) != len(hz) {
		return errors.New("the loss of the line lacks values")
	}
	b.Loss = l[0]
	n := 0
	for _, v := range l[1:] {
		if !math.IsNaN(v) {
			b.Around, n = b.Around+v, n+1
		}
	}
	if n > 0 {
		b.Around /= float64(n)
	}
	return nil
}
