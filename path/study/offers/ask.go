package offers

import (
	"math"
	"regexp"
	"strconv"

	"hushwake/path"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// usualClaim is the loss that stands for a sheet that names no figure at all at its best: a large
// silencer of the trade, dB (judgement).
const usualClaim = 35.0

var claimed = regexp.MustCompile(`(\d+(?:\.\d+)?)\s*dB`)

// bestClaim is the largest figure of loss in the words of a sheet, dB.
func bestClaim(text string) float64 {
	best := 0.0
	for _, m := range claimed.FindAllStringSubmatch(text, -1) {
		if v, err := strconv.ParseFloat(m[1], 64); err == nil {
			best = math.Max(best, v)
		}
	}
	if best == 0 {
		return usualClaim
	}
	return best
}

// BestAndWorst are a layout with the sheets of its unjudged parts read at their best, the largest
// figure they name in every octave, and at their worst, a plain pipe.
func BestAndWorst(l *path.Layout, quotes []path.Quote) (best, worst *path.Layout) {
	read := func(loss func(g *silencer.Given) float64) *path.Layout {
		out := *l
		out.Exhausts = append([]path.Exhaust(nil), l.Exhausts...)
		for i := range out.Exhausts {
			elements := append([]silencer.Element(nil), out.Exhausts[i].Line.Elements...)
			for k, e := range elements {
				if g := e.Quoted(); g != nil && !g.StatesSound() {
					as, b := *g, spectrum.Fill(loss(g))
					as.InsertionLoss = &b
					elements[k] = &as
				}
			}
			out.Exhausts[i].Line.Elements = elements
		}
		return &out
	}
	claim := func(g *silencer.Given) float64 {
		for _, q := range quotes {
			if q.Name == g.Offer {
				return bestClaim(q.Claim)
			}
		}
		return usualClaim
	}
	return read(claim), read(func(*silencer.Given) float64 { return 0 })
}
