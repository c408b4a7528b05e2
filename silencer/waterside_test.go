package silencer_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/silencer/safety"
)

// saidOf is every code said of an element between two pipes in dry gas of 420 C and 0.1 kg/s, behind cold water.
func saidOf(t *testing.T, e silencer.Element) (codes string) {
	l := linetest.Between(&silencer.WaterInjection{Flow: 2e-4, Temperature: 290}, e)
	f := linetest.Exhaust(0.1, 420)
	m, err := l.March(f, silencer.Options{})
	require.NoError(t, err)
	for _, x := range safety.Findings(l, safety.Circumstances{Rated: m, Running: m, RatedFeed: f}) {
		codes += x.Code + " " + x.Element + "\n"
	}
	return codes
}

// What of an element meets water is what the findings look at, kind by kind; the rest shows nothing.
func TestWaterSides(t *testing.T) {
	top := 0.5
	for want, e := range map[string]silencer.Element{
		"RISER-SPREAD": &silencer.Riser{Bore: 0.1, Rise: 1, Length: 1.2},
		"DIP-TUBE-DRY": &silencer.LiftChamber{Bore: 0.4, Height: 0.5, WaterLevel: 0.2, DipClearance: 0.4, RiserBore: 0.1, RiserRise: 0.5},
		"SEPARATOR":    &silencer.Separator{Bore: 0.12, Height: 0.5, DrainBore: 0.01},
	} {
		e.Base().Name = "under test"
		assert.NotZero(t, e.WaterSide(), want)
		assert.Regexp(t, want+`[A-Z-]* under test`, saidOf(t, e))
	}
	assert.Equal(t, &top, (&silencer.AntiSiphon{TopOverWater: top}).WaterSide().Loop)
	wet := "anti_siphon lift_chamber riser separator"
	for _, x := range examples() {
		if e := x.make(); !strings.Contains(wet, e.Kind()) {
			assert.Zero(t, e.WaterSide(), x.name)
		}
	}
	hot := linetest.Between(&silencer.Separator{Common: silencer.Common{Name: "under test"}, Bore: 0.3, Height: 0.5, DrainBore: 0.05})
	m, err := hot.March(linetest.Exhaust(0.1, 420), silencer.Options{})
	require.NoError(t, err)
	found := safety.Findings(hot, safety.Circumstances{Rated: m, Running: m, RatedFeed: linetest.Exhaust(0.1, 420)})
	assert.Equal(t, "VESSEL-TOO-HOT", found[0].Code, "gas of 420 C meets fibreglass")
	assert.True(t, found[0].Refuse)
}
