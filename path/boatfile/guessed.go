package boatfile

import (
	"hushwake/path"
	"hushwake/path/boatfile/quantity"
)

// mostGuessed is the largest doubt of a guess, dB; more says nothing any more (judgement).
const mostGuessed = 40.0

// guessed decodes what the file states and nobody knew, each with one standard deviation in dB, and lists it with that price.
func (r *reader) guessed(n *node) (out []path.Guess) {
	s := r.section(n, "guessed")
	for i, k := range s.keys {
		if s.values[i].unknown() {
			r.wrong(s.values[i], "write what it may add to a level, such as 3 dB, or take the line out", "guessed.%s: how far the guess may be off is not stated", k.text)
			continue
		}
		q, ok := r.quantity(s.values[i], "guessed."+k.text, limits{min: 0, max: mostGuessed}, quantity.Level)
		if !ok {
			continue
		}
		out = append(out, path.Guess{Of: k.text, SD: q.Value})
		r.assume("guessed "+k.text, "as the file states it", "a guess: take its line out of guessed when it is known", q.Value)
	}
	return out
}
