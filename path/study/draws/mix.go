package draws

import (
	"math"

	"hushwake/source/spectrum"
)

// sameness is how near two proportions are to count as one: well under what a figure could show, well over what rounding leaves.
const sameness = 1e-12

// mixed brings doubts that move the bands in one proportion, such as those of an element that is mixed of several causes,
// together to one each.
func (p *plan) mixed(doubts []doubt) (out []doubt) {
	type mix struct{ first, peak, parts int }
	out = make([]doubt, 0, len(doubts))
	mixes, of, factors := make([]mix, 0, len(doubts)), make([]int, len(doubts)), make([]float64, len(doubts))
	for i := range doubts {
		sd := doubts[i].sd
		at := 0
		for ; at < len(mixes); at++ {
			m := mixes[at]
			first := doubts[m.first].sd
			f, beside := sd[m.peak]/first[m.peak], (m.peak+1)%spectrum.N
			if math.Abs(f*first[beside]-sd[beside]) > 1e-9*math.Abs(sd[beside]) { // far off, as most are
				continue
			}
			if f = rounded(f); near(sd, f, first) {
				factors[i] = f
				break
			}
		}
		if at == len(mixes) {
			mixes, factors[i] = append(mixes, mix{i, peak(sd), 0}), 1
		}
		mixes[at].parts++
		of[i] = at
	}
	for at, m := range mixes {
		d := doubts[m.first]
		if m.parts > 1 {
			p.scratch.reset()
			for i := range doubts {
				if of[i] == at {
					p.scratch.put(doubts[i].key, factors[i])
				}
			}
			d.key = p.terms + p.numbered('m', &p.mixes)
		}
		out = append(out, d)
	}
	return out
}

// peak is the band of the largest deviation.
func peak(sd *spectrum.Bands) (at int) {
	for b, v := range sd {
		if math.Abs(v) > math.Abs(sd[at]) {
			at = b
		}
	}
	return at
}

// near tells whether v is f times a in all bands.
func near(v *spectrum.Bands, f float64, a *spectrum.Bands) bool {
	for b := range v {
		if !(math.Abs(f*a[b]-v[b]) <= 2*sameness*math.Abs(v[b])) {
			return false
		}
	}
	return f != 0
}

// rounded leaves 40 bits, so that what came about by other ways of reckoning is found to be the same.
func rounded(v float64) float64 {
	f, e := math.Frexp(v)
	return math.Ldexp(math.Round(f*(1<<40))/(1<<40), e)
}
