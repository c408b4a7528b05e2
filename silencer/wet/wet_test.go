package wet

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hushwake/source/gas"
	"hushwake/source/published/publishedtest"
)

var near = publishedtest.Near

// has finds a code among findings.
func has(all []Finding, code string) *Finding {
	for i := range all {
		if all[i].Code == code {
			return &all[i]
		}
	}
	return nil
}

// wants checks that a code is there with its severity and refusal, and that every finding is whole.
func wants(t *testing.T, all []Finding, code, severity string, refuse bool) {
	t.Helper()
	f := has(all, code)
	if f == nil || f.Severity != severity || f.Refuse != refuse {
		t.Errorf("want %s %s refuse=%v, got %+v", code, severity, refuse, all)
	}
	for _, f := range all {
		if f.Text == "" || f.Action == "" || f.Source == "" {
			t.Errorf("half a finding: %+v", f)
		}
	}
}

func none(t *testing.T, what string, all []Finding) {
	t.Helper()
	if len(all) > 0 {
		t.Errorf("%s: %+v", what, all)
	}
}

// Worked values in the documentation of a general fluid library; Turner's field form 1.593 in SI.
func TestLibraryValues(t *testing.T) {
	f := Flow{Gas: .4, Water: .6, GasDensity: 2.5, WaterDensity: 800, GasViscosity: 1e-5, WaterViscous: 1e-3, Tension: .066, Bore: .3}
	near(t, "Nicklin", f.DriftFlux(), .67988266, 1e-8)
	f = Flow{Gas: .06, Water: .54, GasDensity: 2.67, WaterDensity: 915, GasViscosity: 14e-6, WaterViscous: 180e-6, Tension: .0487, Bore: .05}
	p, _ := f.LockhartMartinelli()
	near(t, "Lockhart-Martinelli", p, 716.4696, 0.001)
	f = NewFlow(1, 1, 1.05, 2e-5, .05)
	near(t, "Turner", f.CarryVelocity(), 15.26, .01)
	near(t, "slug", waterHead(1015, 1.067), 10620, 5)
}

// A 33 kW engine's whole wet run at 76 mm: head 1.93 kPa of a 1 m riser, hose friction 1.00 kPa over 6 m,
// local losses 0.47 kPa, dry elbow 0.40 kPa (independent program).
func TestWholeWetRun(t *testing.T) {
	f := NewFlow(.0552, .55825, 1.05, 1.95e-5, .076)
	h, err := Riser{Flow: f, Rise: 1}.Head()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "static", h.Static, 1930, 20)
	near(t, "slug", h.Slug, 9954, 5)
	per, _ := f.LockhartMartinelli()
	near(t, "hose", 6*per, 1000, 30)
	near(t, "local", f.Local(3.7), 470, 10)
	if h.Regime != churnsWater || !(h.Low < h.Mean && h.Mean < h.High && h.High < h.Slug) {
		t.Errorf("%+v", h)
	}
}

// Void fractions lie between 0 and 1, no model is NaN, and the head lies between gas and water.
func TestVoidsAreSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := NewFlow(rapid.Float64Range(0, 1).Draw(t, "gas"), rapid.Float64Range(1e-6, 10).Draw(t, "water"),
			rapid.Float64Range(.4, 2).Draw(t, "density"), 2e-5, rapid.Float64Range(.03, .3).Draw(t, "bore"))
		p, lm := f.LockhartMartinelli()
		for _, a := range []float64{f.Homogeneous(), f.DriftFlux(), f.Rouhani(), lm} {
			if !(a >= 0 && a <= 1) {
				t.Fatalf("void fraction %g", a)
			}
		}
		if !(p >= 0) || math.IsInf(p, 0) || !(f.Local(1) >= 0) || math.IsInf(f.Local(1), 0) {
			t.Fatalf("friction %g local %g", p, f.Local(1))
		}
		h, err := Riser{Flow: f, Rise: 1}.Head()
		if err != nil || h.Static > h.Slug*1.0001 || h.Low > h.High {
			t.Fatalf("%v %+v", err, h)
		}
	})
}

