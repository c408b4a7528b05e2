package fourpole

import "math"

// EndLoss is the power (dB) that the end holds back of what arrives, 10 lg of incident over passed power,
// -10 lg(1 - |R|^2 ((1-M)/(1+M))^2).
func (o Outlet) EndLoss(omega float64) float64 {
	r, _ := o.Reflection(omega)
	f := (1 - o.end.Mach) / (1 + o.end.Mach)
	m2 := (real(r)*real(r) + imag(r)*imag(r)) * f * f
	if o.end.Mach == 0 {
		lost, den, _ := endFit(omega/o.end.Medium.SoundSpeed*o.radius, o.flanged)
		l := math.Min(1, lost/den)
		return -10 * math.Log10(l*(2-l))
	}
	return -10 * math.Log10(1-m2)
}

// Resonance is (c/2pi) sqrt(S_n/(l_e V)), Hz.
func (h Helmholtz) Resonance() float64 { return math.Sqrt(h.stiffness/h.inertance) / (2 * math.Pi) }
