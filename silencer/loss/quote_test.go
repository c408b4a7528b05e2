package loss

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hushwake/source/said"
)

var hot = Duty{MassFlow: 0.0527, Density: 0.4457, Temperature: 793.15}

// At its own state a hot quote is what it says.
func TestHotQuoteIsItself(t *testing.T) {
	s, err := Quote{Drop: 2000, MassFlow: hot.MassFlow, Temperature: hot.Temperature, Basis: Hot}.Scale(hot)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "drop", s.Drop, 2000, 1e-9)
	s, _ = Quote{Drop: 2000, VolumeFlow: hot.MassFlow / hot.Density, Temperature: hot.Temperature, Basis: Hot}.Scale(hot)
	near(t, "by volume", s.Drop, 2000, 1e-9)
	s, _ = Quote{Drop: 2000, MassFlow: hot.MassFlow / 2, Temperature: hot.Temperature, Basis: Hot}.Scale(hot)
	near(t, "half the flow", s.Drop, 8000, 1e-9)
}

// A curve of cold air at the duty's mass flow is too low by the ratio of temperatures, and at the duty's
// volume flow too high by it.
func TestColdQuotes(t *testing.T) {
	ratio := hot.Temperature / 294.15
	mass, _ := Quote{Drop: 1000, Temperature: 294.15, Basis: EqualMass}.Scale(hot)
	volume, _ := Quote{Drop: 1000, Temperature: 294.15, Basis: EqualVolume}.Scale(hot)
	near(t, "mass", mass.Drop, 1000*ratio, 1e-6)
	near(t, "volume", volume.Drop, 1000/ratio, 1e-6)
	unstated, _ := Quote{Drop: 1000, Basis: EqualMass}.Scale(hot)
	near(t, "21 C where not stated", unstated.Drop, mass.Drop, 1e-6)
}

// The quoted flow is that of the exhaust, whichever way it is stated: half of it loses a quarter.
func TestQuotedFlowIsThatOfTheExhaust(t *testing.T) {
	for _, b := range []Basis{EqualMass, EqualVolume} {
		whole, _ := Quote{Drop: 1000, Temperature: 294.15, Basis: b}.Scale(hot)
		mass, _ := Quote{Drop: 1000, Temperature: 294.15, Basis: b, MassFlow: hot.MassFlow * 2}.Scale(hot)
		volume, _ := Quote{Drop: 1000, Temperature: 294.15, Basis: b, VolumeFlow: hot.MassFlow / hot.Density * 2}.Scale(hot)
		near(t, "mass", mass.Drop, whole.Drop/4, 1e-9)
		near(t, "volume", volume.Drop, whole.Drop/4, 1e-9)
	}
}

// A quote that does not say gives both answers, the high one to reckon with, and a question.
func TestUnknownBasisAsks(t *testing.T) {
	s, err := Quote{Drop: 1000, Temperature: 294.15}.Scale(hot)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "high over low", s.High/s.Low, math.Pow(hot.Temperature/294.15, 2), 1e-6)
	near(t, "reckoned", s.Drop, s.High, 0)
	if len(s.Warnings) != 1 || !strings.Contains(s.Warnings[0], "the higher is used") {
		t.Errorf("warnings %q", s.Warnings)
	}
}

// Trap: a curve of cold air read as if it were hot.
func TestColdCurveReadHot(t *testing.T) {
	s, _ := Quote{Drop: 1000, MassFlow: 0.0527, Temperature: 294.15, Basis: Hot}.Scale(hot)
	if len(s.Warnings) != 1 || !strings.Contains(s.Warnings[0], "cold-air curve") {
		t.Errorf("warnings %q", s.Warnings)
	}
	s, _ = Quote{Drop: 1000, MassFlow: 0.0527, Temperature: 793.15, Basis: Hot}.Scale(hot)
	if len(s.Warnings) != 0 {
		t.Errorf("an honest quote was doubted: %q", s.Warnings)
	}
}

// Trap: flow and density of two temperatures in one quote.
func TestQuoteOfTwoTemperatures(t *testing.T) {
	s, _ := Quote{Drop: 1000, MassFlow: 0.0527, VolumeFlow: 0.0527 / 1.2, Temperature: 793.15, Basis: Hot}.Scale(hot)
	if len(s.Warnings) != 1 || !strings.Contains(said.Plain(s.Warnings[0]), "not 520 °C") {
		t.Errorf("warnings %q", s.Warnings)
	}
}

