package path

import (
	"strings"
	"testing"

	"hushwake/source"
	"hushwake/source/spectrum"
)

// At 170 Hz the A-weighting is -12.4 dB, at 100 Hz -19.1 (IEC 61672-1), in the 125 Hz octave -16.1: a
// meter shows 4 dB more or 3 dB less.
func TestToneOffTheMiddleOfItsOctave(t *testing.T) {
	quiet := spectrum.Fill(20)
	quiet[2] = 90
	h := Heard{Routes: []Route{{Engine: "main", Way: ByOutlet, Bands: quiet}}}
	results := func(hz float64) []ExhaustResult {
		return []ExhaustResult{{Engine: "main", Source: source.Result{Orders: []source.Order{{Order: 6, Frequency: hz, Level: 120}}}}}
	}
	if n := toneNote(&h, results(170)); !strings.Contains(n, "4 dB(A) more") || !strings.Contains(n, "170 Hz") {
		t.Errorf("note %q", n)
	}
	if n := toneNote(&h, results(100)); !strings.Contains(n, "3 dB(A) less") {
		t.Errorf("note %q", n)
	}
	if n := toneNote(&h, results(125)); n != "" {
		t.Errorf("a tone in the middle needs no note: %q", n)
	}
	h.Routes[0].Engine = "main port"
	if n := toneNote(&h, results(170)); n != "" {
		t.Errorf("the tone of another engine: %q", n)
	}
	h.Routes[0].Engine, h.Routes[0].Way = "main", ByAir
	if n := toneNote(&h, results(170)); n != "" {
		t.Errorf("a casing has no such tone: %q", n)
	}
}
