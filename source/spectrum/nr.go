package spectrum

// Coefficients of the noise rating curves, L = a + b NR (AS 1469:1983; the same as ISO/R 1996:1971).
var (
	nrA = Bands{55.4, 35.5, 22.0, 12.0, 4.8, 0, -3.5, -6.1, -8.0}
	nrB = Bands{0.681, 0.790, 0.870, 0.930, 0.974, 1.000, 1.015, 1.025, 1.030}
)

// NRCurve gives the octave levels in dB of a noise rating curve, L = a + b NR. The curves are
// drawn for NR 0 to 130.
func NRCurve(nr float64) (b Bands) {
	for i := range b {
		b[i] = nrA[i] + nrB[i]*nr
	}
	return b
}

// NR is the noise rating of a spectrum, the highest curve that a band touches, and the index of the
// band that governs. It is not rounded. Outside 0 to 130 the rating has no meaning beyond order.
// Source: AS 1469:1983.
func NR(b Bands) (rating float64, governing int) {
	for i := range b {
		if r := (b[i] - nrA[i]) / nrB[i]; i == 0 || r > rating {
			rating, governing = r, i
		}
	}
	return rating, governing
}

// NRValid tells whether a rating lies on the drawn curves.
func NRValid(rating float64) bool { return rating >= 0 && rating <= 130 }
