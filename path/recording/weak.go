package recording

import (
	"math"

	"hushwake/source/spectrum"
)

// One cylinder that is weaker by a share d of N gives at every order that is no multiple of firing a line of d/(N-d) of what one
// cylinder would give there with all alike; ordinary scatter s gives s/sqrt(N) (derived). Figures: judgement.
const (
	ordinary  = 0.10 // scatter between sound cylinders
	overIt    = 6.0  // dB that lines must lie over what it gives
	flatAlike = 6.0  // dB within which they must lie
	leastWeak = 3    // lines
)

// WeakCylinder tells whether two recordings agree that one cylinder may be weak: at least three orders that do not fire exceed
// what ordinary scatter gives by 6 dB, and lie within 6 dB of each other over the firing orders round them. It is a hint, never a
// verdict, and says nothing of which.
func WeakCylinder(a, b *Recording) bool { return a.weak() && b.weak() }

func (r *Recording) weak() bool {
	over := r.overFiring()
	if len(over) < leastWeak {
		return false
	}
	least := 20*math.Log10(ordinary/math.Sqrt(float64(r.Kind.Cylinders))) + overIt
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range over {
		low, high = math.Min(low, v), math.Max(high, v)
	}
	return low >= least && high-low <= flatAlike
}

// overFiring are the orders that do not fire, between two that do, over the line through those in dB over the logarithm of
// frequency, dB: what one cylinder gives there is taken to lie on it. Orders that don't stand out count as silent, those on hum not.
func (r *Recording) overFiring() (over []float64) {
	if r.Lines == nil || r.Kind.Cylinders < 2 {
		return nil
	}
	level := map[int]float64{} // by multiple of the cycle
	for _, l := range r.Lines.Orders {
		if l.Label == "" {
			level[int(math.Round(l.Order/r.Kind.Cycle()))] = l.Level
		}
	}
	hum := map[int]bool{}
	for _, l := range r.Lines.Hum {
		hum[int(math.Round(l.Order/r.Kind.Cycle()))] = true
	}
	n := r.Kind.Cylinders
	for k := n; k < 3*n; k++ { // up to the third firing order
		from, to := k/n*n, (k/n+1)*n
		low, a := level[from]
		high, b := level[to]
		if k == from || !a || !b || hum[k] {
			continue
		}
		one := low + (high-low)*math.Log(float64(k)/float64(from))/math.Log(float64(to)/float64(from))
		v, stands := level[k]
		if !stands {
			v = spectrum.Silent
		}
		over = append(over, v-one)
	}
	return over
}
