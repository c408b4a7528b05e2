package loss

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hushwake/source/gas"
)

// pressure is the loss of a plain pipe with a bend and an exit at a mass flow.
func pressure(m, bore, length, roughness, temperature float64, method Method) float64 {
	s := gas.Gas{AirFuelRatio: 25}.At(temperature, gas.Atmosphere)
	v := m / s.Density / (math.Pi / 4 * bore * bore)
	p := Pipe{Bore: bore, Length: length, Roughness: roughness, Method: method}
	return p.Loss(s.Density, s.Viscosity, v).Drop(s.Density, v) + Exit().Drop(s.Density, v) +
		Bend(1.5, math.Pi/2, BendFriction).Drop(s.Density, v)
}

// More flow, a longer pipe, a smaller bore and hotter gas never lower the back pressure, laminar,
// blended and turbulent alike.
func TestBackPressureIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := math.Exp(rapid.Float64Range(math.Log(1e-4), math.Log(3)).Draw(t, "log flow"))
		bore := rapid.Float64Range(0.03, 0.4).Draw(t, "bore")
		length := rapid.Float64Range(0, 20).Draw(t, "length")
		e := rapid.Float64Range(0, 5e-4).Draw(t, "roughness")
		k := rapid.Float64Range(300, 900).Draw(t, "K")
		more := rapid.Float64Range(1, 1.5).Draw(t, "more")
		method := Method(rapid.IntRange(0, 1).Draw(t, "method"))
		base := pressure(m, bore, length, e, k, method)
		for name, p := range map[string]float64{
			"flow":   pressure(m*more, bore, length, e, k, method),
			"length": pressure(m, bore, length*more, e, k, method),
			"bore":   pressure(m, bore/more, length, e, k, method),
			"hotter": pressure(m, bore, length, e, k*more, method),
		} {
			if p < base*(1-1e-12) {
				t.Fatalf("%s: %.9g Pa fell to %.9g Pa", name, base, p)
			}
		}
	})
}

// The solution of the march solves the equation.
func TestColebrook(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		re := math.Exp(rapid.Float64Range(math.Log(4000), math.Log(1e8)).Draw(t, "log Re"))
		e := rapid.Float64Range(0, 0.05).Draw(t, "e/D")
		x := 1 / math.Sqrt(Friction(re, e))
		if miss := x + 2*math.Log10(e/3.7+2.51*x/re); math.Abs(miss) > 1e-7 {
			t.Fatalf("equation missed by %g", miss)
		}
	})
}

func TestFrictionJoins(t *testing.T) {
	near(t, "laminar end", Friction(2300.001, 1e-3), Friction(2300, 1e-3), 1e-6)
	near(t, "turbulent end", Friction(3999.999, 1e-3), Friction(4000, 1e-3), 1e-6)
	near(t, "no flow", Friction(0, 1e-3), 0, 0)
	for _, c := range [][2]float64{{math.NaN(), 0}, {-1, 0}, {1e9, 0}, {1e5, 0.2}, {1e5, -1}} {
		if checkFriction(c[0], c[1]) == nil {
			t.Errorf("accepted %v", c)
		}
	}
	near(t, "zero length", Pipe{Bore: 0.1, Roughness: 1e-4}.Loss(0.5, 3e-5, 30).K, 0, 0)
}

func TestBendLimits(t *testing.T) {
	near(t, "no turn", Bend(1.5, 0, 0.02).K, 0, 0)
	near(t, "mitre", Bend(0, math.Pi/2, 0.02).K, mitreBend(math.Pi/2).K, 0)
	if Bend(0.3, math.Pi/2, 0.02).Warning == "" || Bend(20, math.Pi/2, 0.02).Warning == "" || mitreBend(3).Warning == "" {
		t.Error("a bend outside its formula has no warning")
	}
	if b := Bend(0.3, math.Pi/2, 0.02).K; b > mitreBend(math.Pi/2).K {
		t.Errorf("a tight bend loses %.2f, more than a mitre", b)
	}
}

// Area ratios given upside down mean the same, and no ratio gives a negative loss.
func TestStepsAreSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.Float64Range(0.001, 1).Draw(t, "s")
		for _, f := range []func(float64) Coefficient{Expansion, contractionLoss} {
			c := f(s)
			if c.K < 0 || c.K > 1 || math.Abs(c.K-f(1/s).K) > 1e-9 {
				t.Fatalf("K %.4f and %.4f", c.K, f(1/s).K)
			}
		}
	})
	near(t, "no step, expansion", Expansion(1).K, 0, 0)
	near(t, "no step, contraction", contractionLoss(1).K, 0, 0)
}

// The unverified cross-flow coefficients against two orifices in a row (jet coefficient 0.62, textbook)
// within a factor of two around equal areas, and falling with more holes throughout.
func TestCrossflowIsPlausible(t *testing.T) {
	two := 2 / (0.62 * 0.62)
	if k := Crossflow(1).K; k < two/2 || k > two*2 {
		t.Errorf("K %.2f, two orifices %.2f", k, two)
	}
	last := math.Inf(1)
	for x := 0.05; x < 4; x += 0.01 {
		c := Crossflow(x)
		if c.K > last {
			t.Fatalf("K rises at %.2f", x)
		}
		if (x < 0.6 || x > 2) != (c.Warning != "") {
			t.Fatalf("warning %q at %.3f", c.Warning, x)
		}
		last = c.K
	}
	if Crossflow(0).Warning == "" {
		t.Error("no holes, no warning")
	}
}

// Every figure says where it comes from and how far it may be believed.
func TestEveryCoefficientHasItsOrigin(t *testing.T) {
	p := Pipe{Bore: 0.1, Length: 1, Roughness: 1e-4}
	for i, c := range []Coefficient{p.Loss(0.5, 3e-5, 30),
		Bend(1.5, 1, 0.02), mitreBend(1), Expansion(0.3), contractionLoss(0.3), projectingEntry(), Exit(), reversalLoss(), Crossflow(1),
		HandbookBend(1), Chamber(0.1, 0.1, true, true).Out, Chamber(0.1, 0.1, false, false).In} {
		if c.Formula == "" || c.Source == "" || c.Mark == "" || !(c.SD > 0 && c.SD < 1) || c.Warning != "" || !(c.K > 0) {
			t.Errorf("%d: %+v", i, c)
		}
	}
}
