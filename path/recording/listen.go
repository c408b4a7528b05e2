package recording

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path/recording/order"
	"hushwake/source/spectrum"
)

// Hint is what is known of the engine that was recorded.
type Hint struct {
	Kind   order.Engine // no cylinders: not known
	Speed  float64      // rpm; 0 = not known
	Driven order.Driven
}

// Speeds within which an engine is looked for, rpm.
const (
	within           = 0.15 // either side of a hint: with it the speed was always found in synthetic engines, far beyond it harmonics mix
	slowest, fastest = 400.0, 4500.0
)

// usual are the engines that are tried where nothing is known (judgement).
var usual = []order.Engine{{Cylinders: 1}, {Cylinders: 2}, {Cylinders: 3}, {Cylinders: 4}, {Cylinders: 6}, {Cylinders: 8}, {Cylinders: 6, TwoStroke: true}}

// tells is the least score of a speed: noise alone reached 0.9 in synthetic recordings, lines 10 dB under the noise 2.3 (judgement).
const tells = 1.5

// Listen finds the engine's speed and takes its sound apart. With cylinders and a speed to start from it decides; without, it
// gives up to three candidates and no lines.
func (r *Recording) Listen(h Hint) {
	w := order.Whiten(r.signal)
	switch {
	case h.Kind.Cylinders > 0 && h.Speed > 0:
		t := w.Follow(h.Kind, h.Speed*(1-within), h.Speed*(1+within))
		if t.Score < tells {
			r.warn("no lines of an engine stand out within %.0f %% of %.0f rpm: no orders", 100*within, h.Speed)
			break
		}
		r.part(t, h)
	case h.Kind.Cylinders > 0:
		r.offer(w.Candidates(h.Kind, slowest, fastest))
	default:
		r.offer(r.ofUsual(w, h.Speed))
	}
	r.review()
}

// ofUsual are the best candidates of the usual engines: those whose lines stand up, each by as much less as its firing line is weaker
// than the strongest, as amplitudes.
func (r *Recording) ofUsual(w order.Whitened, speed float64) (best []order.Track) {
	var all []order.Track
	for _, kind := range usual {
		if speed > 0 {
			all = append(all, w.Follow(kind, speed*(1-within), speed*(1+within)))
			continue
		}
		all = append(all, w.Candidates(kind, slowest, fastest)...)
	}
	likely := map[int]float64{}
	by := make([]int, len(all))
	for i, t := range all {
		by[i], likely[i] = i, t.Score*math.Pow(10, -w.Under(t)/20)
	}
	slices.SortStableFunc(by, func(i, k int) int { return cmp.Compare(likely[k], likely[i]) })
	for _, i := range by[:min(len(by), 3)] {
		best = append(best, all[i])
	}
	return best
}

// offer keeps what may be.
func (r *Recording) offer(all []order.Track) {
	for _, t := range all {
		if t.Score >= tells {
			r.Candidates = append(r.Candidates, t)
		}
	}
	if len(r.Candidates) == 0 {
		r.warn("no lines of an engine stand out: no speed, no orders")
	}
}

// part takes the lines out along a track.
func (r *Recording) part(t order.Track, h Hint) {
	lines, err := order.Part(r.signal, t, h.Kind, h.Driven, r.Bands)
	if err != nil {
		r.warn("no orders: %s", strings.ReplaceAll(err.Error(), "\nhint: ", "; "))
		return
	}
	r.Lines, r.Kind = &lines, h.Kind
	if lines.Steadiest {
		r.warn("the speed varies by more than 5 %% either way: orders are of the steadiest 10 s")
	}
	if r.Clipped {
		r.warn("orders of a clipped recording: those over the firing order may be of the recorder's making")
	}
	for _, l := range lines.Hum {
		r.warn("order %g (%.1f Hz) is left out: mains hum may lie there", l.Order, l.Frequency)
	}
	for _, l := range lines.Together {
		r.warn("%s at %.1f Hz cannot be told apart from order %g of the engine", l.Label, l.Frequency, math.Round(l.Order/h.Kind.Cycle())*h.Kind.Cycle())
	}
}

