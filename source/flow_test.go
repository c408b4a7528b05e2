package source

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Flows by hand, m = P b (1 + AFR).
func TestFlowFromPower(t *testing.T) {
	for _, c := range []struct {
		e    Engine
		want float64
	}{
		{Engine{Stroke: FourStroke, Cylinders: 3, Rated: Duty{8e3, 1500}}, 0.0156},
		{Engine{Stroke: FourStroke, Cylinders: 4, Rated: Duty{33e3, 2600}}, 0.0527},
		{Engine{Stroke: FourStroke, Cylinders: 6, Aspiration: Turbocharged, Rated: Duty{150e3, 2400}}, 0.260},
		{Engine{Stroke: TwoStroke, Cylinders: 6, Aspiration: Blower, Rated: Duty{126e3, 1800}}, 0.359},
	} {
		near(t, "flow", float64(at(t, c.e, c.e.Rated).EngineFlow), c.want, 0.01*c.want)
	}
}

// What is stated is used; what follows from it is derived, and the rest is listed.
func TestStatedFlowIsUsed(t *testing.T) {
	e := turboFour()
	e.Flow, e.Temperature, e.FuelConsumption = 0.25, 690, per(210)
	r := at(t, e, e.Rated)
	near(t, "flow", float64(r.EngineFlow), 0.25, 1e-12)
	near(t, "temperature", r.Temperature, 690, 1e-12)
	near(t, "fuel", float64(r.FuelFlow), 150e3*per(210), 1e-12)
	near(t, "air-fuel ratio", r.AirFuelRatio, 0.25/float64(r.FuelFlow)-1, 1e-9)
	for _, a := range r.Assumptions {
		if strings.Contains(a.Field, "flow") || strings.Contains(a.Field, "temperature") || strings.Contains(a.Field, "consumption") {
			t.Errorf("%s was stated and is listed as assumed", a.Field)
		}
	}
}

func TestEveryDefaultIsListed(t *testing.T) {
	e := Engine{Name: "x", Stroke: FourStroke, Cylinders: 4, Rated: Duty{60e3, 2800}}
	r := at(t, e, e.Rated)
	for _, want := range []string{"fuel_consumption", "exhaust.air_fuel_ratio", "exhaust.flow", "exhaust.temperature", "aspiration", "fuel", "displacement", "firing", "difference between cylinders", "arrangement"} {
		found := false
		for _, a := range r.Assumptions {
			found = found || a.Field == "engines.x."+want
			if a.Value == "" || a.Source == "" || a.PlusMinusDB < 0 {
				t.Errorf("assumption %+v lacks something", a)
			}
		}
		if !found {
			t.Errorf("%s is not listed", want)
		}
	}
}

// Air at part load: with speed for blower and naturally aspirated engines, with boost for turbocharged.
func TestPartLoadFlow(t *testing.T) {
	blower, turbo := twoStroke(), turboFour()
	for _, e := range []Engine{blower, smallSet()} {
		full, half := at(t, e, e.Rated), at(t, e, Duty{e.Rated.Power / 2, e.Rated.Speed})
		near(t, "air at half load", float64(half.EngineFlow-half.FuelFlow), float64(full.EngineFlow-full.FuelFlow), 1e-9)
		slow := at(t, e, Duty{e.Rated.Power / 2, e.Rated.Speed * 0.8})
		near(t, "air with speed", float64(slow.EngineFlow-slow.FuelFlow), 0.8*float64(full.EngineFlow-full.FuelFlow), 1e-9)
	}
	full, half := at(t, turbo, turbo.Rated), at(t, turbo, Duty{turbo.Rated.Power / 2, turbo.Rated.Speed})
	if r := half.EngineFlow / full.EngineFlow; r < 0.55 || r > 0.9 {
		t.Errorf("turbocharged flow at half load is %.2f of full", r)
	}
}

func TestTemperatureBetweenIdleAndFull(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		e, d := drawEngine(rt)
		rated, _ := e.ratedRates()
		u := e.usual()
		got := e.ratesAt(d, rated).temperature
		if m := e.LoadFraction(d); math.Abs(got-(u.idle+(u.full-u.idle)*m)) > 1e-9 {
			rt.Fatalf("%g K at torque %.2f", got, m)
		}
	})
}

func warned(ws []string, word string) bool {
	for _, w := range ws {
		if strings.Contains(w, word) {
			return true
		}
	}
	return false
}

func TestCrossChecks(t *testing.T) {
	agree := turboFour()
	agree.Flow, agree.Temperature, agree.FuelConsumption, agree.AirFuelRatio = 0.26, 703, per(215), 28
	if w := at(t, agree, agree.Rated).Warnings; len(w) != 0 {
		t.Errorf("figures that agree are warned about: %v", w)
	}
	for what, c := range map[string]struct {
		change func(*Engine)
		word   string
	}{
		"flow twice too large":       {func(e *Engine) { e.Flow = 0.55 }, "exhaust flow"},
		"flow a third too small":     {func(e *Engine) { e.Flow = 0.17 }, "exhaust flow"},
		"too cold for the fuel":      {func(e *Engine) { e.Temperature = 423 }, "fuel's heat"},
		"more heat than fuel":        {func(e *Engine) { e.Flow, e.Temperature = 1.2, 1000 }, "exceed the heat of the fuel"},
		"air and flow disagree":      {func(e *Engine) { e.AirFuelRatio = 45 }, "air-fuel ratio"},
		"air unusual, flow unstated": {func(e *Engine) { e.AirFuelRatio, e.Flow = 60, 0 }, "unusual"},
	} {
		e := agree
		c.change(&e)
		if w := at(t, e, e.Rated).Warnings; !warned(w, c.word) {
			t.Errorf("%s: warnings %v", what, w)
		}
	}
}

