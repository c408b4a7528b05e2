package outdoor

import (
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// screenCited cites the shielding.
var screenCited = published.By("D_z = 10 lg(3 + (C2/lambda) C3 z K), ways beside by their share",
	"ISO 9613-2:1996, 7.4, eq. (14) to (18)", "read")

// GroundInside is C2 of the shielding formula where reflection from the ground is part of the result.
const GroundInside = 20.0

// Most that a screen is credited with, dB (ISO 9613-2:1996, 7.4, from memory).
const (
	singleEdgeCap = 20.0
	doubleEdgeCap = 25.0
)

// Screen is the way over one or two edges from source to receiver.
type Screen struct {
	Z     float64 // m, path over the edges less the straight path; negative: line of sight clear
	E     float64 // m, between the first and the last edge; 0 for one edge; the mean where edges count in part
	Edges int     // 0 = nothing in the way
	Dss   float64 // m, source to first edge
	Dsr   float64 // m, last edge to receiver
	D     float64 // m, straight path
	Over  string  // name of what is in the way
	spans []span  // what E is the mean of; none = E alone
}

// Loss is the shielding D_z by octave band at the nominal centres, dB:
//
//	D_z = 10 lg(3 + (C2/lambda) C3 z K),  lambda = 340/f
//	C3  = 1 for one edge, (1 + (5 lambda/e)^2)/(1/3 + (5 lambda/e)^2) for two
//
// D_z is zero where z is below -2 lambda/(C2 C3 K) and stops at singleEdgeCap or doubleEdgeCap; the cap goes from
// one to the other while C3 goes from 1 to 2, where the standard steps (judgement). K allows for downwind bending:
// exp(-(1/2000) sqrt(dss dsr d/(2 z))) beyond 100 m, else 1; it sets in between 100 and 200 m (judgement).
// Source: ISO 9613-2:1996, 7.4.
func (s Screen) Loss(c2 float64) (b spectrum.Bands) {
	for i, passed := range s.passed(c2) {
		if passed < 1 {
			b[i] = -10 * math.Log10(passed)
		}
	}
	return b
}

// passed is the share of energy that comes this way, 1/(3 + ...), 1 where nothing shields.
func (s *Screen) passed(c2 float64) spectrum.Bands {
	b := spectrum.Fill(1)
	if s.Edges == 0 {
		return b
	}
	k := s.bending()
	for i, lambda := range waves {
		c3 := 1.0
		if s.Edges > 1 {
			c3 = s.doubled(lambda)
		}
		if x := s.Z * c2 / lambda * c3 * k; x >= -2 {
			if b[i] = 1 / (3 + x); b[i] < 1.01*leastPassed[0] { // no cap lies over that
				b[i] = math.Max(least(c3), b[i])
			}
		}
	}
	return b
}

// waves are the wavelengths of the octave centres, m.
var waves = func() (b spectrum.Bands) {
	for i, f := range spectrum.Nominal {
		b[i] = 340 / f
	}
	return b
}()

// leastPassed is what passes at the caps of one and of two edges.
var leastPassed = [2]float64{math.Pow(10, -singleEdgeCap/10), math.Pow(10, -doubleEdgeCap/10)}

// least is what passes at the cap.
func least(c3 float64) float64 {
	switch {
	case c3 == 1:
		return leastPassed[0]
	case c3 >= 2:
		return leastPassed[1]
	}
	return math.Pow(10, -(singleEdgeCap+(doubleEdgeCap-singleEdgeCap)*(c3-1))/10)
}

// doubled is C3, the mean over the spans: it goes evenly from 1 to that of two edges while the second comes into the way.
func (s *Screen) doubled(lambda float64) (c3 float64) {
	if len(s.spans) == 0 {
		return doubleEdge(lambda, s.E)
	}
	for _, w := range s.spans {
		c3 += w.share * doubleEdge(lambda, w.e)
	}
	return c3
}

func doubleEdge(lambda, e float64) float64 {
	if e <= 0 {
		return 1
	}
	q := 25 * lambda * lambda / (e * e)
	return (1 + q) / (1.0/3 + q)
}

func (s *Screen) bending() float64 {
	if s.Z <= 0 || s.D <= 100 {
		return 1
	}
	return math.Exp(-math.Min(1, (s.D-100)/100) * math.Sqrt(s.Dss*s.Dsr*s.D/(2*s.Z)) / 2000)
}
