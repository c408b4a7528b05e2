package draws

import (
	"encoding/binary"
	"math"
	"slices"

	"hushwake/source/spectrum"
)

// plan is how several levels are worked out in each draw, what they have in common once: mixes of terms that go together,
// columns, the exponentials of sums of doubts, and what the levels take of them.
type plan struct {
	terms   int   // in the draws
	mixes   []sum // of terms, numbered on from them
	columns []sum // of terms and mixes
	takes   []take
	most    *most
	entered [][]bundle     // what was entered in turn, kept where all is worked out
	known   map[string]int // mixes and columns by what they hold
	key     []byte
	scratch sum
	store   sum
}

// take is energy that goes to a level: a column times the sum of others with their weights.
type take struct {
	listener, common int
	rest             sum
}

// sum is a sum of terms, mixes or columns with factors.
type sum struct {
	keys    []int
	factors []float64
}

func (s *sum) put(key int, factor float64) {
	s.keys, s.factors = append(s.keys, key), append(s.factors, factor)
}

func (s *sum) reset() { s.keys, s.factors = s.keys[:0], s.factors[:0] }

const neper = math.Ln10 / 10

// nothing is a band's level in nepers under which no doubt lifts it to be heard: that of a band weighed out.
const nothing = 1.5 * spectrum.Silent * neper

// newPlan is for n draws.
func newPlan(z [][]float64, n int) *plan {
	return &plan{terms: len(z), known: map[string]int{}, most: newMost(z, n)}
}

// enter enters what some levels take of their bundles; they are numbered from first.
func (p *plan) enter(asked []Question, all []bundle, first int) {
	p.number(all, p.most.shares(asked))
	if p.most == nil {
		p.entered = append(p.entered, all)
	}
	for _, b := range all {
		for band := range b.common {
			p.takes = append(p.takes, b.takes(band, first)...)
		}
	}
}

// takes are those of a band; routes of one column to one level are one.
func (b *bundle) takes(band, first int) (all []take) {
	for _, r := range b.routes {
		if r.energy[band] == 0 {
			continue
		}
		if n := len(all); n == 0 || all[n-1].listener != first+r.listener {
			all = append(all, take{listener: first + r.listener, common: b.common[band]})
		}
		s := &all[len(all)-1].rest
		if i := slices.Index(s.keys, r.rest[band]); i >= 0 {
			s.factors[i] += r.energy[band]
		} else {
			s.put(r.rest[band], r.energy[band])
		}
	}
	return all
}

// columnsOf numbers the exponentials of what of some doubts tells in each band. Of what moves all bands alike nothing is left
// out where even is set.
func (p *plan) columnsOf(doubts []doubt, share spectrum.Bands, even bool) (at [spectrum.N]int) {
	most := make([]float64, len(doubts))
	for i, d := range doubts {
		if most[i] = p.most.of(d.key, p); even && near(d.sd, d.sd[0], &ones) {
			most[i] = math.Inf(1)
		}
	}
	for b := range at {
		p.scratch.reset()
		for i, d := range doubts {
			if v := d.sd[b]; v*share[b] != 0 && share[b]*math.Abs(v)*most[i] > faintMove {
				p.scratch.put(d.key, rounded(v*neper))
			}
		}
		at[b] = p.numbered('c', &p.columns)
	}
	return at
}

var ones = spectrum.Fill(1)

// numbered finds the sum that was written to scratch among those of a kind, or adds it.
func (p *plan) numbered(kind byte, all *[]sum) int {
	s := &p.scratch
	p.key = append(p.key[:0], kind)
	for i, k := range s.keys {
		p.key = binary.LittleEndian.AppendUint32(p.key, uint32(k))
		p.key = binary.LittleEndian.AppendUint64(p.key, math.Float64bits(s.factors[i]))
	}
	i, ok := p.known[string(p.key)]
	if !ok {
		i = len(*all)
		p.known[string(p.key)], *all = i, append(*all, p.kept(s))
	}
	return i
}

// kept is a sum in the store of the plan, which holds all of them one behind the other.
func (p *plan) kept(s *sum) sum {
	n := len(p.store.keys)
	p.store.keys, p.store.factors = append(p.store.keys, s.keys...), append(p.store.factors, s.factors...)
	return sum{p.store.keys[n:len(p.store.keys):len(p.store.keys)], p.store.factors[n:len(p.store.keys):len(p.store.keys)]}
}
