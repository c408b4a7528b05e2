package silencer

import (
	"errors"
	"fmt"
)

// Dimension is one size of an element that a search may choose, m or a share of 1.
type Dimension struct {
	Name      string
	Low, High float64
	Step      float64
	Share     bool // a share of 1, not a length
}

// Sizing is an element whose dimensions may be chosen.
type Sizing struct {
	Dimensions []Dimension
	Build      func(x []float64) Element             // a new element of these dimensions
	Sizes      func(x []float64) map[string]float64  // m by name, as they would be ordered
	Outer      func(x []float64) (length, w float64) // m, over shell and lagging
	Start      []float64                             // the element as it stands
}

// ErrNoDimensions is for elements known only by stated figures.
var ErrNoDimensions = errors.New("this element has no dimensions to choose")

// SizeOf opens an element to a search. bore is that of the pipe it stands in; maxLength and
// maxDiameter bound the search, 0 for the usual range (three times the present size or 1.5 m; 6 bores).
func SizeOf(e Element, bore, maxLength, maxDiameter float64) (Sizing, error) {
	if s := e.sizing(bore, maxLength, maxDiameter); s != nil {
		return *s, nil
	}
	return Sizing{}, fmt.Errorf("%s: %w", e.Kind(), ErrNoDimensions)
}

const sizeStep = 0.01 // m, as makers build