// More flow never makes a quoted loss smaller, on any basis.
func TestQuotesAreMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := Quote{Drop: rapid.Float64Range(0, 1e4).Draw(t, "drop"), Basis: Basis(rapid.IntRange(0, 3).Draw(t, "basis")),
			MassFlow: rapid.Float64Range(0.01, 1).Draw(t, "flow"), Temperature: rapid.Float64Range(280, 900).Draw(t, "K")}
		a, err := q.Scale(hot)
		if err != nil {
			t.Fatal(err)
		}
		d := hot
		d.MassFlow *= 1.3
		b, err := q.Scale(d)
		if err != nil || b.Drop < a.Drop || a.Low > a.High || b.Low < a.Low {
			t.Fatalf("%v: %+v %+v", err, a, b)
		}
	})
}

func TestQuoteRefuses(t *testing.T) {
	for _, q := range []Quote{{Drop: -1}, {Drop: math.NaN()}, {Drop: 1, MassFlow: -1}} {
		if _, err := q.Scale(hot); err == nil {
			t.Errorf("accepted %+v", q)
		}
	}
	if _, err := (Quote{Drop: 1}).Scale(Duty{}); err == nil {
		t.Error("no duty, no error")
	}
}

// Trap: inches of water and of mercury taken for each other.
func TestPressureUnitSlip(t *testing.T) {
	// 39 inH2O (9.7 kPa) and 2.5 3386.389 (8.5 kPa) are printed limits; a factor of 13.6 apart they are not.
	const inH2O = 249.089
	for _, p := range []float64{39 * inH2O, 2.5 * 3386.389, 15e3, 5e3} {
		if s := LimitSlip(p); s != nil {
			t.Errorf("%.1f kPa doubted: %s", p/1e3, s.Text)
		}
	}
	for _, p := range []float64{2.5 * inH2O, 3 * inH2O, 39 * 3386.389, 20 * 3386.389} {
		if s := LimitSlip(p); s == nil || s.Code != "PRESSURE-UNIT" {
			t.Errorf("%.2f kPa passed", p/1e3)
		}
	}
	// Silencer of K 3 at 327 Pa velocity head: 0.98 kPa is 4 inH2O; entered as 4 3386.389 it is 13.5 kPa.
	if DropSlip(4*inH2O, 0.446, 38.3) != nil || DropSlip(4*3386.389, 0.446, 38.3) == nil {
		t.Error("silencer loss of 4 in misjudged")
	}
}

// Trap: a four-stroke's flow used for a blower-scavenged two-stroke; makers' figures pass.
func TestFlowSlip(t *testing.T) {
	for _, c := range []struct {
		flow, power float64
		two, ok     bool
	}{
		{.0156, 8e3, false, true}, {.0527, 33e3, false, true}, {.1266, 75e3, false, true}, {.260, 150e3, false, true}, {.433, 250e3, false, true},
		{4.44, 2.1e6, false, true}, {.359, 126e3, true, true}, {.21, 126e3, true, false}, {.359, 126e3, false, false}, {.01, 126e3, false, false},
	} {
		if s := FlowSlip(c.flow, c.power, c.two); (s == nil) != c.ok {
			t.Errorf("%+v: %+v", c, s)
		}
	}
	if s := FlowSlip(.21, 126e3, true); s.Code != "FLOW-OF-A-FOUR-STROKE" {
		t.Errorf("code %s", s.Code)
	}
}

// Trap: the density of one temperature used at two.
func TestDensitySlip(t *testing.T) {
	if DensitySlip(0.457, 773.15, 101325) != nil {
		t.Error("the right density was doubted")
	}
	if s := DensitySlip(0.457, 673.15, 101325); s == nil || !strings.Contains(said.Plain(s.Text), "500 °C, not 400 °C") {
		t.Errorf("%+v", s)
	}
}

// A quote without a flow holds at the rated flow: at half of it, a quarter is lost.
func TestQuoteWithoutFlowHoldsAtRated(t *testing.T) {
	d := hot
	d.MassFlow, d.QuotedMass = hot.MassFlow/2, hot.MassFlow
	for b := BasisUnknown; b <= EqualVolume; b++ {
		full, _ := Quote{Drop: 1000, Basis: b}.Scale(hot)
		half, _ := Quote{Drop: 1000, Basis: b}.Scale(d)
		near(t, "a quarter", half.Drop, full.Drop/4, 1e-9)
	}
}
