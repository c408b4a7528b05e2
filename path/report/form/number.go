package form

import (
	"math"
	"strconv"

	"hushwake/source/spectrum"
)

// Number is a value of a document: nil where none exists, so that it prints null and never NaN.
type Number = *float64

// Num gives a number rounded to what is worth printing; nil for NaN and infinities.
func Num(v float64) Number {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v = math.Round(v*1e6) / 1e6
	return &v
}

// NumOr scales a value that may not exist.
func NumOr(v *float64, scale float64) Number {
	if v == nil {
		return nil
	}
	return Num(*v * scale)
}

// Deref is a value, 0 where none exists.
func Deref(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}

// Level is a level in dB; silence has none.
func Level(db float64) Number {
	if db <= spectrum.Silent/2 {
		return nil
	}
	return Num(math.Round(db*1e3) / 1e3)
}

// Kilopascal is a pressure, Pa, in kPa.
func Kilopascal(pa float64) Number { return Num(pa / 1e3) }

// Celsius is a temperature, K, in °C.
func Celsius(k float64) Number { return Num(k - 273.15) }

// BandsHz are the nominal band centres.
func BandsHz() []Number { return Numbers(spectrum.Nominal[:]) }

// BandLevels are nine levels, null where silent.
func BandLevels(b spectrum.Bands) []Number {
	return Each(b[:], Level)
}

// BandValues are nine numbers that may be of any size, such as losses.
func BandValues(b spectrum.Bands) []Number {
	return Each(b[:], func(v float64) Number { return Num(math.Round(v*1e3) / 1e3) })
}

// Numbers are numbers.
func Numbers(vs []float64) []Number { return Each(vs, Num) }

// Each is f of every one, never nil.
func Each[T, U any](all []T, f func(T) U) []U {
	out := make([]U, len(all))
	for i, v := range all {
		out[i] = f(v)
	}
	return out
}

// List makes an empty list print as [] and not as null.
func List[T any](v []T) []T {
	if v == nil {
		return []T{}
	}
	return v
}

// Field prints a number that may not exist; empty when it does not.
func Field(v Number) string {
	if v == nil {
		return ""
	}
	return strconv.FormatFloat(*v, 'g', 10, 64)
}
