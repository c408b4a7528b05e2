package silencer

import (
	"errors"
	"fmt"
	"math"

	"hushwake/silencer/chain"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
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

func (e *Cone) Form() Form {
	wall, mean := orDefault(e.Wall, pipeWall), (e.Bores[0]+e.Bores[1])/2
	return Form{
		In: e.Bores[0], Out: e.Bores[1], Length: e.Length, Outer: math.Max(e.Bores[0], e.Bores[1]) + 2*wall, Wall: wall, Tube: true,
		Mass: tubeMass(e.Material, "", mean, wall, math.Hypot(e.Length, (e.Bores[1]-e.Bores[0])/2)),
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
func (e *Cone) flow(s *march.Stream) {
	in, out := e.bores(s.Bore)
	for i := range coneSlices {
		s.Duct(march.Duct{Bore: in + (out-in)*(float64(i)+0.5)/coneSlices, Length: e.Length / coneSlices, Wall: orDefault(e.Wall, pipeWall),
			Rough: s.Material.Roughness, Factor: 1, Lagging: e.Lagging})
	}
	s.Fitting(loss.Cone(circle(math.Min(in, out))/circle(math.Max(in, out)), e.angle(in, out), out >= in), math.Min(in, out))
}

// wideCone is the angle between opposite walls up to which waves of one dimension are trusted, rad: judgement.
const wideCone = math.Pi / 3

// sound: spherical waves; gas that cools is followed in slices, as in a pipe.
func (e *Cone) sound(c *chain.Chain) {
	in, out := e.bores(c.Bore)
	if a := e.angle(in, out); a > wideCone && e.Length > 0 {
		c.Warn(fmt.Sprintf("its walls open by %.0f degrees: waves of one dimension are an idealisation there", a*180/math.Pi))
	}
	c.Join(c.End(in, 0))
	switch {
	case e.Length <= 0: // a step
	case c.StateAt(0).Liquid > 0:
		c.Note("reckoned as a pipe of its mean bore where water runs")
		c.Run((in+out)/2, e.Length)
	default:
		n := chain.SlicesFor(c.End(in, 0), c.End(out, 1))
		for i := range n {
			from, to := float64(i)/float64(n), float64(i+1)/float64(n)
			mid := c.StateAt((from + to) / 2)
			head, tail := mid.End(circle(in+(out-in)*from)), mid.End(circle(in+(out-in)*to))
			c.Join(head)
			p, err := fourpole.NewCone(head, tail, e.Length/float64(n), c.Walls())
			c.Add(p, err, tail)
		}
	}
	c.Join(c.End(out, 1))
}
