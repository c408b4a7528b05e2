package fourpole

import (
	"math"
	"math/cmplx"
)

// perforatedWork is the storage of one evaluation.
type perforatedWork struct {
	parts [2]coupledModes
	g     grid
}

// At is the matrix between the port planes. The amplitudes of all waves of the perforated parts are the unknowns;
// the equations say: annulus modes end in closed cavities; modes of the bore other than the plane one leave into the
// pipes and don't return; at a plug the bore's velocity is zero and the annulus runs on; and the plane wave at the
// outlet is given.
func (s *perforatedSolver) At(omega float64) Matrix {
	w := s.pool.Get().(*perforatedWork)
	defer s.pool.Put(w)
	for i, part := range s.parts {
		s.fill(&w.parts[i], part, omega)
	}
	s.equations(w)
	w.g.solve()
	b := assembler{g: &w.g, n: w.parts[0].size()}
	m := b.read(&w.parts[0], s.parts[0].length)
	y := complex(s.before.y, 0)
	m.T12 *= y
	m.T21 /= y
	return s.before.At(omega).Mul(m).Mul(s.after.At(omega))
}

func (s *perforatedSolver) equations(w *perforatedWork) {
	end := len(s.parts) - 1
	first, last := &w.parts[0], &w.parts[end]
	n := first.size()
	b := assembler{g: &w.g, n: n, length: s.parts[0].length}
	b.g.reset(2*n*len(s.parts), 2)
	b.closeRing(first, 0, false, s.tube.From)
	b.freeCore(first, 0, false)
	if end == 1 {
		b.plug(first, last, [2]float64{s.parts[0].length, s.parts[1].length})
	}
	b.length = s.parts[end].length
	b.closeRing(last, end, true, s.tube.Length-s.tube.To)
	b.freeCore(last, end, true)
	b.put(last, end, true, 0, 1, 0)
	b.rhs(0)
	b.put(last, end, true, 0, 0, 1)
	b.rhs(1)
}

// assembler writes the equations row by row.
type assembler struct {
	g      *grid
	n, row int
	length float64 // of the part at hand
}

// put adds x p_i + y u_i at one end of a part to the present row and goes on to the next row.
func (b *assembler) put(c *coupledModes, part int, atEnd bool, i int, x, y complex128) {
	b.add(c, part, atEnd, i, x, y)
	b.row++
}

func (b *assembler) add(c *coupledModes, part int, atEnd bool, i int, x, y complex128) {
	r := b.g.row(b.row)[part*2*b.n:]
	for m := range c.beta {
		e, e2 := c.wave(m, b.length)
		if atEnd {
			e = e2
		}
		r[m] += e * (x*c.p[m*b.n+i] + y*c.u[m*b.n+i])
	}
}

// rhs sets the right-hand side of the row just written.
func (b *assembler) rhs(which int) { b.g.row(b.row - 1)[b.g.rows+which] = 1 }

// closeRing ends the annulus in a closed cavity: U k_rho cos(kappa l) +- j kappa sin(kappa l) P = 0.
func (b *assembler) closeRing(c *coupledModes, part int, atEnd bool, cavity float64) {
	for j := range c.nRing {
		g := c.ring.gamma[j]
		kappa := cmplx.Sqrt(c.kw*c.kw - complex(g*g, 0))
		cos, sin := scaledCosSin(kappa * complex(cavity, 0))
		x := 1i * kappa * sin
		if atEnd {
			x = -x
		}
		b.put(c, part, atEnd, c.nCore+j, x, complex(c.k, 0)*c.heavy*cos)
	}
}

// freeCore lets the higher modes of the bore leave: U + eta P = 0, eta = beta/(jk + M beta) of the leaving wave,
// beta = [jkM +- sqrt((1-M^2) g^2 - k^2)]/(1-M^2).
func (b *assembler) freeCore(c *coupledModes, part int, atEnd bool) {
	for i := 1; i < c.nCore; i++ {
		g, m := c.core.gamma[i], c.m1
		root := leaving(complex((1-m*m)*g*g, 0) - c.k1*c.k1)
		if atEnd {
			root = -root
		}
		beta := (1i*c.k1*complex(m, 0) + root) / complex(1-m*m, 0)
		b.put(c, part, atEnd, i, beta/(1i*c.k1+complex(m, 0)*beta), 1)
	}
}

// leaving is the root of a radial wavenumber square that decays, or runs, away from the origin.
func leaving(x complex128) complex128 {
	r := cmplx.Sqrt(x)
	if real(r) < 0 || (real(r) == 0 && imag(r) < 0) {
		return -r
	}
	return r
}

func (b *assembler) plug(first, last *coupledModes, lengths [2]float64) {
	for i := range first.nCore {
		b.length = lengths[0]
		b.put(first, 0, true, i, 0, 1)
		b.length = lengths[1]
		b.put(last, 1, false, i, 0, 1)
	}
	for j := range first.nRing {
		i := first.nCore + j
		for _, pu := range [2][2]complex128{{1, 0}, {0, 1}} {
			b.length = lengths[0]
			b.add(first, 0, true, i, pu[0], pu[1])
			b.length = lengths[1]
			b.put(last, 1, false, i, -pu[0], -pu[1])
		}
	}
}

// read gives (p, rho c u) of the plane wave at the inlet for the two right-hand sides.
func (b *assembler) read(c *coupledModes, length float64) Matrix {
	var m Matrix
	for k := range c.beta {
		e, _ := c.wave(k, length)
		x, y := b.g.row(k)[b.g.rows], b.g.row(k)[b.g.rows+1]
		p, u := e*c.p[k*b.n], e*c.u[k*b.n]
		m.T11 += p * x
		m.T12 += p * y
		m.T21 += u * x
		m.T22 += u * y
	}
	return m
}

// scaledCosSin is cos z and sin z, both times e^{-|Im z|}.
func scaledCosSin(z complex128) (cos, sin complex128) {
	s, c := math.Sincos(real(z))
	e := math.Exp(-2 * math.Abs(imag(z)))
	ch, sh := (1+e)/2, math.Copysign((1-e)/2, imag(z))
	return complex(c*ch, -s*sh), complex(s*ch, c*sh)
}
