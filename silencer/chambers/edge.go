package chambers

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// edgeBasis are functions for the velocity in the mouth of a tube or of the annulus round it. At the edge of the
// wall the velocity grows as distance^-p, p = 1/3 at a square corner and 1/2 at a sheet, which a sum of duct modes
// only follows slowly; so the basis is 1 and (1-y^2)^-p P_q(1-2y^2), with y the distance from the axis (from the shell
// in an annulus) over its greatest value, P_q Legendre polynomials. It is kept at quadrature points that take the
// edge out by r ~ z^n.
type edgeBasis struct {
	inner, outer float64
	exponent     float64 // p
	r            []float64
	f            [][]float64 // function, point: value times 2 pi r dr
}

// newEdgeBasis prepares n functions and enough points for radial wavenumbers up to gamma.
func newEdgeBasis(inner, outer float64, n int, exponent, gamma float64) edgeBasis {
	b := edgeBasis{inner: inner, outer: outer, exponent: exponent}
	points := 40 + int(1.3*gamma*(outer-inner))
	z, w := make([]float64, points), make([]float64, points)
	quad.Legendre{}.FixedLocations(z, w, 0, 1)
	stretch := 3.0
	if exponent == 0.5 {
		stretch = 2
	}
	b.f = make([][]float64, n)
	scale := 1 / math.Sqrt(math.Pi*(outer*outer-inner*inner))
	for i, zi := range z {
		r, gap, area := b.point(zi, stretch)
		b.r = append(b.r, r)
		edge := math.Pow(gap, -exponent)
		b.f[0] = append(b.f[0], scale*area*w[i])
		for q := 1; q < n; q++ {
			b.f[q] = append(b.f[q], scale*edge*legendre(q-1, 2*gap-1)*area*w[i])
		}
	}
	return b
}

// point gives radius, 1-y^2 and 2 pi r dr/dz at the stretched place z, which is 0 at the edge.
func (b edgeBasis) point(z, stretch float64) (r, gap, area float64) {
	t := math.Pow(z, stretch)
	dt := stretch * math.Pow(z, stretch-1)
	if b.inner == 0 {
		return b.outer * math.Sqrt(1-t), t, math.Pi * b.outer * b.outer * dt
	}
	width := b.outer - b.inner
	r = b.inner + width*t
	return r, t * (2 - t), 2 * math.Pi * r * width * dt
}

func legendre(n int, x float64) float64 {
	a, b := 1.0, x
	if n == 0 {
		return a
	}
	for k := 1; k < n; k++ {
		a, b = b, (float64(2*k+1)*x*b-float64(k)*a)/float64(k+1)
	}
	return b
}

// overlap fills row with the integrals of the functions times one radial mode.
func (b edgeBasis) overlap(m radialModes, mode int, row []float64) {
	clear(row)
	for i, r := range b.r {
		v := m.value(mode, r)
		for q := range row {
			row[q] += v * b.f[q][i]
		}
	}
}
