package chambers

import (
	"math"

	"hushwake/silencer/fourpole"
)

// perforatedWork is the storage of one evaluation.
type perforatedWork struct {
	parts [2]coupledModes
	g     blocks
	sizes []int
	meets []meeting
}

// At is the matrix between the port planes. The amplitudes of all waves of the perforated parts are the unknowns, those
// that decay or run downstream taken where a part begins, the others where it ends; the equations say: annulus modes end
// in closed cavities; modes of the bore other than the plane one leave into the pipes and don't return; at a plug the
// bore's velocity is zero and the annulus runs on; and a plane wave comes in by either pipe.
func (s *perforatedSolver) At(omega float64) fourpole.Matrix {
	w := s.pool.Get().(*perforatedWork)
	defer s.pool.Put(w)
	w.begin()
	return s.at(w, omega)
}

// Run evaluates rising frequencies, each from the waves of those before it.
func (s *perforatedSolver) Run(omega []float64, out []fourpole.Matrix) {
	w := s.pool.Get().(*perforatedWork)
	defer s.pool.Put(w)
	w.begin()
	for i := range omega {
		out[i] = s.at(w, omega[i])
		w.parts[0].carryOn()
		w.parts[1].carryOn()
	}
}

// Table keeps what it gave last.
func (s *perforatedSolver) Table() *fourpole.Table { return &s.known }

func (w *perforatedWork) begin() {
	w.parts[0].forget()
	w.parts[1].forget()
}

func (s *perforatedSolver) at(w *perforatedWork, omega float64) fourpole.Matrix {
	for i, part := range s.parts {
		s.fill(&w.parts[i], part, omega)
		w.parts[i].part(part.length)
	}
	s.equations(w)
	w.g.solve()
	m := s.between(w)
	y := s.tube.Inlet().Y()
	m.T12 *= complex(y, 0)
	m.T21 *= complex(1/y, 0)
	return s.before.At(omega).Mul(m).Mul(s.after.At(omega))
}

func (s *perforatedSolver) equations(w *perforatedWork) {
	end := len(s.parts) - 1
	first, last := &w.parts[0], &w.parts[end]
	n := first.size()
	w.sizes, w.meets = append(w.sizes[:0], n), append(w.meets[:0], meeting{0, first.heard[0], first.heard[1]})
	if end == 1 {
		w.sizes, w.meets = append(w.sizes, 2*n), append(w.meets, meeting{n, last.heard[0], last.heard[1]})
	}
	w.sizes = append(w.sizes, n)
	w.g.reset(w.sizes, w.meets)
	b := writer{block: &w.g.list[0], up: n}
	b.closeRing(first, 0, s.tube.From)
	b.freeCore(first, 0)
	b.put(first, 0, 0, 1, 1)
	b.rhs(b.row - 1)[0] = 1
	if end == 1 {
		b = writer{block: &w.g.list[1]}
		b.plug(first, last)
	}
	b = writer{block: &w.g.list[end+1], up: last.heard[0]}
	b.closeRing(last, 1, s.tube.Length-s.tube.To)
	b.freeCore(last, 1)
	b.put(last, 1, 0, 1, -1)
	b.rhs(b.row - 1)[1] = 1
}

// between is the matrix of (p, rho c u) from what plane waves coming in by the two pipes make there.
func (s *perforatedSolver) between(w *perforatedWork) fourpole.Matrix {
	end := len(s.parts) - 1
	up, down := w.plane(0, 0), w.plane(end, 1)
	det := down.Det()
	if fourpole.Size1(det) < 1e-140 {
		det = 1e-140
	}
	inv := fourpole.Inverse(det)
	return up.Mul(fourpole.Matrix{T11: down.T22, T12: -down.T12, T21: -down.T21, T22: down.T11}).Scale(inv)
}

