package path

import (
	"math"
)

// Side is one of the six faces of a space, by the axis it stands across and the way it looks.
type Side struct {
	Name, Facing string
	axis         int
	way          float64
}

// Sides are the faces of a space.
var Sides = []Side{{"forward", "forward", 0, 1}, {"aft", "aft", 0, -1}, {"starboard", "starboard", 1, 1}, {"port", "port", 1, -1}, {"roof", "up", 2, 1}, {"floor", "down", 2, -1}}

// Opposite is the side across the space.
func (d Side) Opposite() Side {
	for _, o := range Sides {
		if o.axis == d.axis && o.way != d.way {
			return o
		}
	}
	return d
}

// Upright tells a wall from a roof or floor.
func (d Side) Upright() bool { return d.axis != 2 }

// patch is an upright or level rectangle; lo and hi are equal along one axis.
type patch struct{ lo, hi Point }

func (p patch) area() float64 {
	a, sizes := 1.0, 0
	for k := range p.lo {
		if d := p.hi[k] - p.lo[k]; d > 0 {
			a, sizes = a*d, sizes+1
		}
	}
	if sizes < 2 {
		return 0
	}
	return a
}

func (p patch) middle() (m Point) {
	for k := range m {
		m[k] = (p.lo[k] + p.hi[k]) / 2
	}
	return m
}

// dry is what of it lies above the water.
func (p patch) dry() patch {
	p.lo[2], p.hi[2] = math.Max(p.lo[2], 0), math.Max(p.hi[2], 0)
	return p
}
