package fourpole

import (
	"math"
	"math/cmplx"
)

// TwoPort is a line at one frequency between the cross-sections at its ends.
type TwoPort struct {
	Matrix
	Up, Down End
}

// Between gives a matrix the ends that it lies between.
func (m Matrix) Between(up, down End) TwoPort { return TwoPort{m, up, down} }

// TransmissionLoss is incident over transmitted power with an anechoic end downstream, dB,
//
//	TL = 20 lg(|T11 + T12/Yd + Yu T21 + (Yu/Yd) T22|/2) + 10 lg(Yd/Yu)
//	   + 20 lg((1+Mu)/(1+Md)) + 10 lg(rho_d/rho_u)
//
// from W = |p+|^2 (1+M)^2/(2 rho Y) (derived; Munjal 1987 eq. 3.27 from memory). Two printed forms are wrong and
// agree with this one only for equal end pipes: Bies, Hansen & Howard 5th ed. eq. 8.141 has the weights of T11 and
// T22 exchanged, and a form in circulation has 1+M^2 for 1+M.
func (t TwoPort) TransmissionLoss() float64 {
	up, down := &t.Up, &t.Down
	yu, yd := up.Y(), down.Y()
	a, b, c := 1/yd, yu, yu/yd
	re := real(t.T11) + a*real(t.T12) + b*real(t.T21) + c*real(t.T22)
	im := imag(t.T11) + a*imag(t.T12) + b*imag(t.T21) + c*imag(t.T22)
	ends := math.Sqrt(yd/yu*down.Medium.Density/up.Medium.Density) * (1 + up.Mach) / (1 + down.Mach)
	return 20 * math.Log10(math.Hypot(re, im)/2*ends)
}

// Termination is the load at the downstream end of a line.
type Termination struct {
	Impedance complex128 // p/v, 1/(m s)
	End       End        // gas, area and flow there
	Radiates  float64    // power sent far off per squared mass velocity, times two; 0 = all that passes the end
}

// power is what passes the end per squared mass velocity, times two:
// [(1+M^2) Re Z + M (|Z|^2/Y + Y)]/rho, from W = Re[(p + M Y v)(v + M p/Y)*]/(2 rho) (derived).
func (l Termination) power() float64 {
	if l.Radiates > 0 {
		return l.Radiates
	}
	m, y := l.End.Mach, l.End.Y()
	z2 := real(l.Impedance)*real(l.Impedance) + imag(l.Impedance)*imag(l.Impedance)
	return ((1+m*m)*real(l.Impedance) + m*(z2/y+y)) / l.End.Medium.Density
}

// Loaded is a two-port with the load at its downstream end.
type Loaded struct {
	TwoPort
	Load Termination
}

// Into puts a load on the downstream end.
func (t TwoPort) Into(load Termination) Loaded { return Loaded{t, load} }

// InsertionLoss is the power radiated by the reference line over that radiated by the line, dB,
//
//	IL = 20 lg|(T11 Zr + T12 + Zs(T21 Zr + T22)) / (T'11 Zr' + T'12 + Zs(T'21 Zr' + T'22))|
//	   + 10 lg(W'/W)
//
// Zs is the source impedance p/v, W and W' the power each load takes per squared mass velocity: Re(Zr)/(2 rho)
// without flow (Munjal 1987 ch. 2, from memory; the last term derived).
func (l Loaded) InsertionLoss(ref Loaded, source complex128) float64 {
	a := ref.Against(source, ref.Powers(l.Load))
	return a.InsertionLoss(&l)
}

// driven is source pressure over the mass velocity at the load.
func (l Loaded) driven(source complex128) complex128 {
	z := l.Load.Impedance
	return l.T11*z + l.T12 + source*(l.T21*z+l.T22)
}

// NoiseReduction is the level difference of the two ends, dB: 20 lg|T11 + T12/Z|.
func (l Loaded) NoiseReduction() float64 {
	return 20 * math.Log10(cmplx.Abs(l.T11+l.T12/l.Load.Impedance))
}

// Source names a model of the source impedance.
type Source int

// Source impedances in units of the characteristic impedance Z0 of the pipe at the source.
const (
	MatchedSource  Source = iota // Z0
	ReactiveSource               // 0.707 (1-j) Z0
	StiffSource                  // 5 Z0
)

// Impedance is p/v of the source seen by the given end. The three bracket what measured engines show
// (Prasad & Crocker 1983 give 0.707(1-j); the others are common practice, no source).
func (s Source) Impedance(e End) complex128 {
	y := complex(e.Y(), 0)
	switch s {
	case ReactiveSource:
		return 0.707 * (1 - 1i) * y
	case StiffSource:
		return 5 * y
	}
	return y
}
