package interview

import (
	"fmt"
	"slices"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
	"hushwake/source"
)

// Price is what not knowing an answer costs, and what is taken instead.
type Price struct {
	DB     float64 // one standard deviation of what it adds to a level, as the check lists it; of what the file has to state: half of what the level at the seat moves between the guesses
	Taken  string
	Source string
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

// costs remembers what was worked out, by text, since every screen asks for much of what the one before did.
type costs struct {
	prices map[string]Price // of the text that was priced
	last   map[string]Price // by question, of whichever text
	listed map[string][]source.Assumption
	levels map[string]float64
	doubts map[string]Doubt
}

// assumed is what the check of a file lists.
func (v *Interview) assumed(text []byte) ([]source.Assumption, error) {
	if all, ok := v.costs.listed[string(text)]; ok {
		return all, nil
	}
	p, b, err := quick(text)
	if err != nil {
		return nil, err
	}
	all := slices.Concat(b.Assumptions, p.Assumptions)
	v.costs.listed = remember(v.costs.listed, string(text), all)
	v.costs.levels = remember(v.costs.levels, string(text), p.Listeners[0].DBA())
	return all, nil
}

// level at the first seat of a file as it is, dB(A).
func (v *Interview) level(text []byte) (float64, error) {
	_, err := v.assumed(text)
	return v.costs.levels[string(text)], err
}

// quick predicts the first layout of a file by plane waves.
func quick(text []byte) (path.Prediction, *path.Boat, error) {
	b, err := boatfile.Load("boat.yaml", text)
	if err != nil {
		return path.Prediction{}, nil, err
	}
	if len(b.Layouts) == 0 || len(b.Listeners) == 0 {
		return path.Prediction{}, nil, fmt.Errorf("nobody listens in this file\nhint: name a listener and a layout")
	}
	p, err := scene.NewSession(b).Predict(b.Layouts[0], path.Fast)
	return p, b, err
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
