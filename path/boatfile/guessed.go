package boatfile

import (
	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
)

// mostGuessed is the largest doubt of a guess, dB; more says nothing any more (judgement).
const mostGuessed = 40.0

// guessed decodes what the file states and nobody knew, each with one standard deviation in dB, and lists it with that price.
func (r *reader) guessed(n *decode.Node) (out []path.Guess) {
	s := r.Section(n, "guessed")
	for i, k := range s.Keys {
		if s.Values[i].Unknown() {
			r.Wrong(s.Values[i], "write what it may add to a level, such as 3 dB, or take the line out", "guessed.%s: how far the guess may be off is not stated", k.Text)
			continue
		}
		q, ok := r.Quantity(s.Values[i], "guessed."+k.Text, decode.Limits{Min: 0, Max: mostGuessed}, quantity.Level)
		if !ok {
			continue
		}
		out = append(out, path.Guess{Of: k.Text, SD: q.Value})
		r.Assume("guessed "+k.Text, "as the file states it", "a guess: take its line out of guessed when it is known", q.Value)
	}
	return out
}
