package fourpole

import (
	"errors"
	"math/cmplx"
)

// Parallel is several pieces side by side between common ends: the pressures at both ends are equal and the
// mass velocities add. Each branch: v1 = (T22/T12) p1 + (T21 - T11 T22/T12) p2, v2 = (1/T12) p1 - (T11/T12) p2;
// the four coefficients add over the branches (derived).
type Parallel struct{ Branches []Piece }

// NewParallel prepares branches, of which there must be at least one.
func NewParallel(branches ...Piece) (Parallel, error) {
	if len(branches) == 0 {
		return Parallel{}, errors.New("parallel: no branch")
	}
	return Parallel{branches}, nil
}

// At adds the branches. Where one of them is a whole number of half waves long its coefficients are infinite: there it
// is taken at a frequency a millionth higher. A branch of no length at all (T12 = 0) is a short circuit: its own matrix then rules.
func (p Parallel) At(omega float64) Matrix {
	if len(p.Branches) == 1 {
		return p.Branches[0].At(omega)
	}
	var a, b, c, d complex128
	for _, br := range p.Branches {
		t := br.At(omega)
		if cmplx.Abs(t.T12*t.T21) < 1e-12*cmplx.Abs(t.T11*t.T22) {
			t = br.At(omega * (1 + 1e-6))
		}
		if cmplx.Abs(t.T12) < 1e-300 {
			return t
		}
		a += t.T22 / t.T12
		b += t.T21 - t.T11*t.T22/t.T12
		c += 1 / t.T12
		d -= t.T11 / t.T12
	}
	return fromAdmittance(a, b, c, d)
}

// CappedAt says whether a branch had its loss limited at omega.
func (p Parallel) CappedAt(omega float64) bool { return Chain(p.Branches).CappedAt(omega) }

// fromAdmittance turns v1 = a p1 + b p2, v2 = c p1 + d p2 into p1, v1 from p2, v2. At a frequency where the
// branches cancel exactly (c = 0) the loss is limited, as at the resonance of a side branch.
func fromAdmittance(a, b, c, d complex128) Matrix {
	size := cmplx.Abs(a) + cmplx.Abs(d) + cmplx.Abs(b)
	if cmplx.Abs(c) < 1e-9*size {
		c = complex(1e-9*size, 0)
	}
	return Matrix{-d / c, 1 / c, b - a*d/c, a / c}
}
