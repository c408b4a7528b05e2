package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"

	"hushwake/source/spectrum"
)

// number is a value for JSON: nil where none exists, so that it prints null and never NaN.
type number = *float64

// num gives a JSON number rounded to what is worth printing; nil for NaN and infinities.
func num(v float64) number {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v = math.Round(v*1e6) / 1e6
	return &v
}

// numOr scales a value that may not exist.
func numOr(v *float64, scale float64) number {
	if v == nil {
		return nil
	}
	return num(*v * scale)
}

// level is a level in dB; silence has none.
func level(db float64) number {
	if db <= spectrum.Silent/2 {
		return nil
	}
	return num(math.Round(db*1e3) / 1e3)
}

// bandLevels are nine levels, null where silent.
func bandLevels(b spectrum.Bands) []number {
	out := make([]number, len(b))
	for i, v := range b {
		out[i] = level(v)
	}
	return out
}

// bandValues are nine numbers that may be of any size, such as losses.
func bandValues(b spectrum.Bands) []number {
	out := make([]number, len(b))
	for i, v := range b {
		out[i] = num(math.Round(v*1e3) / 1e3)
	}
	return out
}

func numbers(vs []float64) []number {
	out := make([]number, len(vs))
	for i, v := range vs {
		out[i] = num(v)
	}
	return out
}

// printJSON writes v as indented JSON; a number that JSON cannot hold is an error.
func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return failed("%w", fmt.Errorf("printing JSON: %w", err))
	}
	return nil
}

// list makes an empty list print as [] and not as null.
func list[T any](v []T) []T {
	if v == nil {
		return []T{}
	}
	return v
}
