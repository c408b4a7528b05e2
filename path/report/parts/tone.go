package parts

import (
	"fmt"
	"math"

	"hushwake/path/report/form"
	"hushwake/source/spectrum/audibility"
)

// Tone stands out of the noise about it.
type Tone struct {
	Frequency  form.Number `json:"frequency_hz"`
	Audibility form.Number `json:"audibility_db"`
	Word       string      `json:"word"` // audible | drone
}

// NewTone is a tone as it is told, nil where none stands out.
func NewTone(t audibility.Tone) *Tone {
	if t.Word() == "" {
		return nil
	}
	return &Tone{form.Num(math.Round(10*t.Frequency) / 10), form.Level(t.Audibility), t.Word()}
}

// ToneWords says what stands out.
func ToneWords(t audibility.Tone) string {
	if t.Word() == "" {
		return "no tone stands out"
	}
	text := fmt.Sprintf("a tone stands out at %.0f Hz, %s", t.Frequency, map[string]string{"audible": "audible", "drone": "a drone"}[t.Word()])
	if t.Frequency < audibility.Lowest {
		text += fmt.Sprintf(" (under the %.0f Hz from which the standard holds)", audibility.Lowest)
	}
	return text
}
