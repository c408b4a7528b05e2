package safety_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/silencer/safety"
	"hushwake/source"
	"hushwake/source/said"
)

func find(t *testing.T, l *silencer.Line, f silencer.Feed, change func(*safety.Circumstances)) map[string]safety.Finding {
	t.Helper()
	m, err := l.March(f, silencer.Options{})
	require.NoError(t, err)
	c := safety.Circumstances{Rated: m, Running: m, RatedFeed: f}
	c.Engine.Rated = source.Duty{Power: 75e3, Speed: 2400}
	c.Engine.Stroke = source.FourStroke
	if change != nil {
		change(&c)
	}
	r := map[string]safety.Finding{}
	for _, x := range safety.Findings(l, c) {
		assert.NotEmpty(t, x.Text, x.Code)
		assert.NotEmpty(t, x.Action, x.Code)
		assert.NotEmpty(t, x.Source, x.Code)
		if old, ok := r[x.Code]; !ok || x.Refuse && !old.Refuse {
			r[x.Code] = x
		}
	}
	return r
}

// A trunk of 510 mm clear: 406 mm with 50 mm lagging just goes in with 2 mm a side and is refused, 356 mm
// leaves 27 mm and is cautioned, 300 mm leaves 55 mm and is not.
func TestFit(t *testing.T) {
	for _, c := range []struct {
		outer float64
		code  string
	}{{0.406, safety.CodeDoesNotFit}, {0.356, safety.CodeTight}, {0.300, ""}, {0.450, safety.CodeDoesNotFit}} {
		found := find(t, linetest.DryLine(c.outer, 0.05, 0.51, 0.51, 2.3), linetest.Exhaust(0.12, 450), nil)
		for _, code := range []string{safety.CodeDoesNotFit, safety.CodeTight, safety.CodeTooLong} {
			if code == c.code {
				assert.Contains(t, found, code, "%g", c.outer)
				assert.Equal(t, code == safety.CodeDoesNotFit, found[code].Refuse)
			} else {
				assert.NotContains(t, found, code, "%g", c.outer)
			}
		}
	}
	found := find(t, linetest.DryLine(0.3, 0.05, 0.51, 0.51, 1.4), linetest.Exhaust(0.12, 450), nil)
	assert.True(t, found[safety.CodeTooLong].Refuse)
	found = find(t, linetest.DryLine(0.4, 0), linetest.Exhaust(0.12, 450), func(c *safety.Circumstances) { c.Hatch = []float64{0.75, 0.35} })
	assert.Contains(t, found, safety.CodeHatch)
	found = find(t, linetest.DryLine(0.3, 0.05, 0.51, 0.51), linetest.Exhaust(0.12, 450), func(c *safety.Circumstances) { c.Clearance = 0.1 })
	assert.Contains(t, found, safety.CodeTight)
}

// A stated limit refuses; a figure of common practice never does.
func TestLimits(t *testing.T) {
	l, f := linetest.DryLine(0.3, 0.05), linetest.Exhaust(0.4, 450)
	m, err := l.March(f, silencer.Options{})
	require.NoError(t, err)
	with := func(limit float64) map[string]safety.Finding {
		return find(t, l, f, func(c *safety.Circumstances) { c.Limit = &limit })
	}
	assert.True(t, with(m.BackPressure * 0.99)[safety.CodeOverLimit].Refuse)
	assert.Contains(t, with(m.BackPressure*1.02), "OVER-LIMIT-WHEN-FOULED")
	assert.Contains(t, with(m.BackPressure*1.3), "MARGIN-SMALL")
	assert.NotContains(t, with(m.BackPressure*2), "MARGIN-SMALL")
	none := find(t, l, f, func(c *safety.Circumstances) { c.Engine.Aspiration = source.Turbocharged })
	require.Greater(t, m.BackPressure, 5000.0)
	assert.Equal(t, safety.Caution, none["ABOVE-COMMON-PRACTICE"].Severity)
	for _, x := range none {
		assert.False(t, x.Refuse, x.Code)
	}
}

