package chain

import (
	"fmt"
	"math"

	"hushwake/source/spectrum"
)

// Methods of solving an element.
const (
	Plane = "plane"
	Modes = "modes"
)

// Trust is how far an element's model holds.
type Trust struct {
	Place   int // of the element, counted along the line and its branches
	Name    string
	Bore    float64 // m, of the line there
	Weight  float64 // of its branch
	CutOn   float64 // Hz
	First   float64 // Hz, first cross mode that a line as drawn excites
	Across  float64 // Hz, first cross mode of any kind: the plane-wave limit
	Ceiling float64 // dB above cutOn
	Method  string
	Why     string
	holds   float64 // Hz to which plane waves hold, 1 dB
	until   string  // why they end there
}

// sd is how far an element's model is trusted, by band. Judgement, from the distance of one-dimensional
// models to finite elements and from published scatter of measured silencers.
func (t Trust) SD() (sd spectrum.Bands) {
	for b := range sd {
		switch f := spectrum.Exact[b] * math.Sqrt2; {
		case f > t.CutOn:
			sd[b] = 5
		case f > 0.5*t.First:
			sd[b] = 3
		default:
			sd[b] = 2
		}
	}
	return sd
}

// Beyond tells up to which frequency an element's solution holds, where a frequency lies above it.
func (t Trust) Beyond(top float64, capped bool) string {
	text := t.crossModes(top, capped)
	if t.Method != Plane || top <= t.holds {
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
func (t Trust) crossModes(top float64, capped bool) string {
	switch {
	case top <= t.Across:
		return ""
	case top <= t.CutOn && t.Method == Plane:
		return fmt.Sprintf("above its first cross mode at %.0f Hz they are an idealisation for parts truly on the axis", t.Across)
	case top <= t.CutOn:
		return fmt.Sprintf("above its first cross mode at %.0f Hz the %s solution holds only for parts truly on the axis, to its %s at %.0f Hz", t.Across, t.Method, t.Why, t.CutOn)
	}
	text := fmt.Sprintf("above its %s at %.0f Hz the %s solution does not hold", t.Why, t.CutOn, t.Method)
	if t.Across < t.CutOn {
		text += fmt.Sprintf(", from its first cross mode at %.0f Hz on only for parts truly on the axis", t.Across)
	}
	if capped {
		text += fmt.Sprintf("; its loss is limited to %.0f dB there (judgement)", t.Ceiling)
	}
	return text
}
