package cycle

import (
	"math"
	"sync/atomic"
)

// station is what a crank angle fixes, whatever the gas does.
type station struct {
	volume, speed   float64 // m3; of the piston, m/rad
	exhaust, intake float64 // effective areas, m2
	rate            float64 // share of the fuel that burns per rad
	fired           bool    // from when it begins to burn to half a turn behind
}

func (c *Cylinder) station(theta float64) (s station) {
	travel, speed := c.travel(theta)
	s.volume, s.speed = c.clearance()+c.piston()*travel, speed
	s.exhaust, s.intake = c.area(&c.Exhaust, theta, travel), c.area(&c.Intake, theta, travel)
	rate, x := c.burned(theta)
	s.rate, s.fired = rate, x > 0 && x < 1 || since(theta-c.Burn.Start, c.Period()) < math.Pi
	return s
}

// span is the stations of a step: where it begins, half-way, and where it ends.
type span [3]station

func (c *Cylinder) span(theta, h float64) span {
	return span{c.station(theta), c.station(theta + h/2), c.station(theta + h)}
}

// crank is the spans of a cycle, from exhaust opening on.
type crank struct {
	of    Cylinder
	spans []span
}

// lastCrank is kept as an engine is asked at many speeds.
var lastCrank atomic.Pointer[crank]

func crankOf(c Cylinder, steps int) []span {
	if k := lastCrank.Load(); k != nil && len(k.spans) == steps && k.of == c {
		return k.spans
	}
	k := &crank{c, make([]span, steps)}
	h := c.Period() / float64(steps)
	for i := range k.spans {
		k.spans[i] = c.span(c.Exhaust.Opens+float64(i)*h, h)
	}
	lastCrank.Store(k)
	return k.spans
}
