package chambers

import (
	"math"
	"math/cmplx"
	"slices"

	"hushwake/silencer/fourpole"
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

	beta  []complex128    // 2n roots
	p     []complex128    // shapes: row per root, core then ring
	u     []complex128    // rho c times velocity, same order; ring as rho c u_w
	order []int           // of the waves of a part: n that decay or run downstream, then n that do so upstream
	wave  [2][]complex128 // their amplitude at its beginning and end: at most 1
	heard [2]int          // of those n, the first so many reach the other end
	rigid int             // root of the wave that doesn't move the wall (D = 0), -1 if there is none
	poles []complex128    // scratch, n
	resid []complex128    // scratch, n
	x     []complex128    // scratch, n
	done  []bool          // scratch, 2n

	past  [2][]complex128 // roots at the last frequencies of a run, the latest first
	pastK [2]float64      // of the gas there, 0 = none
}

func resize[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
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
	c.done = resize(c.done, 2*n)
	if c.rigid = -1; math.Abs(c.m1)+math.Abs(c.m2) > slowest {
		c.separate()
		c.flowRoots()
	} else {
		c.m1, c.m2 = 0, 0
		c.restRoots()
	}
	for m := range c.beta {
		c.shape(m)
	}
}

// restRoots solves for x = beta^2 without flow: F = 1 + sum r_i/(d_i - x).
func (c *coupledModes) restRoots() {
	n, jk := c.size(), complex(0, c.k)
	c.poles, c.resid, c.x = resize(c.poles, n), resize(c.resid, n), resize(c.x, n)
	for i := range c.nCore {
		g, f := c.core.gamma[i], c.core.atOuter[i]
		c.poles[i], c.resid[i] = complex(g*g, 0)-c.k1*c.k1, 1i*c.k1*c.wall*complex(f*f, 0)
	}
	for j := range c.nRing {
		g, f := c.ring.gamma[j], c.ring.atInner[j]
		i := c.nCore + j
		c.poles[i], c.resid[i] = complex(g*g, 0)-c.kw*c.kw, jk*c.wall*c.heavy*complex(f*f, 0)
	}
	a, b := 0, c.nCore
	same := fourpole.Size1(c.poles[a]-c.poles[b]) < 1e-12*fourpole.Size1(c.poles[a])
	if same { // both gases alike: one wave has equal pressures on both sides of the wall
		c.poles[b] = c.poles[a]
		c.resid[a], c.resid[b] = c.resid[a]+c.resid[b], 0
	}
	c.guess()
	if c.size() > 2 {
		aberth(c.x, c.done, c.restNewton)
	}
	if same {
		c.rigid = nearest(c.x, c.poles[a])
		c.x[c.rigid] = c.poles[a]
	}
	for i, x := range c.x {
		b := cmplx.Sqrt(x)
		c.beta[2*i], c.beta[2*i+1] = b, -b
	}
}

