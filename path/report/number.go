package report

import (
	"math"
	"strconv"

	"hushwake/source/spectrum"
)

// Number is a value of a document: nil where none exists, so that it prints null and never NaN.
type Number = *float64

// num gives a number rounded to what is worth printing; nil for NaN and infinities.
func num(v float64) Number {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v = math.Round(v*1e6) / 1e6
	return &v
}

// numOr scales a value that may not exist.
func numOr(v *float64, scale float64) Number {
	if v == nil {
		return nil
	}
	return num(*v * scale)
}

// deref is a value, 0 where none exists.
func deref(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}

// level is a level in dB; silence has none.
func level(db float64) Number {
	if db <= spectrum.Silent/2 {
		return nil
	}
	return num(math.Round(db*1e3) / 1e3)
}

func kilopascal(pa float64) Number { return num(pa / 1e3) }
func celsius(k float64) Number     { return num(k - 273.15) }

// bandsHz are the nominal band centres.
func bandsHz() []Number { return numbers(spectrum.Nominal[:]) }

// bandLevels are nine levels, null where silent.
func bandLevels(b spectrum.Bands) []Number {
	return each(b[:], level)
}

// bandValues are nine numbers that may be of any size, such as losses.
func bandValues(b spectrum.Bands) []Number {
	return each(b[:], func(v float64) Number { return num(math.Round(v*1e3) / 1e3) })
}

func numbers(vs []float64) []Number { return each(vs, num) }

// each is f of every one, never nil.
func each[T, U any](all []T, f func(T) U) []U {
	out := make([]U, len(all))
	for i, v := range all {
		out[i] = f(v)
	}
	return out
}

// list makes an empty list print as [] and not as null.
func list[T any](v []T) []T {
	if v == nil {
		return []T{}
	}
	return v
}

// field prints a number that may not exist; empty when it does not.
func field(v Number) string {
	if v == nil {
		return ""
	}
	return strconv.FormatFloat(*v, 'g', 10, 64)
}