// The trap: a blower-scavenged two-stroke sized by a four-stroke's flow of 6 kg/kWh.
func TestFourStrokeFlowOnTwoStroke(t *testing.T) {
	e := twoStroke()
	e.Flow = 6 * 110 / 3600.0
	if w := at(t, e, e.Rated).Warnings; !warned(w, "four-stroke") {
		t.Errorf("no warning: %v", w)
	}
	e.Flow, e.AirFuelRatio = 0, 24
	if w := at(t, e, e.Rated).Warnings; !warned(w, "four-stroke") {
		t.Errorf("no warning on the air-fuel ratio: %v", w)
	}
	e.Flow, e.AirFuelRatio = 0.317, 0
	if w := at(t, e, e.Rated).Warnings; len(w) != 0 {
		t.Errorf("a right flow is warned about: %v", w)
	}
}

// Pumping alone costs dp/bmep; residual gas at most doubles it.
func TestCostOfBackPressure(t *testing.T) {
	e := Engine{Stroke: FourStroke, Cylinders: 4, Rated: Duty{60e3, 2600}}
	e.Displacement = e.Rated.Power / (6.9e5 * e.CycleFrequency(e.Rated.Speed))
	for _, dp := range []float64{2e3, 5e3, 10e3} {
		c, err := e.BackPressureCost(e.Rated, dp)
		if err != nil {
			t.Fatal(err)
		}
		if r := c.Power / (dp / 6.9e5); r < 0.7 || r > 2 {
			t.Errorf("%g Pa cost %.3g of the power, %.2f times pumping", dp, c.Power, r)
		}
		if c.Air <= 0 || c.Fuel <= 0 || c.SDPower <= 0 || c.SDAir <= 0 {
			t.Errorf("%g Pa: %+v", dp, c)
		}
	}
	for _, e := range []Engine{twoStroke(), turboFour(), smallSet()} {
		last := Cost{}
		for _, dp := range []float64{0, 3e3, 6e3, 12e3} {
			c, err := e.BackPressureCost(e.Rated, dp)
			if err != nil {
				t.Fatal(err)
			}
			if dp == 0 && (math.Abs(c.Air) > 1e-4 || math.Abs(c.Power) > 1e-4) {
				t.Errorf("%s: no back pressure costs %.2g of air, %.2g of power", e.Name, c.Air, c.Power)
			}
			if dp > 0 && (c.Air <= last.Air || c.Power <= last.Power) {
				t.Errorf("%s: cost does not rise at %g Pa", e.Name, dp)
			}
			last = c
		}
	}
	for _, dp := range []float64{-1, 1e6, math.NaN()} {
		if _, err := e.BackPressureCost(e.Rated, dp); err == nil || !strings.Contains(err.Error(), "hint") {
			t.Errorf("%g Pa: %v", dp, err)
		}
	}
	low := twoStroke()
	for _, m := range []float64{0.01, 0.05, 0.2, 0.6} {
		c, err := low.BackPressureCost(Duty{m * low.Rated.Power, low.Rated.Speed}, 5e3)
		if bad := math.IsNaN(c.Fuel+c.Power) || math.IsInf(c.Fuel+c.Power, 0) || c.Fuel < 0; err == nil && bad {
			t.Errorf("load %g: %+v", m, c)
		}
	}
	if _, err := e.BackPressureCost(Duty{0, 1500}, 1e3); err == nil {
		t.Error("cost at no load was given")
	}
}

// The cylinder's cycle runs for usual engines from rated to a quarter of the speed and to no load.
func TestCylinderModelCoversUsualEngines(t *testing.T) {
	for _, e := range []Engine{twoStroke(), turboFour(), smallSet(),
		{Stroke: FourStroke, Cylinders: 8, Arrangement: Vee, Fuel: Petrol, Rated: Duty{200e3, 4600}},
		{Stroke: TwoStroke, Cylinders: 8, Aspiration: Turbocharged, Rated: Duty{2e6, 900}}} {
		for _, r := range []float64{1, 0.6, 0.25} {
			for _, m := range []float64{1, 0.3, 0} {
				d := Duty{e.Rated.Power * r * r * m, e.Rated.Speed * r}
				x, err := e.QuickAt(d)
				if err != nil {
					t.Fatal(err)
				}
				if warned(x.Warnings, "cylinder model") {
					t.Errorf("%s at %s: %v", e.usual().kind, dutyText(d), x.Warnings)
				}
			}
		}
	}
}
