package source

import (
	"math"
	"strings"
	"testing"
)

// SAE 590127 (1959), abstract: total diesel noise as the cube of speed and little with load; SAE 780174
// (1978), abstract: with load only if turbocharged.
func TestCasingOverSpeedAndLoad(t *testing.T) {
	for _, e := range []Engine{twoStroke(), turboFour(), smallSet(), petrolEight()} {
		rated := at(t, e, e.Rated)
		half := at(t, e, Duty{e.Rated.Power / 2, e.Rated.Speed / 2})
		light := at(t, e, Duty{e.Rated.Power / 4, e.Rated.Speed})
		near(t, e.Name+" half speed", rated.Casing.Bands.DBA()-half.Casing.Bands.DBA(), 10*math.Log10(8), 1e-9)
		near(t, "doubt at half speed", half.Casing.SD[5], math.Hypot(5, 5*math.Log10(2)), 1e-9)
		want := 0.0
		if e.Aspiration == Turbocharged {
			want = 1.5 * 0.75
		}
		near(t, e.Name+" a quarter of the load", rated.Casing.Bands[4]-light.Casing.Bands[4], want, 1e-9)
		near(t, "doubt at a quarter of the load", light.Casing.SD[5], math.Hypot(5, 0.3*want), 1e-9)
	}
}

// One boat measured at a berth beside the engine and in the galley from 750 to 2700 rpm: 18 and 13 dB(A)
// (an owner's report of 2019). The law lies inside its doubt of 5 dB per decade of either.
func TestCasingSlopeOfOneBoat(t *testing.T) {
	decades := math.Log10(2700.0 / 750)
	for _, rise := range []float64{18, 13} {
		near(t, "rise", casingSpeed(2700, 750), rise, 1.5*casingSpeedSD*decades)
	}
}

// A measured casing level moves by the same law, and its doubt with it.
func TestStatedCasingMoves(t *testing.T) {
	e := twoStroke()
	level := bareRow(e, e.Rated)
	e.CasingLevel = &level
	r := at(t, e, Duty{e.Running.Power / 2, e.Running.Speed / 2})
	near(t, "moved", level[3]-r.Casing.Bands[3], 10*math.Log10(8), 1e-9)
	near(t, "doubt", r.Casing.SD[3], math.Hypot(2, 5*math.Log10(2)), 1e-9)
}

// Inlet and alternator say what load and speed do to them.
func TestInletAndAlternatorSayTheirDuty(t *testing.T) {
	e := turboFour()
	full, light := at(t, e, e.Rated), at(t, e, e.Running)
	if full.Intake.Bands != light.Intake.Bands || !strings.Contains(light.Intake.Formula, "falls with load") {
		t.Errorf("inlet: %s", light.Intake.Formula)
	}
	said := ""
	for _, a := range full.Assumptions {
		if strings.HasSuffix(a.Field, "turbocharger inlet") {
			said = a.Source
		}
	}
	if !strings.Contains(said, "10 to 20 dB above") {
		t.Errorf("inlet assumption %q", said)
	}
	set := smallSet()
	slow := at(t, set, Duty{set.Rated.Power / 4, set.Rated.Speed / 2})
	near(t, "alternator", at(t, set, set.Rated).Alternator.Bands[3]-slow.Alternator.Bands[3], 6.6*math.Log10(2), 1e-9)
	if !strings.Contains(slow.Alternator.Formula, "generator load: 0") {
		t.Errorf("alternator: %s", slow.Alternator.Formula)
	}
}
