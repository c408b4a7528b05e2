package safety_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/silencer/safety"
)

// A line with one silencer known by figures, as offered.
func offered(g silencer.Given) *silencer.Line {
	g.Bore, g.Name = 0.102, "s"
	return &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.102, Length: 2}, &g},
		Outlet: silencer.Outlet{Present: true, Bore: 0.102, Pointing: silencer.Direction{0, 0, 1}}}
}

// Where the limit lies between the two readings of a loss, or what is not stated decides, the line is asked about and
// not refused; below the lower answer it is refused, above the higher one nothing is asked.
func TestOpenQuestionsAreNotRefused(t *testing.T) {
	f, claim := linetest.Exhaust(0.2, 430), 25.0
	for name, g := range map[string]silencer.Given{
		"basis":    {Overall: &claim, Loss: &silencer.Loss{Drop: 2000, MassFlow: 0.2, Temperature: 293}},
		"unstated": {Overall: &claim},
	} {
		t.Run(name, func(t *testing.T) {
			l := offered(g)
			m, err := l.March(f, silencer.Options{})
			require.NoError(t, err)
			with := func(limit float64) map[string]safety.Finding {
				return find(t, l, f, func(c *safety.Circumstances) { c.Limit = &limit })
			}
			hangs := 0.9 * m.Rows[1].PressureLoss // of what is not stated
			if name == "basis" {                  // (rho_cold/rho_hot)^2 lies between the two readings
				r := 293.0 / (273.15 + 430)
				hangs = m.Rows[1].PressureLoss * (1 - r*r)
			}
			between := with(m.BackPressure - 0.9*hangs)
			assert.NotContains(t, between, safety.CodeOverLimit)
			assert.True(t, between[safety.CodeAskFirst].Ask)
			assert.False(t, between["LIMIT-UNDECIDED"].Ask, "it is no question")
			assert.True(t, with(m.BackPressure - 1.1*hangs)[safety.CodeOverLimit].Refuse)
			assert.Equal(t, name == "unstated", with(2 * m.BackPressure)[safety.CodeAskFirst].Ask)
		})
	}
}

// A promise under the limit stands against an estimate over it; one over the limit is asked about.
func TestPromises(t *testing.T) {
	claim := 25.0
	l, f := offered(silencer.Given{Overall: &claim, Loss: &silencer.Loss{Drop: 2000, Basis: silencer.BasisHot}}), linetest.Exhaust(0.2, 430)
	m, err := l.March(f, silencer.Options{})
	require.NoError(t, err)
	with := func(limit, promise float64) map[string]safety.Finding {
		return find(t, l, f, func(c *safety.Circumstances) { c.Limit, c.Promised = &limit, &promise })
	}
	p := m.BackPressure
	assert.True(t, with(0.8*p, 0.7*p)[safety.CodeAskFirst].Ask)
	assert.NotContains(t, with(0.8*p, 0.7*p), safety.CodeOverLimit)
	assert.Contains(t, with(0.8*p, 0.7*p), "PROMISE-AND-ESTIMATE-DIFFER")
	assert.True(t, with(0.8*p, 0.9*p)[safety.CodeOverLimit].Refuse)
	assert.True(t, with(0.8*p, 0.9*p)[safety.CodeAskFirst].Ask)
	assert.NotContains(t, with(2*p, 0.9*p), safety.CodeAskFirst)
	assert.NotContains(t, with(2*p, 0.9*p), "PROMISE-AND-ESTIMATE-DIFFER")
}

// A loss that is not stated is that of a small silencer and no free pipe: K = 3 of the velocity head, by hand.
func TestUnstatedLoss(t *testing.T) {
	f := linetest.Exhaust(0.2, 430)
	m, err := offered(silencer.Given{}).March(f, silencer.Options{})
	require.NoError(t, err)
	r := m.Rows[1]
	rho := 353.4 / r.GasTemperature
	v := 0.2 / rho / (3.14159265 / 4 * 0.102 * 0.102)
	assert.InEpsilon(t, 3*rho*v*v/2, r.PressureLoss, 0.04)
}

// A span that is promised parts from the estimate on either side: a line drawn far below it lacks something.
func TestPromiseFarAboveTheEstimate(t *testing.T) {
	claim, limit := 25.0, 1e6
	l, f := offered(silencer.Given{Overall: &claim, Loss: &silencer.Loss{Drop: 2000, Basis: silencer.BasisHot}}), linetest.Exhaust(0.2, 430)
	m, err := l.March(f, silencer.Options{})
	require.NoError(t, err)
	for _, c := range []struct {
		least, most float64 // of the estimate
		parts       bool
	}{{2, 3, true}, {1.2, 2, false}, {0.8, 1.2, false}, {0.5, 0.7, true}, {0, 3, false}} {
		most := c.most * m.BackPressure
		got := find(t, l, f, func(x *safety.Circumstances) {
			x.Limit, x.Promised, x.PromisedLeast = &limit, &most, c.least*m.BackPressure
		})
		if _, parts := got["PROMISE-AND-ESTIMATE-DIFFER"]; parts != c.parts {
			t.Errorf("%g to %g of the estimate: %v", c.least, c.most, parts)
		}
	}
}
