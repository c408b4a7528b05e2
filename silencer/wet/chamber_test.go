package wet

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// numeric integrates the water under the tilted plane over the chamber's floor in strips.
func numeric(c Chamber, heel float64) (v float64) {
	r, slope := c.Bore/2, math.Tan(heel)
	axis := c.InletHeight
	if axis == 0 {
		axis = c.Height
	}
	if !c.InletOnAxis {
		axis -= r * slope
	}
	const n = 4000
	for i := range n {
		x := r * (2*(float64(i)+.5)/n - 1)
		width := 2 * math.Sqrt(r*r-x*x)
		v += width * 2 * r / n * min(max(axis+slope*x, 0), c.Height)
	}
	return v
}

func TestTiltedCylinder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Chamber{Bore: rapid.Float64Range(.1, .6).Draw(t, "bore"), Height: rapid.Float64Range(.1, .8).Draw(t, "height"),
			InletOnAxis: rapid.Bool().Draw(t, "axis")}
		c.InletHeight = c.Height * rapid.Float64Range(0.1, 1).Draw(t, "inlet")
		heel := rapid.Float64Range(0, maxHeel).Draw(t, "heel")
		got, want := c.BelowLip(heel), numeric(c, heel)
		if math.Abs(got-want) > 1e-4*math.Pi/4*c.Bore*c.Bore*c.Height {
			t.Fatalf("formula %g, strips %g", got, want)
		}
		if c.InletOnAxis {
			return
		}
		if more := c.BelowLip(min(maxHeel, heel+.1)); more > got+1e-12 {
			t.Fatalf("more heel holds more: %g, %g", got, more)
		}
	})
}

func TestChamberRule(t *testing.T) {
	c := Chamber{Bore: .3, Height: .4, WaterLevel: .06, DipClearance: .04, RiserBore: .076, RiserRise: 1.2}
	d := c.Drain(.076, 0)
	near(t, "three risers", d.Needed()*1e3, 16.3, .05)
	near(t, "with 6 m of hose", c.Drain(.076, 6).Needed()*1e3, 1.3*(5.444+27.22), .05)
	all, err := c.Findings(d, 0)
	if err != nil {
		t.Fatal(err)
	}
	none(t, "28 L for 16.3", all)
	all, _ = c.Findings(c.Drain(.076, 6), 0)
	wants(t, all, "CHAMBER-FLOODS", Danger, true)
	c.Height = .25
	all, _ = c.Findings(c.Drain(.076, 1), 0) // 17.7 L below the lip, 13.4 L free, 10 L fall back, 16.3 wanted
	none(t, "just enough upright", all)
	all, _ = c.Findings(c.Drain(.076, 1), 12*math.Pi/180)
	wants(t, all, "CHAMBER-SMALL", Warning, false)
	all, _ = c.Findings(c.Drain(.076, 1), 25*math.Pi/180)
	wants(t, all, "CHAMBER-FLOODS", Danger, true)
}

func TestChamberRefuses(t *testing.T) {
	good := Chamber{Bore: .3, Height: .4, WaterLevel: .1}
	if err := good.Check(.3); err != nil {
		t.Error(err)
	}
	for _, c := range []Chamber{{}, {Bore: .3, Height: .4, WaterLevel: .4}, {Bore: .3, Height: .4, InletHeight: .5}, {Bore: .3, Height: .4, DipClearance: .6}, {Bore: math.NaN(), Height: 1}} {
		if c.Check(0) == nil {
			t.Errorf("accepted %+v", c)
		}
	}
	if good.Check(math.Pi/2) == nil || good.Check(-1) == nil {
		t.Error("impossible heel accepted")
	}
	if _, err := (Chamber{}).Findings(DrainBack{}, 0); err == nil {
		t.Error("findings of no chamber")
	}
}

func TestCrankingFills(t *testing.T) {
	c := Chamber{Bore: .3, Height: .4, WaterLevel: .1}
	s, fills := fillTime(c.Free(0), 5e-3/60) // 5 L/min
	near(t, "seconds", s, math.Pi/4*.09*.3/(5e-3/60), 1e-6)
	if !fills {
		t.Error("does not fill")
	}
	wants(t, c.CrankingFindings(5e-3/60, 0), "CRANKING-FILLS", Caution, false)
	wants(t, c.CrankingFindings(30e-3/60, 0), "CRANKING-FILLS", Warning, false)
	none(t, "no pump", c.CrankingFindings(0, 0))
	if _, fills := fillTime(1, math.NaN()); fills {
		t.Error("filled by NaN")
	}
	none(t, "mouth under water", Chamber{Bore: .3, Height: .4, WaterLevel: .1, DipClearance: .05}.LiftFindings())
	wants(t, Chamber{Bore: .3, Height: .4, WaterLevel: .04, DipClearance: .05}.LiftFindings(), "DIP-TUBE-DRY", Caution, false)
}
