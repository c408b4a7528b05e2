package spectrum

import "math"

// A holds the A-weighting in dB at the octave bands (IEC 61672-1:2013 table 3).
var A = Bands{-39.4, -26.2, -16.1, -8.6, -3.2, 0, 1.2, 1.0, -1.1}

// C holds the C-weighting in dB at the octave bands (IEC 61672-1:2013 table 3).
var C = Bands{-3.0, -0.8, -0.2, 0, 0, 0, -0.2, -0.8, -3.0}

// DBA is the A-weighted level of the bands, in dB(A).
func (b Bands) DBA() float64 { return b.Plus(A).Total() }

// DBC is the C-weighted level of the bands, in dB(C).
func (b Bands) DBC() float64 { return b.Plus(C).Total() }

// Squared pole frequencies of the weighting curves, Hz2 (IEC 61672-1:2013 annex E, rounded as there).
const (
	pole1 = 20.6 * 20.6
	pole2 = 107.7 * 107.7
	pole3 = 737.9 * 737.9
	pole4 = 12194.0 * 12194.0
)

// AAt is the A-weighting at a frequency f > 0 in Hz, in dB:
//
//	A(f) = 20 lg( 12194^2 f^4 / [(f^2+20.6^2) sqrt((f^2+107.7^2)(f^2+737.9^2)) (f^2+12194^2)] ) + 2.00
//
// Source: IEC 61672-1:2013 annex E. Zero frequency gives Silent.
func AAt(f float64) float64 {
	if !(f > 0) {
		return Silent
	}
	q := f * f
	r := pole4 / (q + pole4) * q / (q + pole1) * q / math.Sqrt((q+pole2)*(q+pole3))
	return math.Max(20*math.Log10(r)+2.00, Silent)
}

// CAt is the C-weighting at a frequency f > 0 in Hz, in dB:
//
//	C(f) = 20 lg( 12194^2 f^2 / [(f^2+20.6^2) (f^2+12194^2)] ) + 0.06
//
// Source: IEC 61672-1:2013 annex E. Zero frequency gives Silent.
func CAt(f float64) float64 {
	if !(f > 0) {
		return Silent
	}
	q := f * f
	return math.Max(20*math.Log10(pole4/(q+pole4)*q/(q+pole1))+0.06, Silent)
}