// plane is (p, rho c u) of the plane wave of the bore at an end of a part, columns by right-hand side.
func (w *perforatedWork) plane(part, at int) (m fourpole.Matrix) {
	c, n := &w.parts[part], w.parts[part].size()
	near, far, shift := &w.g.list[0], &w.g.list[1], 0
	if part == 1 {
		near, far, shift = far, &w.g.list[2], n
	}
	for i, k := range c.order {
		r := far.rhs(i % n)
		if i < n {
			r = near.rhs(shift + i)
		}
		e := c.wave[at][k]
		p, u := e*c.p[k*n], e*c.u[k*n]
		m.T11 += p * r[0]
		m.T12 += p * r[1]
		m.T21 += u * r[0]
		m.T22 += u * r[1]
	}
	return m
}

// writer writes the equations of one block row by row; the waves of the part at hand have their columns from down on,
// the second half of them from up on.
type writer struct {
	*block
	row, down, up int
}

// put adds x p_i + y u_i at the beginning (0) or end (1) of a part and goes on to the next row.
func (b *writer) put(c *coupledModes, at, i int, x, y complex128) {
	b.add(c, at, i, x, y)
	b.row++
}

func (b *writer) add(c *coupledModes, at, i int, x, y complex128) {
	n := c.size()
	r := b.block.row(b.row)
	for j, m := range c.order {
		if e := c.wave[at][m]; e != 0 {
			k := b.down + j
			if j >= n {
				k = b.up + j - n
			}
			r[k] += e * (x*c.p[m*n+i] + y*c.u[m*n+i])
		}
	}
}

// closeRing ends the annulus in a closed cavity: U k_rho cos(kappa l) +- j kappa sin(kappa l) P = 0.
func (b *writer) closeRing(c *coupledModes, at int, cavity float64) {
	for j := range c.nRing {
		g := c.ring.gamma[j]
		kappa := root(c.kw*c.kw - complex(g*g, 0))
		cos, sin := scaledCosSin(kappa * complex(cavity, 0))
		x := 1i * kappa * sin
		if at == 1 {
			x = -x
		}
		b.put(c, at, c.nCore+j, x, complex(c.k, 0)*c.heavy*cos)
	}
}

// freeCore lets the higher modes of the bore leave: U + eta P = 0, eta = beta/(jk + M beta) of the leaving wave,
// beta = [jkM +- sqrt((1-M^2) g^2 - k^2)]/(1-M^2).
func (b *writer) freeCore(c *coupledModes, at int) {
	for i := 1; i < c.nCore; i++ {
		g, m := c.core.gamma[i], c.m1
		root := leaving(complex((1-m*m)*g*g, 0) - c.k1*c.k1)
		if at == 1 {
			root = -root
		}
		beta := (1i*c.k1*complex(m, 0) + root) * complex(1/(1-m*m), 0)
		b.put(c, at, i, beta*fourpole.Inverse(1i*c.k1+complex(m, 0)*beta), 1)
	}
}

// leaving is the root of a radial wavenumber square that decays, or runs, away from the origin.
func leaving(x complex128) complex128 {
	r := root(x)
	if real(r) < 0 || (real(r) == 0 && imag(r) < 0) {
		return -r
	}
	return r
}

// plug closes the bore and joins the annulus; the columns are the waves of the first part, then those of the second.
func (b *writer) plug(first, last *coupledModes) {
	n := first.size()
	at := func(part int) { b.down, b.up = part*(b.before+n), b.before+2*part*n }
	for i := range first.nCore {
		at(0)
		b.put(first, 1, i, 0, 1)
		at(1)
		b.put(last, 0, i, 0, 1)
	}
	for j := range first.nRing {
		i := first.nCore + j
		for _, pu := range [2][2]complex128{{1, 0}, {0, 1}} {
			at(0)
			b.add(first, 1, i, pu[0], pu[1])
			at(1)
			b.put(last, 0, i, -pu[0], -pu[1])
		}
	}
}

// scaledCosSin is cos z and sin z, both times e^{-|Im z|}.
func scaledCosSin(z complex128) (cos, sin complex128) {
	s, c := math.Sincos(real(z))
	e := math.Exp(-2 * math.Abs(imag(z)))
	ch, sh := (1+e)/2, math.Copysign((1-e)/2, imag(z))
	return complex(c*ch, -s*sh), complex(s*ch, c*sh)
}
