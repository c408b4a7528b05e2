package chambers

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"
)

// Every wave of the coupled ducts must satisfy continuity and momentum of both, each with its own Mach number, and the
// four must differ: |zeta| from 1e-6 to 1e6.
func TestCoupledWavesSatisfyTheirEquations(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		core, ring := newRadialModes(0, 0.025, 1), newRadialModes(0.025, 0.06, 1)
		k := drawBore(r, "k", 0.1, 100)
		mach := rapid.SampledFrom([]float64{0, 0.01, 0.3})
		zeta := complex(drawBore(r, "zeta", 1e-6, 1e6), 0) * rapid.SampledFrom([]complex128{1, 0.1 + 1i, 0.1 - 1i}).Draw(r, "phase")
		c := coupledModes{nCore: 1, nRing: 1, core: &core, ring: &ring, k: k, k1: complex(k, 0), kw: complex(k, 0), heavy: 1}
		c.m1, c.m2 = mach.Draw(r, "m1"), mach.Draw(r, "m2")
		c.wall = complex(2*math.Pi*0.025, 0) / zeta
		c.find()
		m1, m2 := complex(c.m1, 0), complex(c.m2, 0)
		jk := complex(0, k)
		for m, b := range c.beta {
			s1, s2 := complex(1/math.Sqrt(core.area), 0), complex(1/math.Sqrt(ring.area), 0)
			p, u, q, w := c.p[2*m]*s1, c.u[2*m]*s1, c.p[2*m+1]*s2, c.u[2*m+1]*s2
			flux := c.wall * (p - q)
			size := (cmplx.Abs(b) + k) * (cmplx.Abs(p) + cmplx.Abs(q) + cmplx.Abs(u) + cmplx.Abs(w))
			size += cmplx.Abs(c.wall) * (cmplx.Abs(p) + cmplx.Abs(q)) / core.area
			for i, res := range []complex128{
				(jk+m1*b)*p + b*u + flux/complex(core.area, 0), (jk+m1*b)*u + b*p,
				(jk+m2*b)*q + b*w - flux/complex(ring.area, 0), (jk+m2*b)*w + b*q,
			} {
				near(r, 0, cmplx.Abs(res)/size, 1e-8, "wave %d, equation %d", m, i)
			}
		}
	})
}

// Radial modes are orthonormal, and what the sums of wallSum say is what many modes add up to.
func TestRadialModes(t *testing.T) {
	for _, inner := range []float64{0, 0.01, 0.05, 0.095} {
		m := newRadialModes(inner, 0.1, 400)
		const n = 20000
		for _, pair := range [][2]int{{0, 0}, {0, 3}, {1, 1}, {1, 2}, {4, 7}, {9, 9}} {
			sum, h := 0.0, (0.1-inner)/n
			for i := range n {
				x := inner + (float64(i)+0.5)*h
				sum += m.value(pair[0], x) * m.value(pair[1], x) * 2 * math.Pi * x * h
			}
			want := 0.0
			if pair[0] == pair[1] {
				want = 1
			}
			near(t, want, sum, 1e-5, "inner %g, modes %v", inner, pair)
		}
		near(t, 0, m.restOfWallSum()/wallSum(inner, 0.1), 0.01, "rest of the sum at the wall, inner %g", inner)
	}
	near(t, 3.8317059702, zeroJ1(1), 1e-9, "first zero of J1") // Abramowitz & Stegun table 9.5
	near(t, 7.0155866698, zeroJ1(2), 1e-9, "second zero of J1")
	near(t, 32.1896799110, zeroJ1(10), 1e-9, "tenth zero of J1")
}

// Roots taken on from two frequencies lie near those at the third, which is what spares the search; not so far off.
func TestRootsContinue(t *testing.T) {
	core, ring := newRadialModes(0, 0.06, 5), newRadialModes(0.06, 0.12, 4)
	c := coupledModes{nCore: 5, nRing: 4, core: &core, ring: &ring, heavy: 1, wall: complex(0.4, -3), m1: 0.1}
	at := func(k float64) {
		c.k, c.k1, c.kw = k, complex(k, -0.01*k), complex(1.5*k, -0.4*k)
	}
	for _, k := range []float64{10, 10.2} {
		at(k)
		c.find()
		c.carryOn()
	}
	at(10.4)
	if !c.continued() {
		t.Fatal("not continued")
	}
	guess := append([]complex128(nil), c.beta...)
	c.find()
	for i, b := range c.beta {
		near(t, 0, cmplx.Abs(guess[i]-b)/cmplx.Abs(b), 1e-3, "root %d", i)
	}
	if at(14); c.continued() {
		t.Error("continued over a third of the frequency")
	}
	if c.forget(); c.continued() {
		t.Error("continued from nothing")
	}
}
