package quantity

import (
	"fmt"
	"math"

	"hushwake/path/boatfile/spelling"
)

// Quantity is a number with its unit, turned into SI (rotational speed in rpm, time in hours).
type Quantity struct {
	Value float64 // SI; rpm for rotational speed, h for time, dB for levels
	Dim   Dim
	Text  string // as written
	Unit  string // the unit as the table spells it
	Note  string // what was taken for granted while reading it; "" = nothing
	// Says, Low and High are set by ParseStated only.
	Says      Hedge
	Low, High float64 // SI
	PlusMinus bool    // the span was written as a figure ± its error
}

// quantityError keeps message and hint apart so that the loader can point at the place.
type Error struct{ Message, Hint string }

func (e *Error) Error() string {
	if e.Hint == "" {
		return e.Message
	}
	return e.Message + "\nhint: " + e.Hint
}

// badQuantity is an Error.
func Bad(hint, format string, args ...any) error {
	return &Error{fmt.Sprintf(format, args...), hint}
}

func finish(value float64, u unit, text string) (Quantity, error) {
	v := value*u.factor + u.offset
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return Quantity{}, Bad("", "%q is out of range", spelling.Clip(text))
	}
	if u.dim == Temperature && v < 0 {
		return Quantity{}, Bad("", "%q is below absolute zero (-273.15 °C)", spelling.Clip(text))
	}
	return Quantity{Value: v, Dim: u.dim, Text: text, Unit: u.name, Note: u.note}, nil
}

// Hedge is how a figure is stated.
type Hedge int

// Hedges: one figure, about it, not over it, not under it, from one to another.
const (
	Exactly Hedge = iota
	About
	AtMost
	AtLeast
	Between
)
