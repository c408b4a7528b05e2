package silencer_test

import (
	"strings"
	"testing"

	"hushwake/silencer"
)

// A hole a hundredth of its shell would need modes without end: plane waves take over and say so, while
// an area ratio of 1000 is still solved by modes.
func TestSlenderTubesLeaveTheModes(t *testing.T) {
	for _, c := range []struct {
		bore    float64
		slender bool
	}{{0.003, true}, {0.0096, false}} {
		l := silencer.Line{Elements: []silencer.Element{&silencer.Chamber{Bore: 0.3, Rooms: []float64{0.4}, InletBore: c.bore, OutletBore: c.bore, TubeWall: 0.0005}}}
		curve, err := l.Curve(still, silencer.Options{}, []float64{100, 500})
		if err != nil {
			t.Fatal(err)
		}
		said := strings.Contains(strings.Join(curve.Warnings, "; "), "narrowest tube")
		if said != c.slender || (curve.Method == "plane") != c.slender {
			t.Errorf("bore %g m: method %s, warnings %q", c.bore, curve.Method, curve.Warnings)
		}
	}
}
