package chambers

import (
	"fmt"
	"math"
)

// radialModes are axisymmetric modes of a circle (inner = 0) or an annulus with rigid walls, orthonormal over
// the area; the first is the plane one, 1/sqrt(S).
type radialModes struct {
	inner, outer, area float64
	gamma              []float64 // radial wavenumbers, 1/m
	atInner, atOuter   []float64 // value at the radii, 1/m
	partJ, partY       []float64 // of an annulus: the mode is partJ J0(g r) + partY Y0(g r)
}

func newRadialModes(inner, outer float64, n int) radialModes {
	m := radialModes{inner: inner, outer: outer, area: math.Pi * (outer*outer - inner*inner)}
	plane := 1 / math.Sqrt(m.area)
	m.gamma, m.atInner, m.atOuter = []float64{0}, []float64{plane}, []float64{plane}
	m.partJ, m.partY = []float64{0}, []float64{0}
	for i := 1; i < n; i++ {
		if inner == 0 {
			m.addCircle(i)
		} else {
			m.addAnnulus(i)
		}
	}
	return m
}

// addCircle: J0(j r/R), j the i-th zero of J1; the mean square over the circle is J0(j)^2.
func (m *radialModes) addCircle(i int) {
	j := zeroJ1(i)
	s := 1 / math.Sqrt(m.area)
	m.gamma = append(m.gamma, j/m.outer)
	m.atInner = append(m.atInner, s/math.J0(j))
	m.atOuter = append(m.atOuter, s)
}

// addAnnulus: J0(g r) Y1(g R) - Y0(g r) J1(g R), whose slope is zero at R and, for the right g, at the inner radius.
// Its square integrates to pi (R^2 Z(R)^2 - b^2 Z(b)^2).
func (m *radialModes) addAnnulus(i int) {
	b, r := m.inner, m.outer
	slope := func(g float64) float64 { return math.J1(g*b)*math.Y1(g*r) - math.Y1(g*b)*math.J1(g*r) }
	g := nthRoot(slope, m.gamma[i-1], math.Pi/(r-b))
	z := func(x float64) float64 { return math.J0(g*x)*math.Y1(g*r) - math.Y0(g*x)*math.J1(g*r) }
	zb, zr := z(b), z(r)
	norm := math.Sqrt(math.Pi * (r*r*zr*zr - b*b*zb*zb))
	m.gamma = append(m.gamma, g)
	m.atInner = append(m.atInner, zb/norm)
	m.atOuter = append(m.atOuter, zr/norm)
	m.partJ = append(m.partJ, math.Y1(g*r)/norm)
	m.partY = append(m.partY, -math.J1(g*r)/norm)
}

// nthRoot is the first root above the one before it; roots lie about one spacing apart.
func nthRoot(f func(float64) float64, before, spacing float64) float64 {
	lo := before + 0.3*spacing
	step := spacing / 20
	flo := f(lo)
	for range 200 {
		hi := lo + step
		fhi := f(hi)
		if flo*fhi <= 0 {
			return bisect(f, lo, hi, flo)
		}
		lo, flo = hi, fhi
	}
	return lo
}

func bisect(f func(float64) float64, lo, hi, flo float64) float64 {
	for range 200 {
		mid := (lo + hi) / 2
		if mid <= lo || mid >= hi {
			break
		}
		if fm := f(mid); fm*flo > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// zeroJ1 is the i-th positive zero of J1: McMahon's expansion (Abramowitz & Stegun 9.5.12) polished by Newton steps.
func zeroJ1(i int) float64 {
	b := (float64(i) + 0.25) * math.Pi
	x := b - 3/(8*b) + 36/(3*math.Pow(8*b, 3))
	for range 5 {
		j1 := math.J1(x)
		x -= j1 / (math.J0(x) - j1/x)
	}
	return x
}

// value of a mode at a radius.
func (m radialModes) value(i int, r float64) float64 {
	g := m.gamma[i]
	switch {
	case i == 0:
		return m.atOuter[0]
	case m.inner == 0:
		return m.atInner[i] * math.J0(g*r)
	}
	return m.partJ[i]*math.J0(g*r) + m.partY[i]*math.Y0(g*r)
}

// wallSum is the sum over all modes but the plane one of (value at the wall)^2/gamma^2: 1/(8 pi) at the rim of a
// circle; at the inner wall of an annulus, b inner and R outer radius,
//
//	[R^4 ln(R/b)/(R^2-b^2)^2 - (3R^2-b^2)/(4(R^2-b^2))]/(2 pi)
//
// (derived from the static field of a uniform inflow through that wall).
func wallSum(inner, outer float64) float64 {
	if inner == 0 {
		return 1 / (8 * math.Pi)
	}
	b2, r2 := inner*inner, outer*outer
	d := r2 - b2
	if d < 1e-3*r2 { // a thin gap of height h: h/(3 b), its static limit
		return (outer - inner) / (3 * inner) / (2 * math.Pi)
	}
	return (r2*r2*math.Log(outer/inner)/(d*d) - (3*r2-b2)/(4*d)) / (2 * math.Pi)
}

// restOfWallSum is what the modes kept leave of wallSum.
func (m radialModes) restOfWallSum() float64 {
	rest := wallSum(m.inner, m.outer)
	at := m.atOuter
	if m.inner > 0 {
		at = m.atInner
	}
	for i := 1; i < len(m.gamma); i++ {
		rest -= at[i] * at[i] / (m.gamma[i] * m.gamma[i])
	}
	return math.Max(0, rest)
}

func checkBores(small, large float64) error {
	if !(small > 0) || !(large > small) {
		return fmt.Errorf("bore %g m must be smaller than the chamber bore %g m", small, large)
	}
	return nil
}
