package fourpole

import (
	"math"
	"math/cmplx"
)

// coupledModes are the axial wavenumbers and cross-section shapes of a tube and an annulus that a thin wall of
// transfer impedance zeta couples. Both fields are expanded in the modes of rigid cross-sections. For e^{beta z}
//
//	A_i p_i + T phi_i D = 0,   A_i = (jk + M1 beta)^2 - beta^2 + g_i^2,  T = (2 pi a/zeta)(jk + M1 beta)
//	B_j q_j - H psi_j D = 0,   B_j = (jk_w + M2 beta)^2 - beta^2 + h_j^2, H = (2 pi a rho_w/(rho zeta))(jk + M2 beta)
//
// with D = sum phi_i p_i - sum psi_j q_j the pressure difference at the wall, so that the betas are the roots of
//
//	F(beta) = 1 + T sum phi_i^2/A_i + H sum psi_j^2/B_j = 0
//
// (derived from continuity, momentum and (p1-p2) = zeta rho c u_r; with one mode each it is the equation of Sullivan
// & Crocker 1978, with flow that of Munjal 1987). The modes left out are added to zeta at their static value,
// jk 2 pi a sum phi^2/g^2, which with one mode each gives the radial term jk a/4 of the bore.
//
// Printed forms of the flow case differ in which Mach number stands in which row: the bore rows take that of the
// bore, the annulus rows that of the annulus, as here. The exponents are scaled to the end where each wave is
// largest, so that nothing overflows for any zeta.
type coupledModes struct {
	nCore, nRing int
	k            float64    // of the gas
	k1, kw       complex128 // with wall losses, of the annulus
	heavy        complex128 // rho_w/rho
	wall         complex128 // 2 pi a/zeta
	m1, m2       float64
	core, ring   *radialModes

	beta  []complex128 // 2n roots
	p     []complex128 // shapes: row per root, core then ring
	u     []complex128 // rho c times velocity, same order; ring as rho c u_w
	still int          // root of the wave that doesn't move the wall (D = 0), -1 if there is none
	poles []complex128 // scratch, n
	resid []complex128 // scratch, n
	x     []complex128 // scratch, n
}

func resize(s []complex128, n int) []complex128 {
	if cap(s) < n {
		return make([]complex128, n)
	}
	return s[:n]
}

func (c *coupledModes) size() int { return c.nCore + c.nRing }

// slowest is the Mach number below which the waves at rest serve: their error is of that order.
const slowest = 1e-7

// find fills beta, p and u.
func (c *coupledModes) find() {
	n := c.size()
	c.beta, c.p, c.u = resize(c.beta, 2*n), resize(c.p, 2*n*n), resize(c.u, 2*n*n)
	c.poles, c.resid, c.x = resize(c.poles, n), resize(c.resid, n), resize(c.x, n)
	c.restRoots()
	for i, x := range c.x {
		b := cmplx.Sqrt(x)
		c.beta[2*i], c.beta[2*i+1] = b, -b
	}
	if math.Abs(c.m1)+math.Abs(c.m2) > slowest {
		c.still = -1
		c.separate()
		c.flowRoots()
	} else {
		c.m1, c.m2 = 0, 0
	}
	for m := range c.beta {
		c.shape(m)
	}
}

// restRoots solves for x = beta^2 without flow: F = 1 + sum r_i/(d_i - x).
func (c *coupledModes) restRoots() {
	jk := complex(0, c.k)
	for i := range c.nCore {
		g, f := c.core.gamma[i], c.core.atOuter[i]
		c.poles[i], c.resid[i] = complex(g*g, 0)-c.k1*c.k1, 1i*c.k1*c.wall*complex(f*f, 0)
	}
	for j := range c.nRing {
		g, f := c.ring.gamma[j], c.ring.atInner[j]
		i := c.nCore + j
		c.poles[i], c.resid[i] = complex(g*g, 0)-c.kw*c.kw, jk*c.wall*c.heavy*complex(f*f, 0)
	}
	c.still = -1
	a, b := 0, c.nCore
	same := size1(c.poles[a]-c.poles[b]) < 1e-12*size1(c.poles[a])
	if same { // both gases alike: one wave has equal pressures on both sides of the wall
		c.poles[b] = c.poles[a]
		c.resid[a], c.resid[b] = c.resid[a]+c.resid[b], 0
	}
	c.guess()
	if c.size() > 2 {
		aberth(c.x, c.restNewton)
	}
	if same {
		c.still = nearest(c.x, c.poles[a])
		c.x[c.still] = c.poles[a]
	}
}

