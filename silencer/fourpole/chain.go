package fourpole

import "math"

// Chain is pieces one after the other, upstream first; itself a piece.
type Chain []Piece

// At multiplies the matrices of the pieces at omega. The common phases of ducts with flow are gathered and taken
// once.
func (c Chain) At(omega float64) Matrix {
	r := running{m: Identity(), omega: omega, root: math.Sqrt(omega)}
	r.follow(c)
	return r.result()
}

// follow appends a piece.
func (r *running) follow(p Piece) {
	switch q := p.(type) {
	case Chain:
		for _, inner := range q {
			r.follow(inner)
		}
	case Duct:
		q.follow(r)
	case QuarterWave:
		b, _ := q.admittance(r.omega, r.root)
		r.m.shunt(b)
	case Helmholtz:
		b, _ := q.admittance(r.omega)
		r.m.shunt(b)
	default:
		r.m = r.m.Mul(p.At(r.omega))
	}
}

// running is a product of matrices on its way downstream, m e^{-j turn - damp}.
type running struct {
	m           Matrix
	omega, root float64
	turn, damp  float64
}

func (r *running) result() Matrix {
	if r.turn == 0 && r.damp == 0 {
		return r.m
	}
	s, c := math.Sincos(r.turn)
	g := math.Exp(-r.damp)
	return r.m.Scale(complex(g*c, -g*s))
}

// follow appends a duct.
func (d *Duct) follow(r *running) {
	co, si, x, y := d.trig(r.omega, r.root)
	r.turn += d.mach * x
	r.damp += d.mach * y
	down := complex(-d.invY*imag(si), d.invY*real(si)) // j sin/Y
	up := complex(-d.y*imag(si), d.y*real(si))         // jY sin
	m := &r.m
	m.T11, m.T12 = m.T11*co+m.T12*down, m.T11*up+m.T12*co
	m.T21, m.T22 = m.T21*co+m.T22*down, m.T21*up+m.T22*co
}

// shunt appends a shunt admittance.
func (m *Matrix) shunt(b complex128) {
	m.T11 += m.T12 * b
	m.T21 += m.T22 * b
}

// Limit is the lowest limit of the pieces, Hz; 0 when none has one.
func (c Chain) Limit() float64 {
	low := 0.0
	for _, p := range c {
		if l, ok := p.(limited); ok {
			if f := l.Limit(); f > 0 && (low == 0 || f < low) {
				low = f
			}
		}
	}
	return low
}

// CappedAt says whether any piece had its loss limited at omega.
func (c Chain) CappedAt(omega float64) bool {
	for _, p := range c {
		if l, ok := p.(Capped); ok && l.CappedAt(omega) {
			return true
		}
	}
	return false
}

// Capped lists the pieces whose loss may be limited, those of chains within too.
func (c Chain) Capped() (list []Capped) {
	for _, p := range c {
		if inner, ok := p.(Chain); ok {
			list = append(list, inner.Capped()...)
		} else if l, ok := p.(Capped); ok {
			list = append(list, l)
		}
	}
	return list
}
