package panel

import (
	"math"

	"hushwake/source/published"
)

// doubleCited cites the double-leaf model.
var doubleCited = published.By("f < f0: all as one leaf; f0 to 55/d: R1 + R2 + 20 lg(f d) - 29; above: R1 + R2 + 6; at most mass law + 15; an empty gap holds it to 10 lg(u M f^2/(rho c f0)), u by masses and edges",
	"Sharp, Noise Control Engineering 11 (1978), from memory; resonance by the university reader on building acoustics (2020), eq. 3.38 to 3.41; what an empty gap lets through is derived from the plane-wave transfer matrix with absorbing edges (Davy, from memory); dip and 15 dB rules are common practice", "from memory")

// Limits and losses of a gap.
const (
	gainLimit = 15.0  // dB over the mass law of the whole (common practice, no source)
	dipDepth  = 5.0   // dB at the resonance of a filled gap (common practice, no source)
	edges     = 0.1   // absorption of the edges of an empty gap (Davy, from memory), round a panel of
	rim       = 4.0   // 1/m, edge over area (judgement: a square metre)
	grazing   = 4.8   // 1/cos 78 degrees: beyond this times f0 a finite panel holds the resonance back
	alike     = 0.5   // octaves between critical frequencies from which two leaves no longer coincide together (judgement)
	airDrag   = 413.0 // Pa s/m, rho c
	airSpeed  = 343.0 // m/s
)

// resonance is the mass-spring-mass frequency in Hz of two leaves (kg/m2) on an air gap d (m):
//
//	f0 = (1/2 pi) sqrt(rho c^2/d (1/m1 + 1/m2)) = 60 sqrt((m1 + m2)/(m1 m2 d))
func resonance(m1, m2, d float64) float64 {
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
	fill           []piece
}

func (s stack) cavities() (out []cavity) {
	for i, l := range s.leaves {
		if i == len(s.leaves)-1 || l.Gap <= 0 {
			continue
		}
		c := cavity{before: s.leaves[:i+1], behind: s.leaves[i+1:], d: l.Gap, filled: l.Filled, fill: l.fill}
		c.m1, c.m2 = weight(c.before), weight(c.behind)
		c.f0 = resonance(c.m1, c.m2, c.d)
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

// group is the loss of leaves that move as one: that of the leaf which coincides, raised by the mass of the others.
func group(leaves []Leaf, f float64) float64 {
	least, all := math.Inf(1), weight(leaves)
	for _, l := range leaves {
		if l.Mass > 0 {
			least = math.Min(least, l.loss(f)+20*math.Log10(all/l.Mass))
		}
	}
	return least
}

// loss of the whole at f Hz by way of this gap; one is its loss as one leaf.
func (c cavity) loss(f, one float64) float64 {
	one += c.kept(f) * covered(c.fill, f)
	if c.f0 <= 0 {
		return one
	}
	r := one
	if f > c.f0 {
		gap := math.Min(6, 20*math.Log10(f*c.d)-29)
		sum := group(c.before, f) + group(c.behind, f) + gap
		r = math.Max(one, math.Min(sum, massLaw(c.m1+c.m2, f)+gainLimit))
	}
	if c.filled {
		return r - c.dip(f)
	}
	return -10 * math.Log10(math.Pow(10, -r/10)+c.resonant(f)+c.coincident(f, one))
}

// kept is the share of what the filling brings on one panel alone that is left behind a second leaf: all of it behind
// a foil and above the resonance, none where two heavy leaves press it together.
func (c cavity) kept(f float64) float64 {
	x := 2 * math.Pi * f * math.Min(c.m1, c.m2) / airDrag
	if c.f0 <= 0 {
		return 1
	}
	return math.Max(1/(1+x*x), above(f, c.f0))
}

// dip is the loss near the resonance of a filled gap, dB: half gone a third of an octave away, and less deep where
// the air brakes a light leaf, from w0 m1 m2/(m1 + m2) < 5 rho c (judgement, after the transfer matrix).
func (c cavity) dip(f float64) float64 {
	x := math.Log2(f/c.f0) / 0.4
	braked := math.Min(1, 2*math.Pi*c.f0*c.m1*c.m2/(c.m1+c.m2)/(5*airDrag))
	return braked * dipDepth * math.Exp(-x*x/2)
}

// resonant is the share of power through an empty gap at the angle whose resonance f0/cos is f:
//
//	t = rho c f0/(u M f^2), M = m1 + m2
//	u = (m1^2 + m2^2)/(2 m1 m2) + c a U M f/(4 pi rho c f0 S)
//
// for the part of the octave above f0: the integral of the transfer matrix over its resonance, for limp leaves,
// small k d and a gap whose edges U absorb a. Beyond 78 degrees it fades as (4.8 f0/f)^2 (judgement).
func (c cavity) resonant(f float64) float64 {
	m, g := c.m1+c.m2, math.Max(f, c.f0)
	u := (c.m1*c.m1+c.m2*c.m2)/(2*c.m1*c.m2) + airSpeed*edges*rim*m*g/(4*math.Pi*airDrag*c.f0)
	fade := math.Min(1, math.Pow(grazing*c.f0/g, 2))
	return above(f, c.f0) * fade * airDrag * c.f0 / (u * m * g * g)
}

// coincident is the share of power through an empty gap between leaves of like critical frequency, for the part
// of the octave above it: no more is lost than by one leaf of their mass.
func (c cavity) coincident(f, one float64) float64 {
	f1, f2 := critical(c.before), critical(c.behind)
	if f1 <= 0 || f2 <= 0 || f <= c.f0 {
		return 0
	}
	return math.Max(0, 1-math.Abs(math.Log2(f1/f2))/alike) * above(f, math.Max(f1, f2)) * math.Pow(10, -one/10)
}

// above is the part of the octave round f that lies above an edge.
func above(f, edge float64) float64 { return math.Max(0, math.Min(1, 0.5+math.Log2(f/edge))) }

// critical is the critical frequency of the heaviest stiff leaf, Hz; 0 = all are limp.
func critical(leaves []Leaf) (fc float64) {
	most := 0.0
	for _, l := range leaves {
		if l.Critical > 0 && l.Mass > most {
			most, fc = l.Mass, l.Critical
		}
	}
	return fc
}

// loss is the transmission loss of the stack at f Hz, below zero where it is too light to bring anything. Of several
// gaps the one that brings most counts.
func (s stack) loss(f float64, cavities []cavity) float64 {
	if weight(s.leaves) <= 0 {
		return 0
	}
	one := group(s.leaves, f)
	best := one
	for i, c := range cavities {
		if r := c.loss(f, one); i == 0 || r > best {
			best = r
		}
	}
	return best
}
