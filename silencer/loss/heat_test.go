package loss

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hushwake/source/gas"
	"hushwake/source/published/publishedtest"
)

var near = publishedtest.Near

func bare(od, tc, ac float64) float64 {
	q, _ := surfaceHeat(od, tc+273.15, ac+273.15, 0.9, 0)
	return q
}

func TestBareTables(t *testing.T) {
	for i, want := range []float64{230, 728, 1519, 2715, 4456, 6908} {
		near(t, "60.3 mm", bare(.0603, float64(i+1)*100, 20)/want, 1, 0.08)
	}
	for i, want := range []float64{405, 1292, 2726, 4922, 8147, 12713} {
		near(t, "114.3 mm", bare(.1143, float64(i+1)*100, 20)/want, 1, 0.08)
	}
	for i, dt := range []float64{56, 100, 153, 194} {
		near(t, "NB 50", bare(.0603, 15+dt, 15)/[]float64{132, 285, 528, 758}[i], 1, 0.08)
		near(t, "NB 100", bare(.1143, 15+dt, 15)/[]float64{233, 501, 939, 1303}[i], 1, 0.08)
	}
	near(t, "Churchill-Chu", horizontalCylinder(2.63e9*.69, .69), 139.1349, 1e-3)
}

func TestWorkedWalls(t *testing.T) {
	wool, _ := LaggingOf("mineral wool")
	for _, r := range []struct{ bore, od, t, m, lag, eps, q, wall, skin float64 }{
		{.0525, .0603, 500, .0527, 0, .9, 2035, 363, 363},
		{.0525, .0603, 500, .0527, 0, .2, 1140, 424, 424},
		{.0525, .0603, 500, .0527, .025, .9, 331, 478, 106},
		{.0525, .0603, 500, .0527, .050, .9, 216, 485, 75},
		{.0525, .0603, 500, .0527, .050, .2, 213, 485, 98},
		{.0525, .0603, 500, .0527, .075, .9, 173, 488, 63},
		{.102, .1143, 430, .26, 0, .9, 3035, 328, 328},
		{.102, .1143, 430, .26, .025, .9, 415, 416, 99},
		{.102, .1143, 430, .26, .050, .9, 254, 420, 72},
		{.102, .1143, 430, .26, .100, .9, 163, 425, 56},
	} {
		w := Wall{Bore: r.bore, Thickness: (r.od - r.bore) / 2, Lagging: r.lag, Insulation: wool, Emissivity: r.eps}
		s := gas.Gas{AirFuelRatio: 22}.At(r.t+273.15, gas.Atmosphere)
		h := w.HeatFrom(s, r.m/s.Density/(math.Pi/4*r.bore*r.bore), 313.15, 0)
		t.Logf("%v: %.0f W/m wall %.0f skin %.0f h %.0f", r, h.PerMetre, h.WallTemperature-273.15, h.SkinTemperature-273.15, h.InsideCoefficient)
		near(t, "W/m", h.PerMetre/r.q, 1, .08)
		near(t, "wall", h.WallTemperature-273.15, r.wall, 10)
		near(t, "skin", h.SkinTemperature-273.15, r.skin, 10)
	}
}

func BenchmarkHeat(b *testing.B) {
	wool, _ := LaggingOf("mineral wool")
	s := gas.Gas{AirFuelRatio: 22}.At(773, gas.Atmosphere)
	for _, c := range []struct {
		name string
		w    Wall
	}{{"bare", Wall{Bore: .1, Thickness: .003}}, {"lagged", Wall{Bore: .1, Thickness: .003, Lagging: .05, Insulation: wool}}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				c.w.HeatFrom(s, 30, 300, 0)
			}
		})
		b.Run(c.name+" warm", func(b *testing.B) {
			b.ReportAllocs()
			skin := c.w.HeatFrom(s, 30, 300, 0).SkinTemperature + 0.3
			for range b.N {
				c.w.HeatFrom(s, 30, 300, skin)
			}
		})
	}
}

