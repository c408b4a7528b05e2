package picture

import "math"

// rect is a box on the paper.
type rect struct{ x, y, w, h float64 }

func (a rect) right() float64  { return a.x + a.w }
func (a rect) bottom() float64 { return a.y + a.h }

// meets tells whether two boxes overlap, or come closer than a gap.
func (a rect) meets(b rect, gap float64) bool {
	return a.x < b.right()+gap && b.x < a.right()+gap && a.y < b.bottom()+gap && b.y < a.bottom()+gap
}

func (a rect) within(b rect) bool {
	return a.x >= b.x && a.y >= b.y && a.right() <= b.right() && a.bottom() <= b.bottom()
}

func (a rect) holds(x, y float64) bool {
	return x >= a.x && y >= a.y && x <= a.right() && y <= a.bottom()
}

// gap is how far apart two boxes lie.
func (a rect) gap(b rect) float64 {
	return math.Hypot(math.Max(0, math.Max(b.x-a.right(), a.x-b.right())), math.Max(0, math.Max(b.y-a.bottom(), a.y-b.bottom())))
}

// nearest is the point of a box nearest to another.
func (a rect) nearest(x, y float64) (float64, float64) {
	return math.Max(a.x, math.Min(a.right(), x)), math.Max(a.y, math.Min(a.bottom(), y))
}

// axis leads values onto the paper.
type axis struct{ from, to, at, long float64 }

func (a axis) place(v float64) float64 { return a.at + (v-a.from)/(a.to-a.from)*a.long }

// decibelAxis runs over whole tens that hold all levels, at least 20 dB.
func decibelAxis(levels []float64, at, long float64) axis {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range levels {
		low, high = math.Min(low, v), math.Max(high, v)
	}
	if low > high {
		low, high = 40, 60
	}
	from, to := math.Floor(low/10)*10, math.Ceil(high/10)*10
	if to-from < 20 {
		to = from + 20
	}
	return axis{from, to, at, long}
}

// every is a step of 10, 20 or 50 dB that keeps ticks apart.
func (a axis) every(apart float64) float64 {
	for _, step := range []float64{10, 20, 50} {
		if step/(a.to-a.from)*a.long >= apart {
			return step
		}
	}
	return 100
}

// ticks are the values of the grid.
func (a axis) ticks(apart float64) (out []float64) {
	step := a.every(apart)
	for v := math.Ceil(a.from/step) * step; v <= a.to+1e-9; v += step {
		out = append(out, v)
	}
	return out
}

// Foot in metres.
const foot = 0.3048

// scaleBar is a round length that takes about a fifth of the room, with its text.
func scaleBar(perMetre, room float64, feet bool) (metres float64, text string) {
	unit, name := 1.0, " m"
	if feet {
		unit, name = foot, " ft"
	}
	best := 0.1
	for _, n := range []float64{0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50} {
		if n*unit*perMetre <= room/4 {
			best = n
		}
	}
	return best * unit, trimmed(best) + name
}
