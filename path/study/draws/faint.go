package draws

import (
	"math"
	"slices"

	"hushwake/source/spectrum"
)

// What is left out of a level in a draw: bands of routes that together bring less than faintShare of the energy at their
// place, and doubts that move the level there by less than faintMove. Both are taken at their most over some draws, the
// probes. Levels stay within 1e-4 dB in root mean square over the draws, their medians and bands within 3e-5 dB (TestFaintIsFaint).
const (
	probes     = 64
	faintShare = 1e-6
	faintMove  = 3e-7 // dB
)

// telling says what of a route tells in the level at its place.
type telling struct {
	share spectrum.Bands // in the energy at the place, the most over the probes; 0 = left out
	most  *most
}

// moves tells whether a doubt moves the level by a band of the route.
func (t telling) moves(d doubt, band int) bool {
	return t.share[band]*d.sd[band] != 0 && (t.most == nil || t.share[band]*math.Abs(d.sd[band])*t.most.of(d.key) > faintMove)
}

// most is how far terms go at most in the probes, to either side.
type most struct {
	z     [][]float64
	at    []int // the probes
	known map[int]float64
}

// newMost is nil where the draws are so few that all is worked out.
func newMost(z [][]float64, n int) *most {
	if n < 20*probes {
		return nil
	}
	m := &most{z: z, known: map[int]float64{}}
	for p := range probes {
		m.at = append(m.at, (2*p+1)*n/(2*probes))
	}
	return m
}

func (m *most) of(key int) float64 {
	v, ok := m.known[key]
	if !ok {
		for _, d := range m.at {
			v = math.Max(v, math.Abs(m.z[key][d]))
		}
		m.known[key] = v
	}
	return v
}

// tells gives the share of each band of each route of a place.
func (m *most) tells(h *Listener, w spectrum.Bands) []spectrum.Bands {
	share := make([]spectrum.Bands, len(h.Routes))
	if m == nil {
		for i := range share {
			share[i] = spectrum.Fill(1)
		}
		return share
	}
	energy := make([]spectrum.Bands, len(h.Routes))
	for _, d := range m.at {
		sum := 0.0
		for i, r := range h.Routes {
			energy[i] = r.drawn(m.z, d).Plus(r.weight(w))
			for b, v := range energy[i] {
				energy[i][b] = spectrum.Power(v)
				sum += energy[i][b]
			}
		}
		if sum > 0 {
			for i := range energy {
				for b, e := range energy[i] {
					share[i][b] = math.Max(share[i][b], e/sum)
				}
			}
		}
	}
	leaveOut(share)
	return share
}

// leaveOut takes the least shares to 0.
func leaveOut(share []spectrum.Bands) {
	var all []float64
	for i := range share {
		all = append(all, share[i][:]...)
	}
	slices.Sort(all)
	sum, least := 0.0, 0.0
	for _, v := range all {
		if sum += v; sum > faintShare {
			break
		}
		least = v
	}
	for i := range share {
		for b, v := range share[i] {
			if v <= least {
				share[i][b] = 0
			}
		}
	}
}

// drawn are the bands of a route in a draw.
func (r *Route) drawn(z [][]float64, d int) spectrum.Bands {
	out := r.Bands
	for i, k := range r.Keys {
		x, sd := z[k][d], &r.SD[i]
		for b := range out {
			out[b] += sd[b] * x
		}
	}
	return out
}

// weight is the weighting of a route; A is that of what sits in its bands.
func (r *Route) weight(w spectrum.Bands) spectrum.Bands {
	if w == spectrum.A {
		return r.AWeight
	}
	return w
}