func BenchmarkFriction(b *testing.B) {
	for i := range b.N {
		Friction(4e4+float64(i%100), 1e-3)
	}
}

// What the gas gives the wall, the surface gives the air; more lagging never loses more beyond the
// first centimetre, and hotter turbulent gas never heats less.
func TestWallBalance(t *testing.T) {
	wool, _ := LaggingOf("mineral wool")
	rapid.Check(t, func(t *rapid.T) {
		w := Wall{Bore: rapid.Float64Range(.03, .4).Draw(t, "bore"), Thickness: rapid.Float64Range(.001, .008).Draw(t, "wall"),
			Lagging: rapid.SampledFrom([]float64{0, .01, .05, .1}).Draw(t, "lagging"), Insulation: wool,
			Emissivity: rapid.Float64Range(.05, 1).Draw(t, "emissivity"), Vertical: rapid.SampledFrom([]float64{0, 2}).Draw(t, "height")}
		k, v, air := rapid.Float64Range(300, 950).Draw(t, "K"), rapid.Float64Range(0.01, 80).Draw(t, "v"), rapid.Float64Range(263, 333).Draw(t, "air")
		g := gas.Gas{AirFuelRatio: 25}
		h := w.HeatFrom(g.At(k, gas.Atmosphere), v, air, 0)
		size := w.Bore + 2*(w.Thickness+w.Lagging)
		out, _ := surfaceHeat(size, h.SkinTemperature, air, w.Emissivity, w.Vertical)
		if h.Unsettled > 0 || math.Abs(out-h.PerMetre) > 1e-3*math.Abs(h.PerMetre)+1e-2 {
			t.Fatalf("in %g out %g (%+v)", h.PerMetre, out, h)
		}
		lo, hi := min(k, air)-1e-3, max(k, air)+1e-3
		if h.SkinTemperature < lo || h.SkinTemperature > hi || h.WallTemperature < lo || h.WallTemperature > hi {
			t.Fatalf("temperature outside gas and air: %+v", h)
		}
		if hotter := w.HeatFrom(g.At(k+50, gas.Atmosphere), v, air, 0); v > 15 && hotter.PerMetre < h.PerMetre*0.98 {
			t.Fatalf("hotter gas gives %g instead of %g", hotter.PerMetre, h.PerMetre)
		}
	})
}

// Without a temperature difference nothing flows.
func TestNoDifferenceNoHeat(t *testing.T) {
	h := Wall{Bore: .1, Thickness: .003}.HeatFrom(gas.Gas{}.At(300, gas.Atmosphere), 20, 300, 0)
	near(t, "heat", h.PerMetre, 0, 1e-6)
}

// Lagging saves heat; bright cladding saves a little more and is hotter to touch.
func TestLaggingAndCladding(t *testing.T) {
	wool, _ := LaggingOf("mineral wool")
	s := gas.Gas{AirFuelRatio: 22}.At(773.15, gas.Atmosphere)
	last := math.Inf(1)
	for _, lag := range []float64{0, .01, .025, .05, .075, .1, .15} {
		h := Wall{Bore: .0525, Thickness: .0039, Lagging: lag, Insulation: wool}.HeatFrom(s, 53, 313.15, 0)
		if h.PerMetre >= last {
			t.Errorf("lagging of %g m loses %g W/m, less of it %g", lag, h.PerMetre, last)
		}
		last = h.PerMetre
	}
	dull := Wall{Bore: .0525, Thickness: .0039, Lagging: .05, Insulation: wool, Emissivity: dullCladding}.HeatFrom(s, 53, 313.15, 0)
	bright := Wall{Bore: .0525, Thickness: .0039, Lagging: .05, Insulation: wool, Emissivity: brightCladding}.HeatFrom(s, 53, 313.15, 0)
	if !(bright.PerMetre < dull.PerMetre && bright.SkinTemperature > dull.SkinTemperature+10) {
		t.Errorf("dull %+v bright %+v", dull, bright)
	}
}
