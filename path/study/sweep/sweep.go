// Package sweep predicts layouts over engine speed, or load at a set speed, and names the speeds that boom, with the order that makes them.
package sweep

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sort"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// SweepFunc predicts a layout at an engine speed in rpm; LossFunc gives the insertion loss in dB of
// an engine's line at that speed at each frequency.
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
	Rise             float64 // dB over the trend, against the quieter side of it
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
	var all []Swept
	for _, name := range layouts {
		s := Swept{Name: name, Points: make([]Point, len(speeds))}
		failed := make([]error, len(speeds))
		draws.Parallel(len(speeds), func(i int) {
			if failed[i] = ctx.Err(); failed[i] == nil {
				s.Points[i], failed[i] = sweepPoint(name, speeds[i], predict)
			}
		})
		if err := firstError(failed); err != nil {
			return nil, err
		}
		booms, err := findBooms(s, loss)
		if err != nil {
			return nil, err
		}
		s.Booms = booms
		all = append(all, s)
	}
	return all, nil
}

func firstError(all []error) error {
	for _, err := range all {
		if err != nil {
			return err
		}
	}
	return nil
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

// A peak is named from this rise over the trend on, dB, which an ear hears at once between two speeds that follow each
// other; and only among so many speeds: of fewer one may be a boom by chance of where it lies (both judgement).
const (
	boomRise   = 3.0
	BoomSpeeds = 25
)

// findBooms looks at each listener for peaks over the trend of level with speed.
func findBooms(s Swept, loss Loss) ([]Boom, error) {
	var all []Boom
	if len(s.Points) < BoomSpeeds {
		return nil, nil
	}
	for j := range s.Points[0].Listeners {
		overTrend := detrended(s.Points, j)
		for i := 1; i < len(overTrend)-1; i++ {
			left, right := valley(overTrend, i, -1), valley(overTrend, i, 1)
			rise := overTrend[i] - math.Max(overTrend[left], overTrend[right])
			if overTrend[i] < overTrend[i-1] || overTrend[i] <= overTrend[i+1] || rise < boomRise || alreadyNamed(all, s.Points, i) {
				continue
			}
			b := Boom{Speed: s.Points[i].Speed, Listener: s.Points[i].Listeners[j].Name, Rise: rise}
			b.From, b.To = crossing(s.Points, overTrend, i, -1, rise/2), crossing(s.Points, overTrend, i, 1, rise/2)
			if err := b.explain(s, i, left, right, loss); err != nil {
				return nil, err
			}
			if !b.octaveStep(s.Points, i) {
				all = append(all, b)
			}
		}
	}
	sort.SliceStable(all, func(a, b int) bool { return all[a].Speed < all[b].Speed })
	return all, nil
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

// alreadyNamed is true where a boom next to this speed was named at another listener.
func alreadyNamed(all []Boom, points []Point, i int) bool {
	for _, b := range all {
		if b.Speed >= points[i-1].Speed && b.Speed <= points[i+1].Speed {
			return true
		}
	}
	return false
}

// detrended takes the straight line of level over lg(speed) out, least squares.
func detrended(points []Point, j int) []float64 {
	var sx, sy, sxx, sxy float64
	n := float64(len(points))
	for _, p := range points {
		x, y := math.Log10(p.Speed), p.Listeners[j].Level
		sx, sy, sxx, sxy = sx+x, sy+y, sxx+x*x, sxy+x*y
	}
	slope := 0.0
	if d := n*sxx - sx*sx; d > 1e-12 {
		slope = (n*sxy - sx*sy) / d
	}
	overTrend := make([]float64, len(points))
	for i, p := range points {
		overTrend[i] = p.Listeners[j].Level - sy/n - slope*(math.Log10(p.Speed)-sx/n)
	}
	return overTrend
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
func (b *Boom) said(cause string) string {
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
		b.Text = b.said("no tone of an exhaust explains it")
		return nil
	}
	return b.around(s.Name, loss)
}

// behindLine is the A-weighted level of each order behind the line.
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
		if v := o.Level + spectrum.AAt(o.Frequency) - l[k]; !math.IsNaN(v) && !math.IsInf(v, 0) {
			out[o.Order] = v
		}
	}
	return out, nil
}

// around compares the loss at the order with that half an octave about it, and says what it means.
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
	tone := fmt.Sprintf("%.0f Hz (order %g of %s)", b.Frequency, b.Order, b.Engine)
	if b.Loss < b.Around-2 {
		b.Text = b.said("the line hardly damps " + tone)
		return nil
	}
	b.Text = b.said("the engine is stronger at " + tone)
	return nil
}