// 6.8 m of steel pipe at 380 C with one bellows of 20 mm: it grows more than that takes.
func TestGrowthAgainstBellows(t *testing.T) {
	lag := silencer.Common{Lagging: silencer.Lagging{Thickness: 0.05, Material: "mineral wool"}}
	l := &silencer.Line{Elements: []silencer.Element{
		&silencer.Bellows{Bore: 0.128, Length: 0.3, Travel: 0.02},
		&silencer.Pipe{Common: lag, Bore: 0.128, Length: 6.5},
	}, Outlet: silencer.Outlet{Present: true, Bore: 0.128}}
	f := linetest.Exhaust(0.317, 380)
	m, err := l.March(f, silencer.Options{})
	require.NoError(t, err)
	grown := 0.0
	for _, r := range m.Rows {
		grown += r.Growth
	}
	assert.InDelta(t, 0.034, grown, 0.005)
	short, err := (&silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Common: lag, Bore: 0.128, Length: 0.1, Wall: 0.004}}}).March(f, silencer.Options{})
	require.NoError(t, err)
	hot := short.Rows[0] // 0.1 m cools by less than a kelvin
	assert.InEpsilon(t, 13.9e-6*0.1*(hot.WallTemperature-f.Ambient), hot.Growth, 0.01, "mild steel, 13.9e-6/K from memory")
	assert.Contains(t, find(t, l, f, nil), "BELLOWS-SHORT")
	l.Elements[0].(*silencer.Bellows).Travel = 0.06
	found := find(t, l, f, nil)
	assert.NotContains(t, found, "BELLOWS-SHORT")
	assert.NotContains(t, found, "NO-BELLOWS")
	l.Elements = l.Elements[1:]
	assert.Contains(t, find(t, l, f, nil), "NO-BELLOWS")
}

// The four slips with figures are each caught.
func TestTraps(t *testing.T) {
	f := linetest.Exhaust(0.26, 430)
	given := func(loss silencer.Loss) *silencer.Line {
		return &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.128, Length: 1}, &silencer.Given{Bore: 0.128, Loss: &loss}},
			Outlet: silencer.Outlet{Present: true, Bore: 0.128}}
	}
	cold := silencer.Loss{Drop: 1500, MassFlow: 0.26, Temperature: 293.15, Basis: silencer.BasisHot}
	assert.Contains(t, find(t, given(cold), f, nil), "COLD-CURVE-READ-HOT")
	unknown := silencer.Loss{Drop: 2990, MassFlow: 0.26, Temperature: 294.15}
	assert.Contains(t, find(t, given(unknown), f, nil), "QUOTE-BASIS-UNKNOWN")
	density := silencer.Loss{Drop: 1500, MassFlow: 0.26, VolumeFlow: 0.21, Temperature: 703.15, Basis: silencer.BasisHot}
	assert.Contains(t, find(t, given(density), f, nil), "DENSITY-OF-ANOTHER-TEMPERATURE")
	limit := 3 * 249.089 // 3 inHg written as 3 inH2O
	slip := find(t, linetest.DryLine(0.3, 0.05), f, func(c *safety.Circumstances) { c.Limit = &limit })
	assert.Contains(t, slip, "PRESSURE-UNIT")
	blown := find(t, linetest.DryLine(0.3, 0.05), linetest.Exhaust(0.19, 380), func(c *safety.Circumstances) {
		c.Engine.Stroke, c.Engine.Aspiration, c.Engine.Rated.Power = source.TwoStroke, source.Blower, 110e3
	})
	assert.Contains(t, blown, "FLOW-OF-A-FOUR-STROKE")
	unsaid := find(t, linetest.DryLine(0.3, 0.05), linetest.Exhaust(0.478, 380), func(c *safety.Circumstances) {
		c.Engine.Stroke, c.Engine.Aspiration, c.Engine.Rated.Power = source.TwoStroke, 0, 168e3
	})
	assert.NotContains(t, unsaid, "FLOW-UNLIKELY", "a two-stroke that does not say how it breathes is no four-stroke")
	assert.Contains(t, unsaid["ABOVE-COMMON-PRACTICE"].Text, "blower-scavenged")
}

