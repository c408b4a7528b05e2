package panel

import "math"

// Sources of the double-leaf model.
const (
	DoubleSource  = "Sharp, Noise Control Engineering 11 (1978), from memory; resonance by the university reader on building acoustics (2020), eq. 3.38 to 3.41; dip, empty-cavity and 15 dB rules are common practice"
	DoubleFormula = "f < f0: mass law of all; f0 to 55/d: R1 + R2 + 20 lg(f d) - 29; above: R1 + R2 + 6; at most mass law + 15"
)

// Limits of the double-leaf gain over a single leaf of the same mass, dB (common practice, no source).
const (
	gainLimit  = 15.0
	emptyShare = 0.5 // an empty cavity keeps this share of the gain
	dipDepth   = 5.0 // at the resonance
)

// Resonance is the mass-spring-mass frequency in Hz of two leaves (kg/m2) on an air gap d (m):
//
//	f0 = (1/2 pi) sqrt(rho c^2/d (1/m1 + 1/m2)) = 60 sqrt((m1 + m2)/(m1 m2 d))
func Resonance(m1, m2, d float64) float64 {
	if m1 <= 0 || m2 <= 0 || d <= 0 {
		return 0
	}
	return 60 * math.Sqrt((m1+m2)/(m1*m2*d))
}

// cavity is one gap with all that stands before and behind it.
type cavity struct {
	before, behind []Leaf
	m1, m2, d, f0  float64
	filled         bool
}

func (s stack) cavities() (out []cavity) {
	for i, l := range s.leaves {
		if i == len(s.leaves)-1 || l.Gap <= 0 {
			continue
		}
		c := cavity{before: s.leaves[:i+1], behind: s.leaves[i+1:], d: l.Gap, filled: l.Filled}
		c.m1, c.m2 = weight(c.before), weight(c.behind)
		c.f0 = Resonance(c.m1, c.m2, c.d)
		out = append(out, c)
	}
	return out
}

func weight(leaves []Leaf) (m float64) {
	for _, l := range leaves {
		m += l.Mass
	}
	return m
}

// group is the loss of leaves taken as one: that of the heaviest, raised by the mass of the others.
func group(leaves []Leaf, f float64) float64 {
	best := leaves[0]
	for _, l := range leaves {
		if l.Mass > best.Mass {
			best = l
		}
	}
	if best.Mass <= 0 {
		return 0
	}
	return best.loss(f) + 20*math.Log10(weight(leaves)/best.Mass)
}

// gain is what the gap brings over the mass law of the whole at f Hz, without the resonance's dip.
func (c cavity) gain(f float64) float64 {
	if c.f0 <= 0 || f <= c.f0 {
		return 0
	}
	r := group(c.before, f) + group(c.behind, f)
	if f < 55/c.d {
		r += 20*math.Log10(f*c.d) - 29
	} else {
		r += 6
	}
	g := math.Max(0, math.Min(gainLimit, r-MassLaw(c.m1+c.m2, f))) // the loss near f0 is the dip's alone
	if !c.filled {
		g *= emptyShare
	}
	return g
}

// dip is the loss near the resonance, dB: half gone a third of an octave away.
func (c cavity) dip(f float64) float64 {
	if c.f0 <= 0 {
		return 0
	}
	x := math.Log2(f/c.f0) / 0.4
	return dipDepth * math.Exp(-x*x/2)
}

// loss is the transmission loss of the stack at f Hz. Of several gaps the one that brings most
// counts; each weakens its own resonance.
func (s stack) loss(f float64, cavities []cavity) float64 {
	if len(s.leaves) == 0 {
		return 0
	}
	if len(cavities) == 0 {
		return group(s.leaves, f)
	}
	best, dip := math.Inf(-1), 0.0
	for _, c := range cavities {
		best, dip = math.Max(best, c.gain(f)), math.Max(dip, c.dip(f))
	}
	return math.Max(0, MassLaw(weight(s.leaves), f)+best-dip)
}
