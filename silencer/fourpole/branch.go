package fourpole

import (
	"errors"
	"fmt"
	"math"
	"math/cmplx"
)

// lossCap is the greatest loss in dB that a side branch is given at its own resonance.
const lossCap = 100.0

// limitShunt limits a shunt admittance b on a pipe of impedance y so that its loss stays under lossCap.
func limitShunt(b complex128, y float64) (complex128, bool) {
	const most1 = 2 * (1e5 - 2) // 10^(lossCap/20) = 1e5; never a hair above
	most := most1 / y
	if a2 := real(b)*real(b) + imag(b)*imag(b); a2 < 0.99*most*most {
		return b, false
	}
	a := cmplx.Abs(b)
	switch {
	case math.IsNaN(a) || math.IsInf(a, 0):
		return complex(most, 0), true
	case a > most:
		return b * complex(most/a, 0), true
	}
	return b, false
}

func shunt(b complex128) Matrix { return Matrix{1, 0, b, 1} }

// QuarterWave is a closed side tube, Z = R - j Yb cot(k l); it is blind to the mean flow of the pipe.
type QuarterWave struct {
	tube       Duct
	host       float64 // Y of the pipe it stands on
	resistance float64 // p/v, 1/(m s)
}

// NewQuarterWave prepares a closed side tube on a pipe. Length is the acoustic length in m: the geometric one plus
// SideTubeEnd of its mouth where corrections are wanted. Resistance is in units of the tube's own Y.
func NewQuarterWave(host End, bore, length, resistance float64, loss Loss) (QuarterWave, error) {
	if err := host.Check(); err != nil {
		return QuarterWave{}, fmt.Errorf("side branch: %w", err)
	}
	if !(length > 0) || !(resistance >= 0) {
		return QuarterWave{}, fmt.Errorf("side branch: length %g m must be positive and resistance %g not negative", length, resistance)
	}
	t, err := NewDuct(host.Medium, bore, length, 0, loss)
	if err != nil {
		return QuarterWave{}, fmt.Errorf("side branch: %w", err)
	}
	return QuarterWave{t, host.Y(), resistance * t.y}, nil
}

// admittance is v/p at the mouth: j sin/(Y cos + j R sin) of the closed tube.
func (q *QuarterWave) admittance(omega, root float64) (complex128, bool) {
	co, si, _, _ := q.tube.trig(omega, root)
	return q.of(co, si)
}

func (q *QuarterWave) of(co, si complex128) (complex128, bool) {
	x, y, r := q.tube.y, -imag(si), q.resistance
	den := complex(x*real(co)+r*y, x*imag(co)+r*real(si))
	return limitShunt(complex(y, real(si))*Inverse(den), q.host)
}

// At is the shunt matrix.
func (q QuarterWave) At(omega float64) Matrix {
	b, _ := q.admittance(omega, math.Sqrt(omega))
	return shunt(b)
}

// CappedAt says whether the loss was limited to lossCap.
func (q QuarterWave) CappedAt(omega float64) bool {
	_, capped := q.admittance(omega, math.Sqrt(omega))
	return capped
}

// Helmholtz is a volume behind a neck, Z = R + jw l_e/S_n - j c^2/(w V) for mass velocity.
type Helmholtz struct {
	inertance, stiffness, resistance, host float64
}

// NewHelmholtz prepares a resonator on a pipe: neck area m2, effective neck length m, volume m3; resistance in
// units of the characteristic impedance of the neck.
func NewHelmholtz(host End, neckArea, neckLength, volume, resistance float64) (Helmholtz, error) {
	if err := host.Check(); err != nil {
		return Helmholtz{}, fmt.Errorf("resonator: %w", err)
	}
	if !(neckArea > 0) || !(neckLength > 0) || !(volume > 0) || !(resistance >= 0) {
		return Helmholtz{}, errors.New("resonator: neck area, effective neck length and volume must be positive")
	}
	c := host.Medium.SoundSpeed
	return Helmholtz{neckLength / neckArea, c * c / volume, resistance * c / neckArea, host.Y()}, nil
}

func (h *Helmholtz) admittance(omega float64) (complex128, bool) {
	return limitShunt(Inverse(complex(h.resistance, omega*h.inertance-h.stiffness/omega)), h.host)
}

// At is the shunt matrix.
func (h Helmholtz) At(omega float64) Matrix {
	b, _ := h.admittance(omega)
	return shunt(b)
}

// CappedAt says whether the loss was limited to lossCap.
func (h Helmholtz) CappedAt(omega float64) bool {
	_, capped := h.admittance(omega)
	return capped
}

// SideTubeEnd is the length (m) that the mouth of a round closed tube adds where it stands on the side of a round
// pipe: with x = bore/pipe bore, over the radius of the tube,
//
//	0.8216 - 0.0644 x - 0.694 x^2 (x <= 0.4),  0.9326 - 0.6196 x (above)
//
// (a fit in J. Sound Vib. 2005, from memory; 0.8216 is a mouth in a plane). Made for x up to 1 and without flow:
// resonances within 0.2 % of three-dimensional finite elements.
func SideTubeEnd(bore, pipe float64) float64 {
	x := bore / pipe
	if x <= 0.4 {
		return bore / 2 * (0.8216 - 0.0644*x - 0.694*x*x)
	}
	return bore / 2 * math.Max(0, 0.9326-0.6196*x)
}

// NeckEnd is the length (m) that the mouth of a neck adds where it opens in the middle of a round volume's end: 0.85 a
// (1 - 1.25 x), a the neck's radius and x = neck/vessel bore up to 0.4 (Ingard 1953, from memory). Both are bores in m.
func NeckEnd(neck, vessel float64) float64 {
	return 0.85 * neck / 2 * math.Max(0, 1-1.25*neck/vessel)
}
