package draws

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"

	"hushwake/source/cores"
	"hushwake/source/spectrum"
	"hushwake/source/vector"
)

// What is left out of a level in a draw: bands of routes that together bring less than faintShare of the energy at their
// place, and doubts that move the level there by less than faintMove. Both are taken at their most over some draws, the
// probes. Levels stay within 1e-4 dB in root mean square over the draws, their medians and bands within 3e-5 dB (TestFaintIsFaint).
const (
	probes     = 64
	faintShare = 1e-6
	faintMove  = 3e-7 // dB
)

// most is how far terms go at most in the probes, to either side.
type most struct {
	z, rows [][]float64 // all draws of each term, and the probes of those that were asked for
	at      []int       // the probes
	known   map[int]float64
}

// newMost is nil where the draws are so few that all is worked out.
func newMost(z [][]float64, n int) *most {
	if n < 20*probes {
		return nil
	}
	m := &most{z: z, rows: make([][]float64, len(z)), known: map[int]float64{}}
	for p := range probes {
		m.at = append(m.at, (2*p+1)*n/(2*probes))
	}
	return m
}

// gather takes the probes of some terms.
func (m *most) gather(keys []int) [][]float64 {
	if m == nil {
		return nil
	}
	for _, k := range keys {
		if m.rows[k] == nil {
			m.rows[k] = make([]float64, probes)
			for i, d := range m.at {
				m.rows[k][i] = m.z[k][d]
			}
		}
	}
	return m.rows
}

// of is that of a term or of a mix; where all is worked out it is infinite.
func (m *most) of(key int, p *plan) float64 {
	if m == nil {
		return math.Inf(1)
	}
	v, ok := m.known[key]
	if !ok {
		s, row := sum{[]int{key}, []float64{1}}, [probes]float64{}
		if key >= p.terms {
			s = p.mixes[key-p.terms]
		}
		s.write(row[:], m.gather(s.keys))
		v = floats.Norm(row[:], math.Inf(1))
		m.known[key] = v
	}
	return v
}

// shares are those of all routes to some levels.
func (m *most) shares(asked []Question) [][]spectrum.Bands {
	for _, q := range asked {
		for _, r := range q.At.Routes {
			m.gather(r.Keys)
		}
	}
	out := make([][]spectrum.Bands, len(asked))
	cores.Each(len(asked), func(i int) { out[i] = m.tells(asked[i].At, asked[i].Weight) })
	return out
}

// tells gives the share of each band of each route of a place.
func (m *most) tells(h *Listener, w spectrum.Bands) []spectrum.Bands {
	share := make([]spectrum.Bands, len(h.Routes))
	if m == nil {
		for i := range share {
			share[i] = ones
		}
		return share
	}
	energy, total := make([][spectrum.N][probes]float64, len(h.Routes)), [probes]float64{}
	for i, r := range h.Routes {
		z, level, doubts := m.gather(r.Keys), r.Bands.Plus(r.weight(w)), sum{r.Keys, make([]float64, len(r.Keys))}
		for b := range level {
			for k, sd := range r.SD {
				doubts.factors[k] = sd[b] * neper
			}
			e := energy[i][b][:]
			doubts.write(e, z)
			floats.AddConst(level[b]*neper, e)
			vector.Exp(e)
			floats.Add(total[:], e)
		}
	}
	for i := range energy {
		for b := range energy[i] {
			for p, e := range energy[i][b] {
				if total[p] > 0 {
					share[i][b] = max(share[i][b], e/total[p])
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

// weight is the weighting of a route; A is that of what sits in its bands.
func (r *Route) weight(w spectrum.Bands) spectrum.Bands {
	if w == spectrum.A {
		return r.AWeight
	}
	return w
}
