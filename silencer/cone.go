package silencer

import (
	"errors"
	"fmt"
	"math"
)

// Cone is a conical diffuser or reducer, kind "cone".
type Cone struct {
	Common
	Bores        [2]float64 // m, at its inlet and outlet; 0 = that of the line
	Length, Wall float64    // m
}

// Kind names the element.
func (*Cone) Kind() string { return "cone" }

// bores are those of its ends on a line of a bore, m.
func (e *Cone) bores(line float64) (in, out float64) {
	in = orDefault(e.Bores[0], line)
	return in, orDefault(e.Bores[1], in)
}

// angle is how far its walls open, rad; pi where it has no length.
func (e *Cone) angle(in, out float64) float64 { return 2 * math.Atan2(math.Abs(out-in)/2, e.Length) }

func (e *Cone) form() form {
	wall, mean := orDefault(e.Wall, pipeWall), (e.Bores[0]+e.Bores[1])/2
	return form{
		in: e.Bores[0], out: e.Bores[1], length: e.Length, outer: math.Max(e.Bores[0], e.Bores[1]) + 2*wall, wall: wall, tube: true,
		mass: tubeMass(e.Material, "", mean, wall, math.Hypot(e.Length, (e.Bores[1]-e.Bores[0])/2)),
	}
}

func (e *Cone) check() error {
	if (e.Bores[0] > 0) != (e.Bores[1] > 0) {
		return errors.New("a cone needs both bores")
	}
	return nil
}

// coneSlices are the short pipes that stand for a cone in the march: friction and heat to 0.5 % at twice the bore.
const coneSlices = 8

// flow: friction and heat as of short pipes, and what opening or drawing together costs.
func (e *Cone) flow(s *stream) {
	in, out := e.bores(s.bore)
	for i := range coneSlices {
		s.duct(duct{bore: in + (out-in)*(float64(i)+0.5)/coneSlices, length: e.Length / coneSlices, wall: orDefault(e.Wall, pipeWall),
			rough: s.material.roughness, factor: 1, lagging: e.Lagging})
	}
	s.fitting(coneLoss(circle(math.Min(in, out))/circle(math.Max(in, out)), e.angle(in, out), out >= in), math.Min(in, out))
}

// wideCone is the angle between opposite walls up to which waves of one dimension are trusted, rad: judgement.
const wideCone = math.Pi / 3

// sound: spherical waves; gas that cools is followed in slices, as in a pipe.
func (e *Cone) sound(c *chain) {
	in, out := e.bores(c.bore)
	if a := e.angle(in, out); a > wideCone && e.Length > 0 {
		c.warn(fmt.Sprintf("its walls open by %.0f degrees: waves of one dimension are an idealisation there", a*180/math.Pi))
	}
	c.join(c.end(in, 0))
	switch {
	case e.Length <= 0: // a step
	case c.stateAt(0).liquid > 0:
		c.note("reckoned as a pipe of its mean bore where water runs")
		c.run((in+out)/2, e.Length)
	default:
		n := slicesFor(c.end(in, 0), c.end(out, 1))
		for i := range n {
			from, to := float64(i)/float64(n), float64(i+1)/float64(n)
			mid := c.stateAt((from + to) / 2)
			head, tail := mid.end(circle(in+(out-in)*from)), mid.end(circle(in+(out-in)*to))
			c.join(head)
			p, err := newConePole(head, tail, e.Length/float64(n), c.walls())
			c.add(p, err, tail)
		}
	}
	c.join(c.end(out, 1))
}
