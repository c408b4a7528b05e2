package draws

import (
	"cmp"
	"encoding/binary"
	"hash/fnv"
	"math"
	"slices"

	"hushwake/source/spectrum"
)

// character is what tells a term from others without its name: its kind and largest deviation, and how much it
// moves in all, dB over the listeners, pascals over the exhausts and kelvin over the boxes. Twins that move as much are told apart by
// the company they keep: how much all terms of their routes move.
type character struct {
	kind            uint64
	weight, company float64
}

// streams gives every term the seed of its draws. It hangs on what the term is and does, never on the
// names or the order in the file; terms alike take their turn by how much they move.
func (m *Model) streams() []uint64 {
	all, order := m.characters(), make([]int, len(m.Terms))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(all[a].kind, all[b].kind), cmp.Compare(all[b].weight, all[a].weight), cmp.Compare(all[b].company, all[a].company))
	})
	seeds, turn := make([]uint64, len(order)), uint64(0)
	for i, k := range order {
		if turn++; i == 0 || all[order[i-1]].kind != all[k].kind {
			turn = 0
		}
		seeds[k] = hashed(all[k].kind, turn)
	}
	return seeds
}

func hashed(v ...uint64) uint64 {
	h := fnv.New64a()
	for _, x := range v {
		h.Write(binary.LittleEndian.AppendUint64(nil, x))
	}
	return h.Sum64()
}

func (m *Model) characters() []character {
	largest, relative := make([]spectrum.Bands, len(m.Terms)), make([]float64, len(m.Terms))
	all := make([]character, len(m.Terms))
	for _, l := range m.Layouts {
		for _, h := range l.Listeners {
			for k, g := range h.Gradient(nil, spectrum.A, len(m.Terms)) {
				all[k].weight += math.Abs(g)
			}
			for _, r := range h.Routes {
				for i, k := range r.Keys {
					for b, v := range r.SD[i] {
						largest[k][b] = math.Max(largest[k][b], math.Abs(v))
					}
				}
			}
		}
		for _, p := range l.Exhausts {
			for i, k := range p.Keys {
				relative[k] = math.Max(relative[k], p.SD[i])
				all[k].weight += p.SD[i] * p.rated
			}
		}
	}
	for _, l := range m.Layouts {
		for _, b := range l.Boxes {
			for i, k := range b.Keys {
				relative[k] = math.Max(relative[k], b.SD[i])
				all[k].weight += b.SD[i] * b.Rise
			}
		}
	}
	for k := range all {
		all[k].weight = math.Round(all[k].weight*1e9) / 1e9
	}
	m.keepCompany(all)
	for k, t := range m.Terms {
		h := fnv.New64a()
		h.Write([]byte(t.Name))
		words := []uint64{h.Sum64(), micro(relative[k])}
		for _, v := range largest[k] {
			words = append(words, micro(v))
		}
		all[k].kind = hashed(words...)
	}
	return all
}

func (m *Model) keepCompany(all []character) {
	for _, l := range m.Layouts {
		for _, h := range l.Listeners {
			for _, r := range h.Routes {
				sum := 0.0
				for _, k := range r.Keys {
					sum += all[k].weight
				}
				for _, k := range r.Keys {
					all[k].company += sum
				}
			}
		}
	}
	for k := range all {
		all[k].company = math.Round(all[k].company*1e6) / 1e6
	}
}

// micro rounds to millionths, so that the order in which sums were made leaves no trace.
func micro(v float64) uint64 { return uint64(math.Round(v * 1e6)) }
