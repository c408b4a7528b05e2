package interview

import "hushwake/source"

// Price is what not knowing an answer costs, and what is taken instead.
type Price struct {
	DB     float64 // one standard deviation of what it adds to a level, as the check lists it; of what the file has to state: half of what the level at the seat moves between the guesses
	Taken  string
	Source string
}

// costs remembers what was worked out, by text, since every screen asks for much of what the one before did.
type costs struct {
	prices map[string]Price // of the text that was priced
	last   map[string]Price // by question, of whichever text
	listed map[string][]source.Assumption
	levels map[string]float64
	doubts map[string]Doubt
}

// remembered is how many texts are kept; older ones are forgotten together.
const remembered = 200

func remember[T any](m map[string]T, key string, value T) map[string]T {
	if m == nil || len(m) >= remembered {
		m = map[string]T{}
	}
	m[key] = value
	return m
}

// Doubt is how well the first seat's level is known.
type Doubt struct {
	Seat      string
	Level     float64 // dB(A), median
	PlusMinus float64 // dB: eight of ten boats answered like this lie so near
	Shrink    []Shrink
}

// Shrink is something that would take doubt away, and what is left with it.
type Shrink struct {
	ID        string // question; "" = a reading to take
	Words     string
	PlusMinus float64
}
