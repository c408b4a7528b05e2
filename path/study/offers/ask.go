package offers

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"

	"hushwake/path"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// Asks lists what has to be asked before a layout can be judged, from the parts of its lines whose
// sheets lack the loss of sound or of pressure; none where they say enough. A silencer known by a look
// has no sheet: its loss is a wide prior, and nobody is to be asked.
func Asks(l *path.Layout, judged []Judged) (questions []string) {
	for i := range l.Exhausts {
		l.Exhausts[i].Line.Each(func(e silencer.Element) {
			g := e.Quoted()
			if g == nil || g.Look != nil || statesSound(g) && (g.Loss != nil || l.Exhausts[i].Promised != nil) {
				return
			}
			q := partQuestions(g)
			for _, j := range judged {
				if j.Name == g.Offer {
					q = j.Questions
				}
			}
			for _, text := range q {
				if !slices.Contains(questions, text) {
					questions = append(questions, text)
				}
			}
		})
	}
	return questions
}

func statesSound(g *silencer.Given) bool {
	return g.InsertionLoss != nil || g.Overall != nil || g.AtLevel != nil && g.AtDistance > 0
}

// partQuestions are those of a part that no offer of the file stands behind.
func partQuestions(g *silencer.Given) (q []string) {
	name := g.Name
	if name == "" {
		name = "the silencer"
	}
	if !statesSound(g) {
		q = append(q, fmt.Sprintf("Insertion loss of %s in the octave bands 31.5 Hz to 8 kHz, and the test it comes from?", name))
	}
	if g.Loss == nil {
		q = append(q, fmt.Sprintf("Pressure loss of %s, at which flow and gas temperature? The engine's limit can't be checked without it.", name))
	}
	return q
}

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
				if g := e.Quoted(); g != nil && !statesSound(g) {
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
