package silencer

import (
	"fmt"
	"math"

	"hushwake/source/spectrum"
)

// Methods of solving an element.
const (
	plane = "plane"
	modes = "modes"
)

// trust is how far an element's model holds.
type trust struct {
	place   int // of the element, counted along the line and its branches
	name    string
	bore    float64 // m, of the line there
	weight  float64 // of its branch
	cutOn   float64 // Hz
	first   float64 // Hz, first cross mode that a line as drawn excites
	across  float64 // Hz, first cross mode of any kind: the plane-wave limit
	ceiling float64 // dB above cutOn
	method  string
	why     string
	holds   float64 // Hz to which plane waves hold, 1 dB
	until   string  // why they end there
}

// sd is how far an element's model is trusted, by band. Judgement, from the distance of one-dimensional
// models to finite elements and from published scatter of measured silencers.
func (t trust) sd() (sd spectrum.Bands) {
	for b := range sd {
		switch f := spectrum.Exact[b] * math.Sqrt2; {
		case f > t.cutOn:
			sd[b] = 5
		case f > 0.5*t.first:
			sd[b] = 3
		default:
			sd[b] = 2
		}
	}
	return sd
}

// beyond tells up to which frequency an element's solution holds, where a frequency lies above it.
func (t trust) beyond(top float64, capped bool) string {
	text := t.crossModes(top, capped)
	if t.method != plane || top <= t.holds {
		return text
	}
	limit := fmt.Sprintf("plane waves hold to about %.0f Hz, within 1 dB (%s)", t.holds, t.until)
	if text == "" {
		return limit
	}
	return limit + "; " + text
}

// crossModes tells which cross modes of an element lie below a frequency, what its solution is worth above them
// and the ceiling, if there is one.
func (t trust) crossModes(top float64, capped bool) string {
	switch {
	case top <= t.across:
		return ""
	case top <= t.cutOn && t.method == plane:
		return fmt.Sprintf("above its first cross mode at %.0f Hz they are an idealisation for parts truly on the axis", t.across)
	case top <= t.cutOn:
		return fmt.Sprintf("above its first cross mode at %.0f Hz the %s solution holds only for parts truly on the axis, to its %s at %.0f Hz", t.across, t.method, t.why, t.cutOn)
	}
	text := fmt.Sprintf("above its %s at %.0f Hz the %s solution does not hold", t.why, t.cutOn, t.method)
	if t.across < t.cutOn {
		text += fmt.Sprintf(", from its first cross mode at %.0f Hz on only for parts truly on the axis", t.across)
	}
	if capped {
		text += fmt.Sprintf("; its loss is limited to %.0f dB there (judgement)", t.ceiling)
	}
	return text
}