func nearest(x []complex128, to complex128) int {
	best := 0
	for i := range x {
		if size1(x[i]-to) < size1(x[best]-to) {
			best = i
		}
	}
	return best
}

// guess solves the pair of plane modes exactly among frozen others, and each other mode by itself.
func (c *coupledModes) guess() {
	a, b := 0, c.nCore
	rest := complex128(1)
	for i := range c.x {
		if i != a && i != b {
			rest += c.resid[i] / (c.poles[i] - c.poles[a])
		}
	}
	r1, r2 := c.resid[a]/rest, c.resid[b]/rest
	u, v := c.poles[a]+r1, c.poles[b]+r2
	half, root := (u+v)/2, cmplx.Sqrt((u-v)*(u-v)/4+r1*r2)
	if real(half)*real(root)+imag(half)*imag(root) < 0 {
		root = -root
	}
	c.x[a] = half + root
	c.x[b] = (c.poles[a]*c.poles[b] + r1*c.poles[b] + r2*c.poles[a]) / c.x[a]
	for i := range c.x {
		if i != a && i != b {
			c.x[i] = c.guessAlone(i)
		}
	}
}

func (c *coupledModes) guessAlone(i int) complex128 {
	rest := complex128(1)
	for j := range c.x {
		if d := c.poles[j] - c.poles[i]; j != i && size1(d) > 1e-6*size1(c.poles[i]) {
			rest += c.resid[j] / d
		}
	}
	return c.poles[i] + c.resid[i]/rest
}

// restNewton is P/P' of the polynomial P = prod(d_i - x) F at x.
func (c *coupledModes) restNewton(x complex128) complex128 {
	f, df, poles := complex128(1), complex128(0), complex128(0)
	for i, d := range c.poles {
		inv := d - x
		if inv == 0 {
			return 0
		}
		inv = 1 / inv
		t := c.resid[i] * inv
		f += t
		df += t * inv
		poles += inv
	}
	return f / (df - f*poles)
}

// separate moves the Mach number of the annulus by a hair where both flows and gases are alike: waves of equal
// pressure on both sides would then coincide with the poles.
func (c *coupledModes) separate() {
	const apart = 2e-7
	if math.Abs(c.m1-c.m2) < apart && size1(c.k1-c.kw) < apart*c.k {
		c.m2 = c.m1 - apart
	}
}

// flowRoots moves the roots at rest to those with flow.
func (c *coupledModes) flowRoots() {
	drift := complex(0.01*c.k, c.k*(c.m1+c.m2)/2)
	for i := range c.beta {
		c.beta[i] += drift // off the poles
	}
	aberth(c.beta, c.flowNewton)
}

func (c *coupledModes) flowNewton(b complex128) complex128 {
	m1, m2, jk, jw := complex(c.m1, 0), complex(c.m2, 0), complex(0, c.k), 1i*c.kw
	j1 := 1i * c.k1
	sum, dsum, logs := complex128(0), complex128(0), complex128(0)
	add := func(side, dside complex128, n int, modes *radialModes, value []float64, drift, m complex128) {
		d2, dd := drift*drift-b*b, 2*(m*drift-b)
		s, ds := complex128(0), complex128(0)
		for i := range n {
			inv := 1 / (d2 + complex(modes.gamma[i]*modes.gamma[i], 0))
			t := complex(value[i]*value[i], 0) * inv
			s += t
			ds -= t * inv * dd
			logs += dd * inv
		}
		sum += side * s
		dsum += dside*s + side*ds
	}
	add(c.wall*(j1+m1*b), c.wall*m1, c.nCore, c.core, c.core.atOuter, j1+m1*b, m1)
	add(c.wall*c.heavy*(jk+m2*b), c.wall*c.heavy*m2, c.nRing, c.ring, c.ring.atInner, jw+m2*b, m2)
	f := 1 + sum
	return f / (dsum + f*logs)
}

