package silencer_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/silencer/safety"
)

// lag wraps an element, and those in it.
func lag(e silencer.Element, thickness float64) silencer.Element {
	e.Base().Lagging = silencer.Lagging{Thickness: thickness, Material: "mineral wool"}
	return e
}

// skinOf is the outside of the second element in dry gas, K, with what is said of it.
func skinOf(t *testing.T, e silencer.Element) (row silencer.Row, said []string) {
	t.Helper()
	l := linetest.Between(e)
	f := linetest.Exhaust(0.15, 420)
	m, err := l.March(f, silencer.Options{})
	require.NoError(t, err)
	for _, r := range m.Rows {
		if r.Index == 2 {
			row = r
		}
	}
	for _, x := range safety.Findings(l, safety.Circumstances{Rated: m, Running: m, RatedFeed: f}) {
		said = append(said, x.Code+" "+x.Text)
	}
	return row, said
}

// surfaces joins what is said of hot surfaces that ignite or want a guard.
func surfaces(said []string) (all string) {
	for _, s := range said {
		if len(s) > 8 && s[:8] == "SURFACE-" && s[:13] != "SURFACE-BURNS" {
			all += s + "\n"
		}
	}
	return all
}

// A shell that a jet strikes gets as hot as the pipe before it, nearly; one round a perforated tube does not.
func TestAJetHeatsTheShellItStrikes(t *testing.T) {
	pipe, _ := skinOf(t, &silencer.Pipe{Bore: 0.102, Length: 0.5})
	chamber, _ := skinOf(t, &silencer.Chamber{Bore: 0.3, Rooms: []float64{0.5}, InletBore: 0.102, OutletBore: 0.102})
	round, _ := skinOf(t, &silencer.Perforated{Perforate: perforateOf()})
	assert.Greater(t, chamber.SkinTemperature, pipe.SkinTemperature-30)
	assert.Greater(t, chamber.SkinTemperature, round.SkinTemperature+50)
}

// Lagging stated for a parallel part is that of its elements, unless they have their own.
func TestLaggingOfAParallelPart(t *testing.T) {
	make := func() *silencer.Parallel {
		return &silencer.Parallel{Branches: [][]silencer.Element{tube(0.07, 1), tube(0.07, 1)}}
	}
	whole, _ := skinOf(t, lag(make(), 0.05))
	each := make()
	lag(each.Branches[0][0], 0.05)
	lag(each.Branches[1][0], 0.05)
	parts, _ := skinOf(t, each)
	assert.InDelta(t, parts.SkinTemperature, whole.SkinTemperature, 1e-9)
	assert.InDelta(t, parts.HeatLoss, whole.HeatLoss, 1e-9)
	half := make()
	lag(half.Branches[0][0], 0.05)
	one, said := skinOf(t, half)
	assert.Greater(t, one.SkinTemperature, whole.SkinTemperature+100)
	assert.Contains(t, surfaces(said), "branch 2: pipe 1")
	assert.NotContains(t, surfaces(said), "branch 1: pipe 1")
}
