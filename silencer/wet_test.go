package silencer_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/silencer/safety"
)

// The whole wet example of a 33 kW engine: 0.0527 kg/s at 520 C, 1 L/min per kW of water at 45 C, a dry
// elbow of K 0.6, 6 m of hose with local losses of K 3.7 in wet gas, a riser of 1.0 m. Expected 3.79 kPa
// at 76 mm bore: elbow 0.40, hose 1.00, local 0.47, head 1.93 (calculated beforehand, separated-flow
// local losses). Our elbow and the entry, bends and exit are those of the line, so the pieces are compared.
func wetLine(bore float64) *silencer.Line {
	return &silencer.Line{Elements: []silencer.Element{
		&silencer.Elbow{Bore: bore, Angle: math.Pi / 2, Radius: 1.5 * bore},
		&silencer.WaterInjection{Flow: 33.0 / 60000, Temperature: 318.15, HeightOverWater: 0.35, HeightOverWaterOK: true},
		&silencer.Hose{Bore: bore, Length: 6, Rise: -0.3},
		&silencer.Riser{Bore: bore, Rise: 1, Length: 1, TopOverWater: 0.6, TopStated: true},
	}, Outlet: silencer.Outlet{Present: true, Bore: bore}}
}

func TestWholeWetExample(t *testing.T) {
	f := linetest.Exhaust(0.0527, 520)
	f.Ambient = 318.15
	l := wetLine(0.076)
	l.Elements[0] = &silencer.Elbow{Bore: 0.076, Angle: 1e-6}
	m, err := l.March(f, silencer.Options{})
	require.NoError(t, err)
	assert.InDelta(t, 54.4, m.OutletTemperature-273.15, 0.5)
	assert.InDelta(t, 1000, m.Rows[2].PressureLoss, 100, "hose")
	assert.InDelta(t, 1930+170, m.Rows[3].PressureLoss, 150, "riser: head and its own friction")
}

func TestMoreWaterNeverWarmer(t *testing.T) {
	last := math.Inf(1)
	for _, litres := range []float64{5, 10, 20, 40, 80} {
		l := wetLine(0.09)
		l.Elements[1].(*silencer.WaterInjection).Flow = litres / 60000
		m, err := l.March(linetest.Exhaust(0.0527, 520), silencer.Options{})
		require.NoError(t, err)
		assert.LessOrEqual(t, m.OutletTemperature, last)
		last = m.OutletTemperature
	}
}

func TestWetLineFindings(t *testing.T) {
	f := linetest.Exhaust(0.0527, 520)
	l := wetLine(0.076)
	l.Elements[1].(*silencer.WaterInjection).HeightOverWater = 0.1
	m, err := l.March(f, silencer.Options{})
	require.NoError(t, err)
	limit := 3000.0
	c := safety.Circumstances{Rated: m, Running: m, RatedFeed: f, Limit: &limit}
	c.Engine.Rated.Power, c.Engine.Rated.Speed = 33e3, 2600
	codes := map[string]safety.Finding{}
	found := safety.Findings(l, c)
	for _, x := range found {
		codes[x.Code] = x
		assert.NotEmpty(t, x.Text)
		assert.NotEmpty(t, x.Action, x.Code)
		assert.NotEmpty(t, x.Source, x.Code)
	}
	assert.True(t, found[0].Refuse)
	for _, want := range []string{"INJECTION-SIPHONS", "WATER-STOPS", "CARBON-MONOXIDE", "LICENSED-PERSON", "RISER-SPREAD"} {
		assert.Contains(t, codes, want)
	}
}