func nearest(x []complex128, to complex128) int {
	best := 0
	for i := range x {
		if fourpole.Size1(x[i]-to) < fourpole.Size1(x[best]-to) {
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
			rest += c.resid[i] * fourpole.Inverse(c.poles[i]-c.poles[a])
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
		if d := c.poles[j] - c.poles[i]; j != i && fourpole.Size1(d) > 1e-6*fourpole.Size1(c.poles[i]) {
			rest += c.resid[j] * fourpole.Inverse(d)
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
		inv = fourpole.Inverse(inv)
		t := c.resid[i] * inv
		f += t
		df += t * inv
		poles += inv
	}
	return f * fourpole.Inverse(df-f*poles)
}

// separate moves the Mach number of the annulus by a hair where both flows and gases are alike: waves of equal
// pressure on both sides would then coincide with the poles.
func (c *coupledModes) separate() {
	const apart = 2e-7
	if math.Abs(c.m1-c.m2) < apart && fourpole.Size1(c.k1-c.kw) < apart*c.k {
		c.m2 = c.m1 - apart
	}
}

// flowRoots moves the roots at rest to those with flow; within a run it goes on from those before.
func (c *coupledModes) flowRoots() {
	if !c.continued() {
		c.restRoots()
		c.rigid = -1
		drift := complex(0.01*c.k, c.k*(c.m1+c.m2)/2)
		for i := range c.beta {
			c.beta[i] += drift // off the poles
		}
	}
	aberth(c.beta, c.done, c.flowNewton)
}

// continued takes the roots on from the last two frequencies in a straight line; false where they lie too far off.
func (c *coupledModes) continued() bool {
	step, last := c.k-c.pastK[0], c.pastK[0]-c.pastK[1]
	if c.pastK[1] == 0 || math.Abs(step) > 0.25*c.k || math.Abs(step) > 3*math.Abs(last) {
		return false
	}
	on := complex(step/last, 0)
	for i, b := range c.past[0] {
		c.beta[i] = b + on*(b-c.past[1][i])
	}
	return true
}

// carryOn keeps the roots for the next frequency of a run; forget begins a new run.
func (c *coupledModes) carryOn() {
	c.past[0], c.past[1] = resize(c.past[1], len(c.beta)), c.past[0]
	c.pastK[0], c.pastK[1] = c.k, c.pastK[0]
	copy(c.past[0], c.beta)
}

func (c *coupledModes) forget() { c.pastK = [2]float64{} }

// flowNewton is F/F' of F times all its denominators at b.
func (c *coupledModes) flowNewton(b complex128) complex128 {
	m1, m2 := complex(c.m1, 0), complex(c.m2, 0)
	j1, jw, jk := 1i*c.k1+m1*b, 1i*c.kw+m2*b, complex(0, c.k)+m2*b
	s, ds, logs := poleSum(j1*j1-b*b, 2*(m1*j1-b), c.core.gamma[:c.nCore], c.core.atOuter)
	sum, dsum := j1*s, m1*s+j1*ds
	s, ds, more := poleSum(jw*jw-b*b, 2*(m2*jw-b), c.ring.gamma[:c.nRing], c.ring.atInner)
	sum, dsum = c.wall*(sum+c.heavy*jk*s), c.wall*(dsum+c.heavy*(m2*s+jk*ds))
	f := 1 + sum
	return f * fourpole.Inverse(dsum+f*(logs+more))
}

// poleSum is the sum over modes of value^2/(d + gamma^2), its derivative where that of d is slope, and the logarithmic
// derivative of the product of the denominators.
func poleSum(d, slope complex128, gamma, value []float64) (sum, slopes, logs complex128) {
	value = value[:len(gamma)]
	for i, g := range gamma {
		inv := fourpole.Inverse(complex(real(d)+g*g, imag(d)))
		t := complex(real(inv)*value[i]*value[i], imag(inv)*value[i]*value[i])
		sum += t
		slopes += t * inv
		logs += inv
	}
	return sum, -slopes * slope, logs * slope
}

// shape fills row m: p_i = -T phi_i/A_i, q_j = H psi_j/B_j, scaled to a greatest value of 1; velocities by momentum,
// rho c u = -beta p/(jk + M beta), in the annulus divided by rho_w/rho.
func (c *coupledModes) shape(m int) {
	n := c.size()
	b := c.beta[m]
	p, u := c.p[m*n:(m+1)*n], c.u[m*n:(m+1)*n]
	drift := 1i*c.k1 + complex(c.m1, 0)*b
	if c.rigid >= 0 && m/2 == c.rigid {
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
		most = max(most, fourpole.Size1(z))
	}
	scale, core, ring := complex(1/most, 0), -b*fourpole.Inverse(drift), -b*fourpole.Inverse(push*c.heavy)
	for i := range p {
		p[i] *= scale
		if i < c.nCore {
			u[i] = core * p[i]
		} else {
			u[i] = ring * p[i]
		}
	}
}

// safeRatio keeps a mode that the wall doesn't touch finite.
func safeRatio(value float64, den complex128) complex128 {
	if fourpole.Size1(den) < 1e-140 {
		den = 1e-140
	}
	return complex(value, 0) * fourpole.Inverse(den)
}

// part sorts the waves of a part by their way and fills their amplitudes at its ends.
func (c *coupledModes) part(length float64) {
	n := len(c.beta)
	c.order, c.wave[0], c.wave[1] = resize(c.order, n), resize(c.wave[0], n), resize(c.wave[1], n)
	down, up := 0, n
	for m, b := range c.beta {
		if z := b * complex(length, 0); upstream(b) {
			up--
			c.order[up] = m
			c.wave[0][m], c.wave[1][m] = expDown(-z), 1
		} else {
			c.order[down] = m
			down++
			c.wave[0][m], c.wave[1][m] = 1, expDown(z)
		}
	}
	slices.Reverse(c.order[up:])
	n /= 2
	c.heard[0], c.heard[1] = hearing(c.order[:n], c.wave[1]), hearing(c.order[n:], c.wave[0])
}

// upstream says whether a wave e^{b z} decays upstream or, without decay, runs there.
func upstream(b complex128) bool {
	if math.Abs(real(b)) > 1e-9*math.Abs(imag(b)) {
		return real(b) > 0
	}
	return imag(b) > 0
}

// expDown is exp z for Re z <= 0, where more than 1300 dB count as 1300 dB.
func expDown(z complex128) complex128 {
	s, co := math.Sincos(imag(z))
	e := math.Exp(math.Max(real(z), -150))
	return complex(e*co, e*s)
}
