package silencer_test

import (
	"math"
	"strings"
	"testing"

	"hushwake/silencer"
)

// Holes that all gas passes resist it; taken as still ones they would make sound.
func TestPluggedTubeNeverMakesSound(t *testing.T) {
	e := &silencer.Plugged{PlugAt: 0.106, Perforate: silencer.Perforate{Bore: 0.0653, ChamberBore: 0.1305, Length: 0.3,
		From: 0.0224, To: 0.19, Porosity: 0.22, Hole: 0.0028, TubeWall: 0.0015, Impedance: silencer.Still}}
	l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.0653, Length: 0.2}, e, &silencer.Pipe{Bore: 0.0653, Length: 0.2}}}
	for _, mach := range []float64{0, 0.12, 0.25} {
		flow := mach * 343 * 1.204 * math.Pi / 4 * 0.0653 * 0.0653
		for _, method := range []string{"", "plane"} {
			c, err := l.Curve(bench(343, 1.204, flow), silencer.Options{Method: method}, grid(5, 4000, 11))
			if err != nil {
				t.Fatal(err)
			}
			for i, tl := range c.TransmissionLoss {
				if tl < -1e-6 {
					t.Fatalf("M %g, %q: %g dB at %g Hz", mach, method, tl, c.Frequency[i])
				}
			}
			if said := strings.Contains(strings.Join(c.Warnings, "\n"), "through-flow"); said != (mach > 0) {
				t.Errorf("M %g: %v", mach, c.Warnings)
			}
		}
	}
}