func TestStandingCautions(t *testing.T) {
	f := linetest.Exhaust(0.12, 450)
	near, person := 1.5, 2.0
	found := find(t, linetest.DryLine(0.3, 0.05), f, func(c *safety.Circumstances) {
		c.NearestOpening, c.OpeningName, c.NearestPerson, c.PersonName = &near, "windows", &person, "helm"
		c.SleepsAboard, c.LowLoad = true, true
	})
	for _, code := range []string{"CARBON-MONOXIDE", "CO-NEAR-OPENING", "CO-NEAR-PERSON", "BURNS", "OLD-LAGGING", "SOOT-FIRE", "RAIN",
		"LICENSED-PERSON", "SURFACE-IGNITES", "NO-BELLOWS", "NO-LIMIT-STATED"} {
		assert.Contains(t, found, code)
	}
	assert.Equal(t, safety.Danger, found["CO-NEAR-OPENING"].Severity)
	assert.Equal(t, safety.Danger, found[safety.Monoxide].Severity, "as every answer calls it")
	l := linetest.DryLine(0.3, 0.05)
	l.Elements[0].Base().Lagging = silencer.Lagging{Thickness: 0.03, Material: "closed-cell foam"}
	l.Elements[2].Base().Lagging = silencer.Lagging{Thickness: 0.03, Material: "old board"}
	found = find(t, l, f, nil)
	assert.Contains(t, found, "FOAM-ON-HOT-PIPE")
	assert.Contains(t, found, "ASBESTOS-SUSPECT")
}

func TestDangerComesFirst(t *testing.T) {
	l, f := linetest.DryLine(0.406, 0.05, 0.51, 0.51), linetest.Exhaust(0.12, 450)
	m, err := l.March(f, silencer.Options{})
	require.NoError(t, err)
	list := safety.Findings(l, safety.Circumstances{Rated: m, RatedFeed: f})
	rank := map[string]int{safety.Danger: 0, safety.Warning: 1, safety.Caution: 2, safety.Note: 3}
	require.True(t, list[0].Refuse)
	for i := 1; i < len(list); i++ {
		if list[i-1].Refuse == list[i].Refuse {
			assert.LessOrEqual(t, rank[list[i-1].Severity], rank[list[i].Severity])
		}
	}
}

