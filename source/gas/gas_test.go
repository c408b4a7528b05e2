package gas

import (
	"testing"

	"hushwake/source/published/publishedtest"
)

var near = publishedtest.Near

// The heats of formation (JANAF tables, 4th ed. 1998, J/kmol at 298.15 K) test the remembered NASA
// coefficients from outside.
func TestEnthalpyOfFormation(t *testing.T) {
	want := [speciesCount]float64{0, 0, -393.51e6, -241.826e6, 0}
	for i := range pure {
		near(t, pure[i].name, pure[i].enthalpy(298.15), want[i], 0.15e6)
	}
}

// Both ranges must meet at 1000 K in heat capacity and enthalpy.
func TestPolynomialsMeet(t *testing.T) {
	for i := range pure {
		s := &pure[i]
		near(t, s.name+" heat", s.heat(1000.001)/s.heat(1000), 1, 1e-3)
		near(t, s.name+" enthalpy", s.enthalpy(1000.001), s.enthalpy(1000), 1e5)
	}
}

func TestTable(t *testing.T) {
	for _, r := range [][8]float64{
		{100, .947, 1056, 1.373, 383.2, 2.06, .0315, .69}, {200, .747, 1079, 1.362, 429.8, 2.47, .0385, .69},
		{300, .617, 1104, 1.351, 471.1, 2.84, .0453, .69}, {400, .525, 1131, 1.339, 508.4, 3.19, .0520, .69},
		{500, .457, 1161, 1.328, 542.5, 3.51, .0587, .69}, {600, .405, 1190, 1.317, 574.2, 3.82, .0654, .69},
	} {
		s := Gas{AirFuelRatio: 22}.At(r[0]+ZeroC, Atmosphere)
		near(t, "density", s.Density/r[1], 1, 0.02)
		near(t, "cp", s.Cp/r[2], 1, 0.02)
		near(t, "gamma", s.Gamma/r[3], 1, 0.02)
		near(t, "sound", s.SoundSpeed/r[4], 1, 0.02)
		near(t, "viscosity", s.Viscosity*1e5/r[5], 1, 0.02)
		near(t, "conductivity", s.Conductivity/r[6], 1, 0.02)
		near(t, "Prandtl", s.Prandtl()/r[7], 1, 0.02)
		t.Logf("%.4g %+v", r, s)
	}
}

func TestInjectGrid(t *testing.T) {
	ratios := []float64{.03, .05, .10, .20, .5, 1, 2, 5, 10, 20}
	rows := map[float64][]float64{
		300: {224, 177, 70, 61, 60, 59, 55, 50, 46, 43},
		400: {321, 272, 160, 66, 65, 63, 60, 53, 48, 45},
		500: {418, 367, 250, 69, 68, 67, 64, 57, 50, 46},
		600: {516, 463, 341, 137, 71, 70, 67, 60, 53, 47},
	}
	for hot, row := range rows {
		for i, want := range row {
			out, err := Inject(Injection{Gas: Gas{AirFuelRatio: 24}, GasFlow: 1, GasTemperature: hot + ZeroC, Pressure: Atmosphere,
				WaterFlow: ratios[i], WaterTemperature: 40 + ZeroC})
			if err != nil {
				t.Fatal(err)
			}
			near(t, "outlet", out.Temperature-ZeroC, want, 1)
		}
	}
}

func TestSaturation(t *testing.T) {
	near(t, "25 C", saturationPressure(298.15), 3169.8, 0.5)
	near(t, "60 C", saturationPressure(333.15), 19947, 2)
	near(t, "100 C", saturationPressure(373.15), 101418, 10)
}

func BenchmarkAt(b *testing.B) {
	g := Gas{AirFuelRatio: 25}
	var s State
	b.ReportAllocs()
	for i := range b.N {
		s = g.At(400+float64(i%300), Atmosphere)
	}
	_ = s
}
