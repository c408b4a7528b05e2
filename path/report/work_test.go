package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/study/readings"
	"hushwake/source/said"
)

func TestARowSaysWhatTheDocumentSays(t *testing.T) {
	for _, name := range []string{"dry-stack", "generator-box", "three-quotes"} {
		w := comparison(t, name)
		doc := w.Document().(Compare)
		taken := 0
		for i, l := range doc.Layouts {
			r := w.Row(i)
			assert.Equal(t, l.Name, r.Name)
			assert.Equal(t, l.Verdict, r.Verdict)
			assert.Equal(t, l.Fits, r.Fits)
			assert.Equal(t, form.List(l.Questions), form.List(r.Questions))
			if r.Taken {
				taken++
				require.NotNil(t, doc.Advice.Layout)
				assert.Equal(t, *doc.Advice.Layout, l.Name)
			}
			if r.PressureShare != nil {
				worst := 0.0
				for _, x := range l.Exhausts {
					if x.Limit != nil {
						worst = max(worst, *x.RatedBackPressure / *x.Limit)
					}
				}
				assert.InDelta(t, worst, *r.PressureShare, 1e-4, l.Name)
			}
			sum := 0.0
			for k := range w.Predictions[i].Exhausts {
				x := &w.Predictions[i].Exhausts[k]
				e, ok := w.Predictions[i].Layout.Engine(x.Engine)
				require.True(t, ok)
				for _, watts := range path.HeatTo(e, x) {
					sum += watts
				}
			}
			require.NotNil(t, r.Heat)
			assert.InDelta(t, sum, *r.Heat, 1e-3)
		}
		assert.LessOrEqual(t, taken, 1)
	}
}

func TestGainsAreThoseOfTheAdvice(t *testing.T) {
	w := comparison(t, "dry-stack")
	_, gains := w.Gains(form.Units{})
	helps := w.Document().(Compare).Advice.Helps
	require.NotEmpty(t, gains)
	for k, g := range gains {
		assert.Equal(t, said.Plain(helps[k].Change), g.Change)
		for j, l := range w.Boat.Listeners {
			assert.Equal(t, *helps[k].DB[l.Name], *form.Num(g.DB[j]))
		}
		if g.Sealed != "" {
			assert.Contains(t, g.Change, "the gaps of "+g.Sealed+" sealed")
		}
	}
}

// What cooks on holes that nobody has stated is neither ok nor to be mended first.
func TestABoxOfUnknownHolesIsNotJudged(t *testing.T) {
	swap := []string{"limit: 45 dBA", "limit: 90 dBA", "limit: 60 dBA", "limit: 90 dBA", "openings: [{role: inlet, area: 600 cm2}, {role: outlet, area: 600 cm2}]", "openings: unknown"}
	w, d := governed(t, first(demoWith(t, "generator-box", swap...), "two bare holes"), readings.Options{})
	assert.False(t, w.advise().Mend)
	assert.Equal(t, VerdictOK, d.Layouts[0].Verdict)
	assert.Contains(t, Brief{Comparison: w}.heading(0), "air of set unknown")
	assert.NotContains(t, Brief{Comparison: w}.heading(0), ", ok")
}

// A layout whose engine cooks in its box is never called ok, also where nothing else is out.
func TestACookedBoxIsNotOK(t *testing.T) {
	w, d := governed(t, first(demoWith(t, "generator-box", "limit: 45 dBA", "limit: 90 dBA", "limit: 60 dBA", "limit: 90 dBA"), "two bare holes", "tight box, water-cooled"), readings.Options{})
	for i, l := range d.Layouts {
		cooks := l.Name == "two bare holes"
		assert.Equal(t, map[bool]string{true: VerdictMend, false: VerdictOK}[cooks], l.Verdict)
		assert.Equal(t, l.Verdict, w.Row(i).Verdict)
		assert.Equal(t, cooks, strings.Contains(Brief{Comparison: w}.heading(i), "set COOKED"))
		assert.Equal(t, !cooks, strings.Contains(Brief{Comparison: w}.heading(i), ", ok"))
	}
}
