package plot

import (
	"math"
	"testing"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Pins of booms never cover one another.
func TestPinsKeepApart(t *testing.T) {
	p := &Pinboard{X: Scale{Low: 0, High: 100, Step: 10}, Y: Scale{Low: 0, High: 100, Step: 10}}
	assert.True(t, p.Free(50, 50))
	assert.False(t, p.Free(55, 45))
	assert.True(t, p.Free(70, 50))
	assert.True(t, p.Free(50, 70))
}

func TestScalesHoldTheirData(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(-1e6, 1e6).Draw(t, "a"), rapid.Float64Range(-1e6, 1e6).Draw(t, "b")
		var e Extent
		e.Take(&a, nil, &b)
		for name, s := range map[string]Scale{"level": e.Level(1), "round": e.Round(6), "from zero": e.FromZero()} {
			slack := 1e-9 * math.Max(1, math.Max(math.Abs(a), math.Abs(b)))
			if s.Low > e.Low+slack || s.High < e.High-slack || s.High <= s.Low || s.Step <= 0 {
				t.Fatalf("%s: %+v does not hold %+v", name, s, e)
			}
		}
		if z := e.FromZero(); z.Low > 0 || z.High < 0 {
			t.Fatalf("%+v leaves 0 out", z)
		}
	})
}

// A number that JSON cannot hold is an error and no blank chart.
func TestMarshalRefusesNaN(t *testing.T) {
	p := New("dB", ValueX("x", Scale{Low: 0, High: 1, Step: 1}), ValueY("y", Scale{Low: 0, High: 1, Step: 1}))
	p.Add(echarts.SingleSeries{Name: "one", Data: []any{OrGap(nil), 2.0}})
	b, err := p.Marshal("a")
	assert.NoError(t, err)
	assert.Contains(t, string(b), `["-",2]`)
	p.Add(echarts.SingleSeries{Name: "two", Data: []any{math.NaN()}})
	_, err = p.Marshal("a")
	assert.ErrorContains(t, err, `chart "a"`)
}

// The first hundred series differ in colour, shape or dash.
func TestLooksDiffer(t *testing.T) {
	seen := map[string]bool{}
	for i := range 100 {
		l := LookOf(i)
		seen[l.Paint()+l.Symbol()+l.Line()] = true
	}
	assert.Len(t, seen, 100)
	assert.Empty(t, LookOf(3).Point("x").Dash)
}