// Without water the wet formulas are those of dry gas.
func TestDryLimit(t *testing.T) {
	f := NewFlow(.05, 0, .6, 3e-5, .08)
	v := f.GasVelocity()
	near(t, "void", f.Homogeneous(), 1, 0)
	near(t, "local", f.Local(2), 2*.6*v*v/2, 1e-9)
	if f.Regime() != dryPipe {
		t.Error("not dry")
	}
	// A trace of water changes the friction little.
	wet := f
	wet.Water = 1e-9
	a, _ := f.LockhartMartinelli()
	b, _ := wet.LockhartMartinelli()
	near(t, "friction", b/a, 1, 0.02)
}

func TestFlowRefuses(t *testing.T) {
	for _, f := range []Flow{{}, NewFlow(-1, 1, 1, 2e-5, .1), NewFlow(1, 1, 0, 2e-5, .1), NewFlow(1, 1, 2000, 2e-5, .1), NewFlow(1, 1, 1, 2e-5, 0), NewFlow(math.NaN(), 1, 1, 2e-5, .1)} {
		if f.Check() == nil {
			t.Errorf("accepted %+v", f)
		}
		if _, err := (Riser{Flow: f, Rise: 1}).Head(); err == nil {
			t.Errorf("head of %+v", f)
		}
	}
	if _, err := (Riser{Flow: NewFlow(1, 1, 1, 2e-5, .1), Rise: -1}).Head(); err == nil {
		t.Error("a riser that falls has a head")
	}
}

func TestRiserFindings(t *testing.T) {
	r := Riser{Flow: NewFlow(.0552, .55825, 1.05, 1.95e-5, .076), Rise: 1.2}
	h, _ := r.Head()
	all := r.Findings(h, 8500)
	wants(t, all, "RISER-TALL", Warning, false)
	wants(t, all, "RISER-SURGES", Note, false)
	wants(t, all, "RISER-SLUG", Warning, false)
	r = Riser{Flow: NewFlow(.0552, .55825, 1.05, 1.95e-5, .05), Rise: .4}
	h, _ = r.Head()
	none(t, "a short riser that carries", r.Findings(h, 8500))
}

func TestOutletUnderWater(t *testing.T) {
	near(t, "100 mm", SubmergedOutlet(.1), 1000, 10)
	near(t, "above", SubmergedOutlet(-.1), 0, 0)
	wants(t, OutletFindings(.1), "OUTLET-SUBMERGED", Caution, false)
	none(t, "above water", OutletFindings(0))
}

func TestInjectionFindings(t *testing.T) {
	in := gas.Injection{Gas: gas.Gas{AirFuelRatio: 22}, GasFlow: .0527, GasTemperature: 793, Pressure: gas.Atmosphere, WaterTemperature: 318}
	for _, c := range []struct {
		ratio          float64
		code, severity string
	}{{.05, "WATER-BOILS-AWAY", Danger}, {.6, "WATER-SCARCE", Warning}, {10, "", ""}} {
		in.WaterFlow = c.ratio * in.GasFlow
		_, all, err := Inject(in)
		if err != nil {
			t.Fatal(err)
		}
		if c.code == "" {
			none(t, "plenty of water", all)
			continue
		}
		wants(t, all, c.code, c.severity, false)
	}
	in.GasFlow = -1
	if _, _, err := Inject(in); err == nil {
		t.Error("negative gas flow")
	}
}

// Friction made ready once is that of a flow of each density; a phase alone has its own, and no gas leaves no void.
func TestFrictionAtAnyDensity(t *testing.T) {
	for _, f := range []Flow{NewFlow(.0552, .558, 1.05, 1.95e-5, .076), NewFlow(.001, .01, 1, 2e-5, .1), NewFlow(.05, 0, 1, 2e-5, .076), NewFlow(0, .5, 1, 2e-5, .05)} {
		ready := f.Friction()
		for _, density := range []float64{0.4, 1.05, 3} {
			g := f
			g.GasDensity = density
			want, wantVoid := g.LockhartMartinelli()
			got, void := ready.At(density)
			near(t, "friction", got, want, 1e-12*want)
			near(t, "void", void, wantVoid, 1e-12)
		}
	}
	_, void := NewFlow(0, .5, 1, 2e-5, .05).Friction().At(1)
	near(t, "void without gas", void, 0, 0)
	light, _ := NewFlow(.05, .5, 1, 2e-5, .076).Friction().At(0.5)
	dense, _ := NewFlow(.05, .5, 1, 2e-5, .076).Friction().At(2)
	if light <= dense {
		t.Errorf("light gas runs faster: %g Pa/m, dense %g", light, dense)
	}
}
