package path

import (
	"math"

	"hushwake/source/spectrum"
)

// Unstated is what values that the file does not state add to a level, dB, one standard deviation:
// the root of the squares of the assumptions that belong to exactly that path.
func (b *Boat) Unstated(of string) float64 {
	sum := 0.0
	for _, a := range b.Assumptions {
		if a.Of == of {
			sum += a.PlusMinusDB * a.PlusMinusDB
		}
	}
	return math.Sqrt(sum)
}

// WithUnstated adds the doubt of values not stated to what makes a step uncertain.
func (b *Boat) WithUnstated(all []Uncertain, term, key, of string) []Uncertain {
	sd := b.Unstated(of)
	if sd == 0 {
		return all
	}
	return append(all, Uncertain{Term: term, Key: key + " not stated", SD: spectrum.Fill(sd),
		Source: "not stated in the file: see what was assumed"})
}