// Dry gas must not meet a rubber hose; a water-lift needs room for what falls back.
func TestHoseAndWaterLift(t *testing.T) {
	f := linetest.Exhaust(0.0527, 520)
	hot := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.076, Length: 1}, &silencer.Hose{Bore: 0.076, Length: 3}},
		Outlet: silencer.Outlet{Present: true, Bore: 0.076}}
	assert.True(t, find(t, hot, f, nil)["HOSE-TOO-HOT"].Refuse)
	lift := func(bore float64) *silencer.Line {
		return &silencer.Line{Elements: []silencer.Element{
			&silencer.WaterInjection{Pipe: 0.076, Flow: 33.0 / 60000, Temperature: 318.15, HeightOverWater: 0.35, HeightOverWaterOK: true},
			&silencer.Hose{Bore: 0.076, Length: 1, Rise: -0.3},
			&silencer.LiftChamber{Bore: bore, Height: 0.4, WaterLevel: 0.1, DipBore: 0.076, DipClearance: 0.05, RiserBore: 0.076, RiserRise: 1},
			&silencer.Hose{Bore: 0.076, Length: 4, Rise: -0.5}},
			Outlet: silencer.Outlet{Present: true, Bore: 0.076}}
	}
	small := find(t, lift(0.12), f, func(c *safety.Circumstances) { c.Heel = 15 * math.Pi / 180 })
	assert.True(t, small["CHAMBER-FLOODS"].Refuse)
	big := find(t, lift(0.35), f, func(c *safety.Circumstances) { c.Engine.Fuel = source.Petrol })
	assert.NotContains(t, big, "CHAMBER-FLOODS")
	assert.Contains(t, big, "CRANKING-FILLS")
	assert.Contains(t, big, "PETROL-WATER-LIFT")
	dry := lift(0.35)
	dry.Elements = append([]silencer.Element{&silencer.Pipe{Bore: 0.076, Length: 0.5}}, dry.Elements[2])
	assert.True(t, find(t, dry, f, nil)["VESSEL-TOO-HOT"].Refuse)
	assert.NotContains(t, big, "VESSEL-TOO-HOT")
	l := lift(0.35)
	a, err := l.Acoustics(f, silencer.Options{Ceiling: true})
	require.NoError(t, err)
	assert.Greater(t, a.InsertionLoss[2], 3.0)
	m, err := l.March(f, silencer.Options{})
	require.NoError(t, err)
	assert.Greater(t, m.BackPressure, 1900.0)
	assert.Less(t, math.Abs(m.EnergyResidual), 1e-6)
}

// A low injection siphons the sea in, unless a vented loop stands in the raw-water line, wherever it is written.
func TestALoopKeepsTheSeaOut(t *testing.T) {
	low := func() silencer.Element {
		return &silencer.WaterInjection{Flow: 1e-3, Temperature: 308, HeightOverWater: 0.05, HeightOverWaterOK: true}
	}
	loop := func() silencer.Element { return &silencer.AntiSiphon{TopOverWater: 0.5} }
	f := linetest.Exhaust(0.12, 420)
	bare := find(t, linetest.Between(low()), f, nil)
	assert.True(t, bare["INJECTION-SIPHONS"].Refuse)
	for _, l := range []*silencer.Line{linetest.Between(low(), loop()), linetest.Between(loop(), low())} {
		found := find(t, l, f, nil)
		assert.NotContains(t, found, "INJECTION-SIPHONS")
		assert.Equal(t, safety.Note, found["INJECTION-LOW"].Severity)
		assert.Equal(t, "water_injection", found["INJECTION-LOW"].Element[:15])
	}
}

// A wet hose has to fall; what falls before the chamber keeps its water from the engine, and what rises behind it
// drains back into it.
func TestHosesFallAndDrain(t *testing.T) {
	findings := func(before, behind float64) map[string]safety.Finding {
		return find(t, linetest.Between(&silencer.WaterInjection{Flow: 1e-3, Temperature: 308}, &silencer.Hose{Bore: 0.127, Length: 2, Rise: before},
			&silencer.LiftChamber{Bore: 0.35, Height: 0.5, WaterLevel: 0.12, DipBore: 0.127, DipClearance: 0.06, RiserBore: 0.127, RiserRise: 0.3},
			&silencer.Hose{Bore: 0.127, Length: 4, Rise: behind}), linetest.Exhaust(0.12, 420), nil)
	}
	good := findings(-0.4, -0.4)
	for _, code := range []string{"HOSE-FLAT", "CHAMBER-HIGH", "CHAMBER-FLOODS"} {
		assert.NotContains(t, good, code)
	}
	assert.Contains(t, findings(0, -0.4), "HOSE-FLAT")
	assert.Contains(t, said.Plain(findings(0, -0.4)["CHAMBER-HIGH"].Text), "lies 0 mm below the injection")
	assert.Contains(t, findings(-0.4, 0.3)["CHAMBER-FLOODS"].Text, "54.5 L fall back") // 0.3 m of riser and 4 m of hose, 127 mm
}
