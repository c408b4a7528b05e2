package silencer_test

import (
	"fmt"
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"hushwake/silencer"
)

// Every shell tells its first cross mode, 1.841 c/(pi D), as soon as a curve goes above it, with the range of its
// solution; in a layout with the ceiling too.
func TestCrossModesAreTold(t *testing.T) {
	perforate := silencer.Perforate{Bore: 0.06, ChamberBore: 0.2, Length: 0.3, Porosity: 0.2, Hole: 0.004, TubeWall: 0.002}
	first := 1.841184 * 343 / (math.Pi * 0.2)
	for name, e := range map[string]silencer.Element{
		"chamber":    &silencer.Chamber{Bore: 0.2, Rooms: []float64{0.3}, InletBore: 0.06, OutletBore: 0.06},
		"offset":     &silencer.Chamber{Bore: 0.2, Rooms: []float64{0.3}, InletBore: 0.06, OutletBore: 0.06, InletOffset: 0.05},
		"perforated": &silencer.Perforated{Perforate: perforate},
		"packed":     &silencer.Packed{Perforate: perforate, FlowResistivity: 10000},
		"plugged":    &silencer.Plugged{Perforate: perforate},
	} {
		l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.06, Length: 0.2}, e, &silencer.Pipe{Bore: 0.06, Length: 0.2}}}
		for _, method := range []string{"", "plane"} {
			warned := func(top float64, ceiling bool) string {
				c, err := l.Curve(bench(343, 1.204, 0), silencer.Options{Method: method, Ceiling: ceiling}, []float64{100, top})
				if err != nil {
					t.Fatal(err)
				}
				return strings.Join(c.Warnings, "\n")
			}
			mark := fmt.Sprintf("first cross mode at %.0f Hz", first)
			if text := warned(first-2, false); strings.Contains(text, "cross mode") {
				t.Errorf("%s, %s, below: %s", name, method, text)
			}
			for _, top := range []float64{first + 2, 6000} {
				if text := warned(top, false); !strings.Contains(text, mark) || strings.Contains(text, "limited") {
					t.Errorf("%s, %s, to %.0f Hz: %s", name, method, top, text)
				}
			}
			if text := warned(6000, true); !strings.Contains(text, "does not hold") || !strings.Contains(text, "limited to") {
				t.Errorf("%s, %s, with a ceiling: %s", name, method, text)
			}
		}
	}
}

// NR = 20 lg|p_in/p_out| of a pipe open at its end: cos kL + j (Y/Z) sin kL, by the low-frequency impedance of an
// unflanged end, Z/Y = (ka)^2/4 + 0.6133 j ka.
func TestNoiseReductionOfAPipe(t *testing.T) {
	const length, radius, f = 0.8, 0.03, 70.0
	l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 2 * radius, Length: length}}, Outlet: silencer.Outlet{Present: true}}
	c, err := l.Curve(bench(343, 1.204, 0), silencer.Options{Walls: "lossless"}, []float64{f})
	if err != nil {
		t.Fatal(err)
	}
	k := 2 * math.Pi * f / 343
	z := complex(k*k*radius*radius/4, 0.6133*k*radius)
	want := 20 * math.Log10(cmplx.Abs(complex(math.Cos(k*length), 0)+complex(0, math.Sin(k*length))/z))
	if math.Abs(c.NoiseReduction[0]-want) > 0.05 {
		t.Errorf("%g dB, want %g", c.NoiseReduction[0], want)
	}
	l.Outlet.Present = false
	if c, err = l.Curve(bench(343, 1.204, 0), silencer.Options{}, []float64{f}); err != nil || !math.IsNaN(c.NoiseReduction[0]) {
		t.Errorf("without an outlet: %v, %v", c.NoiseReduction, err)
	}
}
