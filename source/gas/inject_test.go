package gas

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func drawInjection(t *rapid.T) Injection {
	return Injection{
		Gas:              Gas{AirFuelRatio: rapid.Float64Range(15, 60).Draw(t, "ratio")},
		GasFlow:          rapid.Float64Range(0.005, 2).Draw(t, "gas flow"),
		GasTemperature:   rapid.Float64Range(470, 1000).Draw(t, "gas K"),
		Pressure:         rapid.Float64Range(95e3, 130e3).Draw(t, "pressure"),
		WaterTemperature: rapid.Float64Range(273.15, 318).Draw(t, "water K"),
		Fresh:            rapid.Bool().Draw(t, "fresh"),
	}
}

// More water, cooler than the outlet, never makes the outlet warmer; the balance closes.
func TestMoreWaterNeverWarmer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawInjection(t)
		in.WaterFlow = in.GasFlow * rapid.Float64Range(1e-4, 20).Draw(t, "water")
		less, err := Inject(in)
		if err != nil {
			t.Fatal(err)
		}
		in.WaterFlow += in.GasFlow * rapid.Float64Range(0, 5).Draw(t, "more")
		more, err := Inject(in)
		if err != nil {
			t.Fatal(err)
		}
		if more.Temperature > less.Temperature+1e-7 {
			t.Fatalf("outlet rose from %.6f to %.6f K", less.Temperature, more.Temperature)
		}
		if math.Abs(more.Imbalance) > 1e-6*more.HeatGiven {
			t.Fatalf("imbalance %g W of %g W", more.Imbalance, more.HeatGiven)
		}
	})
}

// An independent closing of the energy: enthalpies by the public functions before and after.
func TestEnergyCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawInjection(t)
		in.WaterFlow = in.GasFlow * rapid.Float64Range(0.01, 20).Draw(t, "water")
		out, err := Inject(in)
		if err != nil {
			t.Fatal(err)
		}
		heat := 3990.0
		if in.Fresh {
			heat = 4186
		}
		given := in.GasFlow * (in.Gas.Enthalpy(in.GasTemperature) - in.Gas.Enthalpy(out.Temperature))
		steam := 2500.9e3 + 1860*(out.Temperature-273.15) - 4186*(in.WaterTemperature-273.15)
		taken := out.Evaporated*steam + out.WaterFlow*heat*(out.Temperature-in.WaterTemperature)
		if math.Abs(given-taken) > 1e-6*given {
			t.Fatalf("given %.9g W, taken %.9g W", given, taken)
		}
		mass := out.GasFlow + out.WaterFlow - in.GasFlow - in.WaterFlow
		if math.Abs(mass) > 1e-9*(in.GasFlow+in.WaterFlow) {
			t.Fatalf("mass lost: %g kg/s", mass)
		}
	})
}

// The moist gas handed on has the density of the balance, and a saturated one its dew point at the
// outlet (lowered by the salt).
func TestMoistGasCarriesOn(t *testing.T) {
	out, err := Inject(Injection{Gas: Gas{AirFuelRatio: 22}, GasFlow: .0527, GasTemperature: 793.15, Pressure: Atmosphere, WaterFlow: .5638, WaterTemperature: 318.15})
	if err != nil {
		t.Fatal(err)
	}
	s := out.Gas.At(out.Temperature, Atmosphere)
	near(t, "density", s.Density/out.Density, 1, 1e-9)
	dew, err := out.Gas.DewPoint(Atmosphere)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "dew point", dew, out.Temperature, 0.5)
	if !out.Saturated || dew > out.Temperature {
		t.Errorf("saturated %v, dew point %.2f K at %.2f K", out.Saturated, dew, out.Temperature)
	}
}

// Cold water dries the gas: vapour of combustion condenses and the gas handed on has less of it.
func TestCondensation(t *testing.T) {
	out, err := Inject(Injection{Gas: Gas{AirFuelRatio: 20}, GasFlow: 1, GasTemperature: 650, Pressure: Atmosphere, WaterFlow: 30, WaterTemperature: 280})
	if err != nil {
		t.Fatal(err)
	}
	if out.Evaporated >= 0 || out.Gas.Vapour >= 0 {
		t.Errorf("nothing condensed: %+v", out)
	}
	if err := out.Gas.Check(out.Temperature, Atmosphere); err != nil {
		t.Error(err)
	}
	near(t, "density", out.Gas.At(out.Temperature, Atmosphere).Density/out.Density, 1, 1e-9)
}

func TestNoWaterNoChange(t *testing.T) {
	out, err := Inject(Injection{Gas: Gas{AirFuelRatio: 22}, GasFlow: 1, GasTemperature: 700, Pressure: Atmosphere, WaterTemperature: 300})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "temperature", out.Temperature, 700, 0)
	near(t, "evaporated", out.Evaporated, 0, 0)
}

func TestInjectRefuses(t *testing.T) {
	good := Injection{Gas: Gas{AirFuelRatio: 22}, GasFlow: 1, GasTemperature: 700, Pressure: Atmosphere, WaterFlow: 1, WaterTemperature: 300}
	for name, spoil := range map[string]func(*Injection){
		"no gas":         func(i *Injection) { i.GasFlow = 0 },
		"negative water": func(i *Injection) { i.WaterFlow = -1 },
		"NaN water":      func(i *Injection) { i.WaterFlow = math.NaN() },
		"boiling water":  func(i *Injection) { i.WaterTemperature = 400 },
		"vacuum":         func(i *Injection) { i.Pressure = 100 },
		"stated medium":  func(i *Injection) { i.Gas = Gas{Kind: Stated, Density: 1.2, SoundSpeed: 340} },
		"rich":           func(i *Injection) { i.Gas.AirFuelRatio = 10 },
		"furnace":        func(i *Injection) { i.GasTemperature = 3000 },
	} {
		in := good
		spoil(&in)
		if _, err := Inject(in); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
