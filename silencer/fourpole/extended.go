package fourpole

import (
	"fmt"
	"math"
)

// Extended is the plane where a tube that stands inside a chamber ends: the tube, the chamber and the closed
// annulus round the tube meet there. In convective variables, with S the areas, b the admittance of the annulus
// and S* = S_chamber - S_tube (the edge of the tube carries the pressure of the annulus), continuity of stagnation
// mass, the loss K of the step, and the balance of momentum
//
//	inlet:  S_t(p_t + M_t Y_t v_t) + S* p_a = S_c(p_c + M_c Y_c v_c)
//	outlet: S_c(p_c + M_c Y_c v_c) - S* p_a = S_t(p_t + M_t Y_t v_t)
//
// give, u upstream and d downstream, s = +1 for an inlet tube and -1 for an outlet tube,
//
//	p_u = p_d + K M_d Y_d v_d
//	v_u = [S* b p_d + (S* + s M_d Y_d (S_d - S_u K) b) v_d] / (S* + s c M_u b)
//
// (derived; it agrees with the matrix in Munjal 1987 and Beranek & Ver ch. 10, whose index 1 is the downstream side
// and whose C1 = -1 with C2 = +1 for an inlet, -1 for an outlet tube: read with 1 as the tube in both, it is wrong
// for the inlet). At rest it is the shunt b. The lossless resonance of the annulus is limited to LossCap.
type Extended struct {
	up, down     Matrix // convective to classical upstream, classical to convective downstream
	annulus      Duct
	star, series float64 // S*, K M_d Y_d
	perB, loadB  float64 // coefficients of b in the numerator of T22 and in the denominator
	host         float64
	annulusUsed  bool
}

// NewExtendedInlet prepares the end of an inlet tube; tubeOuter is the outside diameter and reach the acoustic length
// (m) of the annulus behind the end.
func NewExtendedInlet(tube, chamber End, tubeOuter, reach float64, loss Loss) (Extended, error) {
	return newExtended(tube, chamber, tube, chamber, +1, tubeOuter, reach, loss)
}

// NewExtendedOutlet prepares the end of an outlet tube.
func NewExtendedOutlet(chamber, tube End, tubeOuter, reach float64, loss Loss) (Extended, error) {
	return newExtended(chamber, tube, tube, chamber, -1, tubeOuter, reach, loss)
}

func newExtended(up, down, tube, chamber End, sign, outer, reach float64, loss Loss) (Extended, error) {
	for _, e := range []End{tube, chamber} {
		if err := e.check(); err != nil {
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
	k := StepLossFactor(up.Area, down.Area)
	load := sign * up.Mach * up.Medium.SoundSpeed
	return Extended{
		up: up.Classical(), down: down.convective(), annulus: d, annulusUsed: reach > 0,
		star: chamber.Area - tube.Area, series: k * down.Mach * down.Y(),
		perB: sign * down.Mach * down.Y() * (down.Area - up.Area*k), loadB: load, host: tube.Y(),
	}, nil
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
	s := complex(x.star, 0)
	den := 1 / (s + complex(x.loadB, 0)*b)
	t := Matrix{1, complex(x.series, 0), s * b * den, (s + complex(x.perB, 0)*b) * den}
	return x.up.Mul(t).Mul(x.down)
}

// CappedAt says whether the loss of the annulus was limited to LossCap.
func (x Extended) CappedAt(omega float64) bool {
	_, capped := x.admittance(omega)
	return capped
}
