package path

import (
	"math"
	"strings"

	"hushwake/source/spectrum"
)

// unstated is what values that the file does not state add to a level, dB, one standard deviation:
// the root of the squares of the assumptions whose field begins with one of the prefixes.
func (b *Boat) unstated(prefixes ...string) float64 {
	sum := 0.0
	for _, a := range b.Assumptions {
		for _, p := range prefixes {
			if strings.HasPrefix(a.Field, p) {
				sum += a.PlusMinusDB * a.PlusMinusDB
				break
			}
		}
	}
	return math.Sqrt(sum)
}

// withUnstated adds the doubt of values not stated to what makes a step uncertain.
func (b *Boat) withUnstated(all []Uncertain, term, key string, prefixes ...string) []Uncertain {
	sd := b.unstated(prefixes...)
	if sd == 0 {
		return all
	}
	return append(all, Uncertain{Term: term, Key: key + " not stated", SD: spectrum.Fill(sd),
		Source: "not stated in the file: see what was assumed"})
}