// Figures of the warnings below: judgement.
const (
	windBelow  = 40.0 // Hz
	windOver   = 10.0 // dB over the firing line
	gainMoves  = 1.0  // dB, standard deviation of what all octaves do together
	steadyGain = 0.02 // share that the speed may vary for it
)

// review warns of wind and of a gain that moves by itself.
func (r *Recording) review() {
	if low, engine := spectrum.Level(r.spectrum.Between(10, windBelow)), r.engine(); low > engine+windOver {
		r.warn("wind on the microphone: %.0f dB more under %g Hz than at the firing order, and no lines there", low-engine, windBelow)
	}
	if r.Lines == nil || (r.Lines.High-r.Lines.Low)/2 > steadyGain*r.Lines.Speed {
		return
	}
	if moves, together := r.gain(); moves > gainMoves && together {
		r.warn("all octaves rise and fall together by %.1f dB at steady speed: automatic gain? Switch it off; levels can't be compared", moves)
	}
}

// engine is the level that wind is held against: of the strongest firing order or of the lines that lie as low, if they are more;
// without lines that of all up to 400 Hz, dB.
func (r *Recording) engine() float64 {
	if r.Lines == nil {
		return spectrum.Level(r.spectrum.Between(windBelow, 400))
	}
	firing, below := spectrum.Silent, 0.0
	for _, l := range r.Lines.Orders {
		if l.Firing {
			firing = math.Max(firing, l.Level)
		}
		if l.Frequency < windBelow {
			below += spectrum.Power(l.Level)
		}
	}
	return math.Max(firing, spectrum.Level(below))
}

// gain is by how much all octaves move together from second to second, dB, and whether each does little else.
func (r *Recording) gain() (moves float64, together bool) {
	var at []int
	for b, v := range r.Bands {
		if b > 0 && v > r.Z-40 {
			at = append(at, b)
		}
	}
	if len(at) < 3 || len(r.seconds) < 6 {
		return 0, false
	}
	seconds := r.seconds[1:] // the filters settle
	var mean spectrum.Bands
	for _, s := range seconds {
		mean = mean.Plus(s)
	}
	common, own := 0.0, 0.0
	for _, s := range seconds {
		var off []float64
		for _, b := range at {
			off = append(off, s[b]-mean[b]/float64(len(seconds)))
		}
		sorted := slices.Sorted(slices.Values(off))
		g := sorted[len(sorted)/2]
		common += g * g
		for _, v := range off {
			own += (v - g) * (v - g) / float64(len(off))
		}
	}
	n := float64(len(seconds))
	return math.Sqrt(common / n), math.Sqrt(own/n) < math.Sqrt(common/n)/2
}

// Difference is one recording less another of the same phone, setting and place of it.
type Difference struct {
	From, To *Recording
	Bands    spectrum.Bands // dB
	A        float64
	Orders   []Step
	Warnings []string
}

// Step is by how much an order differs.
type Step struct{ Order, Difference float64 }

// Against is to less from: its own error drops out but for what repeats badly.
func Against(from, to *Recording) (d Difference) {
	d = Difference{From: from, To: to, A: to.A - from.A}
	for b := range d.Bands {
		if d.Bands[b] = to.Bands[b] - from.Bands[b]; to.Bands[b] <= spectrum.Silent || from.Bands[b] <= spectrum.Silent {
			d.Bands[b] = math.NaN()
		}
	}
	if from.Clipped || to.Clipped {
		d.Warnings = append(d.Warnings, "one of the two is clipped: the difference is a bound at best")
	}
	if from.Lines == nil || to.Lines == nil {
		return d
	}
	if a, b := from.Lines.Speed, to.Lines.Speed; math.Abs(a/b-1) > 0.03 {
		d.Warnings = append(d.Warnings, fmt.Sprintf("%.0f rpm against %.0f: what the speed makes is in the difference", b, a))
	}
	for _, l := range to.Lines.Orders {
		for _, m := range from.Lines.Orders {
			if l.Order == m.Order && l.Label == m.Label {
				d.Orders = append(d.Orders, Step{l.Order, l.Level - m.Level})
			}
		}
	}
	return d
}
