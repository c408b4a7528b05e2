package fourpole

import "math"

// program is a chain made ready for many frequencies: chains within chains stand in one row, and ducts of one
// cross-section, gas and flow that follow each other are one duct. Immutable once made.
type program []order

// order is one piece of a program; one field is set.
type order struct {
	duct    *Duct
	step    *realStep
	linear  *Linear
	quarter *QuarterWave
	volume  *Helmholtz
	other   Piece
}

func newProgram(c Chain) program { return program{}.with(c) }

func (g program) with(c Chain) program {
	for _, p := range c {
		switch q := p.(type) {
		case Chain:
			g = g.with(q)
		case Duct:
			g = g.withDuct(q)
		case Linear:
			if s, ok := newRealStep(q); ok {
				g = append(g, order{step: &s})
			} else {
				g = append(g, order{linear: &q})
			}
		case QuarterWave:
			g = append(g, order{quarter: &q})
		case Helmholtz:
			g = append(g, order{volume: &q})
		default:
			g = append(g, order{other: p})
		}
	}
	return g
}

// withDuct joins a duct to one before it where both are of one cross-section, gas and flow.
func (g program) withDuct(d Duct) program {
	if n := len(g); n > 0 && g[n-1].duct != nil {
		if sum, ok := g[n-1].duct.joined(d); ok {
			g[n-1].duct = &sum
			return g
		}
	}
	return append(g, order{duct: &d})
}

// At is the matrix at omega.
func (g program) At(omega float64) Matrix {
	r := running{m: Identity(), omega: omega, root: math.Sqrt(omega)}
	for i := range g {
		switch o := &g[i]; {
		case o.duct != nil:
			o.duct.follow(&r)
		case o.step != nil:
			o.step.follow(&r)
		case o.linear != nil:
			o.linear.follow(&r)
		case o.quarter != nil:
			b, _ := o.quarter.admittance(omega, r.root)
			r.shunt(b)
		case o.volume != nil:
			b, _ := o.volume.admittance(omega)
			r.shunt(b)
		default:
			r.m = r.m.Mul(o.other.At(omega))
		}
	}
	return r.result()
}

// realStep is a Linear whose constant part is real and whose other part is imaginary, as all steps without a
// resistance of their own are.
type realStep struct {
	a, b            [4]float64 // T11, T12, T21, T22
	growth, growEnd float64
	constant        bool
}

func newRealStep(l Linear) (s realStep, ok bool) {
	c, w := l.Const, l.PerOmega
	for i, z := range [4][2]complex128{{c.T11, w.T11}, {c.T12, w.T12}, {c.T21, w.T21}, {c.T22, w.T22}} {
		if imag(z[0]) != 0 || real(z[1]) != 0 {
			return s, false
		}
		s.a[i], s.b[i] = real(z[0]), imag(z[1])
	}
	s.growth, s.growEnd, s.constant = l.Growth, l.GrowEnd, s.b == [4]float64{}
	return s, true
}

func (s *realStep) follow(r *running) {
	m := &r.m
	if s.constant {
		m.T11, m.T12 = pair(m.T11, s.a[0], m.T12, s.a[2]), pair(m.T11, s.a[1], m.T12, s.a[3])
		m.T21, m.T22 = pair(m.T21, s.a[0], m.T22, s.a[2]), pair(m.T21, s.a[1], m.T22, s.a[3])
		return
	}
	near := math.Min(r.omega, s.growEnd)
	w := r.omega * (1 + s.growth*near*near)
	t11, t12 := complex(s.a[0], w*s.b[0]), complex(s.a[1], w*s.b[1])
	t21, t22 := complex(s.a[2], w*s.b[2]), complex(s.a[3], w*s.b[3])
	m.T11, m.T12 = m.T11*t11+m.T12*t21, m.T11*t12+m.T12*t22
	m.T21, m.T22 = m.T21*t11+m.T22*t21, m.T21*t12+m.T22*t22
}

// pair is x a + y b.
func pair(x complex128, a float64, y complex128, b float64) complex128 {
	return complex(real(x)*a+real(y)*b, imag(x)*a+imag(y)*b)
}