// aberth improves all roots of a polynomial together (Aberth 1973); newton gives P/P'.
func aberth(x []complex128, newton func(complex128) complex128) {
	for range 80 {
		moved := 0.0
		for i, z := range x {
			w := newton(z)
			if w == 0 || cmplx.IsNaN(w) || cmplx.IsInf(w) {
				continue
			}
			s := complex128(0)
			for j, y := range x {
				if d := z - y; j != i && d != 0 {
					s += 1 / d
				}
			}
			step := w / (1 - w*s)
			x[i] = z - step
			moved = math.Max(moved, size1(step)/(size1(x[i])+1e-300))
		}
		if moved < 1e-14 {
			return
		}
	}
}

// shape fills row m: p_i = -T phi_i/A_i, q_j = H psi_j/B_j, scaled to a greatest value of 1; velocities by momentum,
// rho c u = -beta p/(jk + M beta), in the annulus divided by rho_w/rho.
func (c *coupledModes) shape(m int) {
	n := c.size()
	b := c.beta[m]
	p, u := c.p[m*n:(m+1)*n], c.u[m*n:(m+1)*n]
	drift := 1i*c.k1 + complex(c.m1, 0)*b
	if c.still >= 0 && m/2 == c.still {
		clear(p)
		clear(u)
		p[0], p[c.nCore] = complex(1/c.core.atOuter[0], 0), complex(1/c.ring.atInner[0], 0)
		c.finish(p, u, drift, complex(0, c.k), b)
		return
	}
	for i := range c.nCore {
		g := c.core.gamma[i]
		p[i] = -c.wall * drift * safeRatio(c.core.atOuter[i], drift*drift-b*b+complex(g*g, 0))
	}
	jw := 1i*c.kw + complex(c.m2, 0)*b
	push := complex(0, c.k) + complex(c.m2, 0)*b
	for j := range c.nRing {
		g := c.ring.gamma[j]
		p[c.nCore+j] = c.wall * c.heavy * push * safeRatio(c.ring.atInner[j], jw*jw-b*b+complex(g*g, 0))
	}
	c.finish(p, u, drift, push, b)
}

// finish scales a shape and adds the velocities.
func (c *coupledModes) finish(p, u []complex128, drift, push, b complex128) {
	most := 0.0
	for _, z := range p {
		most = math.Max(most, size1(z))
	}
	scale := complex(1/most, 0)
	for i := range p {
		p[i] *= scale
		if i < c.nCore {
			u[i] = -b * p[i] / drift
		} else {
			u[i] = -b * p[i] / (push * c.heavy)
		}
	}
}

// safeRatio keeps a mode that the wall doesn't touch finite.
func safeRatio(value float64, den complex128) complex128 {
	if size1(den) < 1e-200 {
		den = 1e-200
	}
	return complex(value, 0) / den
}

// wave is the factor of root m at the two ends of a length: the wave is 1 where it is largest.
func (c *coupledModes) wave(m int, length float64) (start, end complex128) {
	b := c.beta[m] * complex(length, 0)
	if real(b) <= 0 {
		return 1, expDown(b)
	}
	return expDown(-b), 1
}

// expDown is exp z for Re z <= 0, where more than 1300 dB count as 1300 dB.
func expDown(z complex128) complex128 {
	s, co := math.Sincos(imag(z))
	e := math.Exp(math.Max(real(z), -150))
	return complex(e*co, e*s)
}
