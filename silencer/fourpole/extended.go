package fourpole

import (
	"fmt"
	"math"
)

// Extended is the plane where a tube that stands inside a chamber ends: the tube, the chamber and the closed
// annulus round the tube meet there. In convective variables, with S the areas, a = S_tube/S_chamber, m = M Y of the
// tube, b the admittance of the annulus and v_a = b p_a what flows into it, v_u = v_d + v_a:
//
// An inlet tube ends in a jet. As in Borda's step the plane of its mouth has one static pressure, which the annulus
// and the edge of the tube feel too; behind it momentum is kept:
//
//	p_a = p_u - m v_u
//	S_t(p_u + m v_u) + (S_c - S_t) p_a = S_c(p_d + a^2 m v_d)
//	=> p_u = p_d + m [a^2 v_d + (1-2a) v_u]
//
// An outlet tube draws from chamber gas that moves slowly; the annulus has its stagnation pressure, and the loss
// K = (1-a)/2 is that of what goes into the tube:
//
//	p_a = p_u,  p_u = p_d + K m v_d
//
// The power lost is m|v_u - a v_d|^2/2 or K m|v_d|^2/2: never less than nothing; without an annulus both are the step.
// The matrix printed in Munjal 1987 and Beranek & Ver ch. 10 takes instead the loss of the whole step on v_d, which for an
// inlet has not all passed the jet, and the annulus pressure from momentum: it gives sound power away at the annulus,
// 10 dB in the troughs of a chamber of 25 times the pipe's area at M = 0.05. (There, too, index 1 is the downstream
// side; read with 1 as the tube in both, it is wrong for the inlet.) All derived. At rest it is the shunt b. The lossless
// resonance of the annulus is limited to lossCap.
type Extended struct {
	up, down    Matrix // convective to classical upstream, classical to convective downstream
	annulus     Duct
	inlet       bool
	m, a        float64 // M Y of the tube, area ratio
	series      float64 // K m of an outlet tube
	host        float64
	annulusUsed bool
}

// NewExtendedInlet prepares the end of an inlet tube; tubeOuter is the outside diameter and reach the acoustic length
// (m) of the annulus behind the end.
func NewExtendedInlet(tube, chamber End, tubeOuter, reach float64, loss Loss) (Extended, error) {
	x, err := newExtended(tube, chamber, tubeOuter, reach, loss)
	x.up, x.down, x.inlet = tube.Classical(), chamber.convective(), true
	return x, err
}

// NewExtendedOutlet prepares the end of an outlet tube. Both are in m, as of an inlet.
func NewExtendedOutlet(chamber, tube End, tubeOuter, reach float64, loss Loss) (Extended, error) {
	x, err := newExtended(tube, chamber, tubeOuter, reach, loss)
	x.up, x.down = chamber.Classical(), tube.convective()
	x.series = StepLossFactor(chamber.Area, tube.Area) * x.m
	return x, err
}

func newExtended(tube, chamber End, outer, reach float64, loss Loss) (Extended, error) {
	for _, e := range []End{tube, chamber} {
		if err := e.Check(); err != nil {
			return Extended{}, fmt.Errorf("extended tube: %w", err)
		}
	}
	area := chamber.Area - CircleArea(outer)
	if !(area > 0) || chamber.Area <= tube.Area {
		return Extended{}, fmt.Errorf("extended tube: outside diameter %g m leaves no annulus in the chamber", outer)
	}
	wetted := math.Pi*outer + 2*math.Sqrt(math.Pi*chamber.Area)
	d, err := NewDuctArea(tube.Medium, area, wetted, reach, 0, loss)
	if err != nil {
		return Extended{}, fmt.Errorf("extended tube: %w", err)
	}
	return Extended{annulus: d, annulusUsed: reach > 0, m: tube.Mach * tube.Y(), a: tube.Area / chamber.Area, host: tube.Y()}, nil
}

func (x Extended) admittance(omega float64) (complex128, bool) {
	if !x.annulusUsed {
		return 0, false
	}
	m := x.annulus.At(omega)
	return limitShunt(m.T21/m.T11, x.host)
}

// At is the matrix at omega between classical states.
func (x Extended) At(omega float64) Matrix {
	b, _ := x.admittance(omega)
	return x.up.Mul(x.junction(b)).Mul(x.down)
}

// junction is the matrix between convective states.
func (x *Extended) junction(b complex128) Matrix {
	if !x.inlet {
		k := complex(x.series, 0)
		return Matrix{1, k, b, 1 + k*b}
	}
	ma := complex(x.m*x.a, 0)
	den := 1 / (1 + 2*ma*b)
	t21, t22 := b*den, (1+ma*complex(x.a, 0)*b)*den
	jet := complex(x.m*(1-2*x.a), 0)
	return Matrix{1 + jet*t21, ma*complex(x.a, 0) + jet*t22, t21, t22}
}

// CappedAt says whether the loss of the annulus was limited to lossCap.
func (x Extended) CappedAt(omega float64) bool {
	_, capped := x.admittance(omega)
	return capped
}
