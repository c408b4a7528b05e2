package readings

import (
	"math"
	"strings"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// Errors of readings whose own error is not stated, one standard deviation. A phone: a platform's
// compatibility text asks for no better than 3 dB; the others are judgement.
const (
	PhoneSD       = 3.0  // dB
	meterSD       = 1.5  // dB
	ManometerSD   = 0.05 // relative
	thermometerSD = 5.0  // K
	// RepeatShare is the part of an instrument's stated error that differs from one reading to the
	// next; the rest is a bias that all its readings share. Judgement.
	RepeatShare = 0.5
)

// observation is one number measured, with the model's function for it.
type observation struct {
	reading      int // position in the list of readings
	order        string
	unit         string
	value        float64         // dB, or the logarithm of a pressure or temperature
	shown        float64         // as measured, corrected for background, in its unit
	bias, repeat float64         // standard deviations, in the unit of value
	own          *spectrum.Bands // of a recorder: bias by octave, beside that of its scale
	instrument   string
	note         string
	warning      string   // said whether it is used or not
	odd          []string // what else is odd about it
	expected              // without the instrument's bias
	biased       expected
	restore      func(v float64) float64 // value to its unit
	box          bool                    // of the air in one: its terms are in no level, no pressure
	excluded     string                  // why it is left out; "" = used
	standardised float64                 // deviations off what was to be expected

	predicted, fitted float64 // medians before and after, without the instrument's bias
}

// struck says why a reading that its owner struck does not count.
const struck = "struck in the file"

// soundError is the reading's stated error, or the usual one of the instrument, as one deviation.
func soundError(r path.Reading) float64 {
	switch {
	case r.PlusMinus > 0:
		return r.PlusMinus
	case strings.Contains(strings.ToLower(r.Instrument), "meter"):
		return meterSD
	}
	return PhoneSD
}

// SplitError parts an error into the bias all readings of the instrument share and what differs from
// reading to reading.
func SplitError(sd float64) (bias, repeat float64) {
	return sd * math.Sqrt(1-RepeatShare*RepeatShare), sd * RepeatShare
}

func instrument(r path.Reading, kind string) string {
	if r.Instrument == "" {
		return "unnamed " + kind
	}
	return r.Instrument
}
