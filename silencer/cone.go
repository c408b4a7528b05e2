package silencer

import (
	"errors"
	"fmt"
	"math"
	"math/cmplx"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
	"hushwake/source/published"
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
	s.fitting(coneLoss(in, out, e.angle(in, out)), math.Min(in, out))
}

// coneLoss is what a gradual change of bore loses on the head of the smaller bore, s = small area over large area, a the
// angle between opposite walls:
//
//	widening:   K = 2.6 sin(a/2) (1-s)^2 to 45 degrees, (1-s)^2 beyond
//	narrowing:  K = 0.8 sin(a/2) (1-s) to 45 degrees, 0.5 sqrt(sin(a/2)) (1-s) beyond
//
// (Crane TP-410, from memory; widening after Gibson). Friction comes on top: below some 10 degrees the measured losses
// hold part of it, so the sum is on the high side.
func coneLoss(in, out, angle float64) loss.Coefficient {
	s, sine := circle(math.Min(in, out))/circle(math.Max(in, out)), math.Sin(angle/2)
	c := loss.Coefficient{Cited: published.By("", "Crane TP-410", loss.FromMemory), SD: 0.3}
	switch steep := angle > math.Pi/4; {
	case out >= in && steep:
		return loss.Expansion(s)
	case out >= in:
		c.K, c.Formula = 2.6*sine*(1-s)*(1-s), "K = 2.6 sin(a/2) (1 - s)^2"
	case steep:
		c.K, c.Formula = 0.5*math.Sqrt(sine)*(1-s), "K = 0.5 sqrt(sin(a/2)) (1 - s)"
	default:
		c.K, c.Formula = 0.8*sine*(1-s), "K = 0.8 sin(a/2) (1 - s)"
	}
	return c
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

// conePole is the four-pole of a cone by spherical waves from its apex, with m = d2/d1, q = (m-1)/L and Y of each end,
//
//	T = e^{-jM kL} [[m cos kL - (q/k) sin kL, j m Y2 sin kL],
//	                [(j/Y1)((m + q^2/k^2) sin kL - (L q^2/k) cos kL), (cos kL + (q/k) sin kL)/m]]
//
// (Munjal, Acoustics of Ducts and Mufflers, 1987, conical tube; derived here anew). k is that of a pipe with its wall
// losses, of 1/r in the mean over the length. With flow the matrix joins the convective states of its ends and M is the
// mean along it, sqrt(M1 M2): exact for a pipe, else to first order in M. Valid below the first cross mode.
type conePole struct {
	head, tail           fourpole.Matrix // classical to convective at the inlet, and back at the outlet
	y1, y2, ratio, slope float64         // slope is q, 1/m
	length, mach, bore   float64
	medium               fourpole.Medium
	lossy                bool
}

func newConePole(head, tail fourpole.End, length float64, walls fourpole.Loss) (conePole, error) {
	if _, err := fourpole.NewDuctArea(head.Medium, math.Min(head.Area, tail.Area), 0, length, math.Max(head.Mach, tail.Mach), walls); err != nil {
		return conePole{}, err
	}
	ratio := math.Sqrt(tail.Area / head.Area)
	bore := math.Sqrt(4 * head.Area / math.Pi)
	if x := ratio - 1; math.Abs(x) > 1e-9 {
		bore *= x / math.Log1p(x)
	}
	return conePole{head: head.Classical(), tail: tail.Convective(), y1: head.Y(), y2: tail.Y(), ratio: ratio, slope: (ratio - 1) / length, length: length,
		mach: math.Copysign(math.Sqrt(head.Mach*tail.Mach), head.Mach), bore: bore, medium: head.Medium, lossy: walls == fourpole.ViscoThermal}, nil
}

// At is the matrix at omega.
func (p conePole) At(omega float64) fourpole.Matrix {
	k := complex(omega/p.medium.SoundSpeed, 0)
	if p.lossy {
		a := fourpole.WallAttenuation(p.medium, p.bore/2, omega)
		k += complex(a, -a-fourpole.TurbulentAttenuation(p.medium, p.bore, p.mach))
	}
	k /= complex(1-p.mach*p.mach, 0)
	l, m := complex(p.length, 0), complex(p.ratio, 0)
	s, c := cmplx.Sin(k*l), cmplx.Cos(k*l)
	q := complex(p.slope, 0)
	t := fourpole.Matrix{
		T11: m*c - q/k*s, T12: 1i * m * complex(p.y2, 0) * s,
		T21: 1i / complex(p.y1, 0) * ((m+q*q/(k*k))*s - l*q*q/k*c), T22: (c + q/k*s) / m,
	}
	return p.head.Mul(t).Mul(p.tail).Scale(cmplx.Exp(-1i * complex(p.mach, 0) * k * l))
}
