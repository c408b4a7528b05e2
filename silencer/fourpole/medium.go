package fourpole

import (
	"errors"
	"fmt"
	"math"
)

// Medium is a gas at rest in SI units.
type Medium struct {
	SoundSpeed float64 // m/s
	Density    float64 // kg/m3
	Viscosity  float64 // Pa s, dynamic
	Prandtl    float64
	Gamma      float64 // ratio of specific heats
}

// StandardAir is the air that specimen tubes and the finite-element reference use: 343 m/s, 1.204 kg/m3 (20 C).
func StandardAir() Medium {
	return Medium{SoundSpeed: 343, Density: 1.204, Viscosity: 1.813e-5, Prandtl: 0.71, Gamma: 1.4}
}

// Check reports values that no gas has.
func (m Medium) Check() error {
	if !(m.SoundSpeed > 0) || !(m.Density > 0) || math.IsInf(m.SoundSpeed, 0) || math.IsInf(m.Density, 0) {
		return fmt.Errorf("medium: speed of sound %g m/s and density %g kg/m3 must be positive", m.SoundSpeed, m.Density)
	}
	if m.Viscosity < 0 || m.Prandtl < 0 || m.Gamma < 0 {
		return errors.New("medium: viscosity, Prandtl number and ratio of specific heats can't be negative")
	}
	return nil
}

// Impedance is rho c in Pa s/m.
func (m Medium) Impedance() float64 { return m.Density * m.SoundSpeed }

// CircleArea is the area of a bore, m2.
func CircleArea(bore float64) float64 { return math.Pi / 4 * bore * bore }

// End is one end of an element: what flows there and through which area.
type End struct {
	Medium Medium
	Area   float64 // m2
	Mach   float64 // mean flow towards the outlet
}

// PipeEnd is an End of circular bore. The bore is in m, mach the flow's Mach number.
func PipeEnd(m Medium, bore, mach float64) End { return End{m, CircleArea(bore), mach} }

// Y is the characteristic impedance c/S for mass velocity, 1/(m s).
func (e End) Y() float64 { return e.Medium.SoundSpeed / e.Area }

// convective turns the classical state of this end into the convective (stagnation) one:
//
//	p_c = p + M Y v,  v_c = v + M p/Y
func (e End) convective() Matrix {
	y := e.Y()
	return Matrix{1, complex(e.Mach*y, 0), complex(e.Mach/y, 0), 1}
}

// Convective turns the classical state of this end into the convective (stagnation) one.
func (e End) Convective() Matrix { return e.convective() }

// Classical turns the convective state of this end into the classical one.
func (e End) Classical() Matrix { return e.convective().Inverse() }

// Check reports sizes and flows that no pipe has.
func (e End) Check() error {
	if err := e.Medium.Check(); err != nil {
		return err
	}
	if !(e.Area > 0) || math.IsInf(e.Area, 0) {
		return fmt.Errorf("cross-section of %g m2 must be positive", e.Area)
	}
	return checkMach(e.Mach)
}

func checkMach(mach float64) error {
	if !(math.Abs(mach) < 1) {
		return fmt.Errorf("mach number %.3g: the four-poles hold for subsonic flow only\nhint: check the flow, the temperature and the bore", mach)
	}
	return nil
}

func checkBore(bore float64) error {
	if !(bore > 0) {
		return fmt.Errorf("bore %g m must be positive", bore)
	}
	return nil
}

// CheckLengths reports lengths (m) that are negative or no number; what names their owner.
func CheckLengths(what string, lengths ...float64) error {
	for _, l := range lengths {
		if !(l >= 0) || math.IsInf(l, 0) {
			return fmt.Errorf("%s: a length of %g m can't be used", what, l)
		}
	}
	return nil
}
