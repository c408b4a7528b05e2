package fourpole

import (
	"math"
	"math/cmplx"
)

// conePole is the four-pole of a cone by spherical waves from its apex, with m = d2/d1, q = (m-1)/L and Y of each end,
//
//	T = e^{-jM kL} [[m cos kL - (q/k) sin kL, j m Y2 sin kL],
//	                [(j/Y1)((m + q^2/k^2) sin kL - (L q^2/k) cos kL), (cos kL + (q/k) sin kL)/m]]
//
// (Munjal, Acoustics of Ducts and Mufflers, 1987, conical tube; derived here anew). k is that of a pipe with its wall
// losses, of 1/r in the mean over the length. With flow the matrix joins the convective states of its ends and M is the
// mean along it, sqrt(M1 M2): exact for a pipe, else to first order in M. Valid below the first cross mode.
type conePole struct {
	head, tail           Matrix  // classical to convective at the inlet, and back at the outlet
	y1, y2, ratio, slope float64 // slope is q, 1/m
	length, mach, bore   float64
	medium               Medium
	lossy                bool
}

func NewCone(head, tail End, length float64, walls Loss) (conePole, error) {
	if _, err := NewDuctArea(head.Medium, math.Min(head.Area, tail.Area), 0, length, math.Max(head.Mach, tail.Mach), walls); err != nil {
		return conePole{}, err
	}
	ratio := math.Sqrt(tail.Area / head.Area)
	bore := math.Sqrt(4 * head.Area / math.Pi)
	if x := ratio - 1; math.Abs(x) > 1e-9 {
		bore *= x / math.Log1p(x)
	}
	return conePole{head: head.Classical(), tail: tail.Convective(), y1: head.Y(), y2: tail.Y(), ratio: ratio, slope: (ratio - 1) / length, length: length,
		mach: math.Copysign(math.Sqrt(head.Mach*tail.Mach), head.Mach), bore: bore, medium: head.Medium, lossy: walls == ViscoThermal}, nil
}

// At is the matrix at omega.
func (p conePole) At(omega float64) Matrix {
	k := complex(omega/p.medium.SoundSpeed, 0)
	if p.lossy {
		a := WallAttenuation(p.medium, p.bore/2, omega)
		k += complex(a, -a-TurbulentAttenuation(p.medium, p.bore, p.mach))
	}
	k /= complex(1-p.mach*p.mach, 0)
	l, m := complex(p.length, 0), complex(p.ratio, 0)
	s, c := cmplx.Sin(k*l), cmplx.Cos(k*l)
	q := complex(p.slope, 0)
	t := Matrix{
		T11: m*c - q/k*s, T12: 1i * m * complex(p.y2, 0) * s,
		T21: 1i / complex(p.y1, 0) * ((m+q*q/(k*k))*s - l*q*q/k*c), T22: (c + q/k*s) / m,
	}
	return p.head.Mul(t).Mul(p.tail).Scale(cmplx.Exp(-1i * complex(p.mach, 0) * k * l))
}
