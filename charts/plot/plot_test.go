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

// Thinning may drop points but no peak, no dip, no gap and neither end.
func TestThinningKeepsWhatTells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 6000).Draw(t, "n")
		seed := rapid.Float64Range(0.1, 50).Draw(t, "seed")
		f, y := make([]float64, n), make([]*float64, n)
		for i := range f {
			f[i] = 10 + 1.3*float64(i)
			v := math.Sin(float64(i)*seed) * 30
			y[i] = &v
		}
		y[n/2] = nil
		keep := Thinned(f, y)
		last, low, high, gap := -1, math.Inf(1), math.Inf(-1), false
		for _, i := range keep {
			if i <= last {
				t.Fatalf("index %d after %d", i, last)
			}
			last = i
			if y[i] == nil {
				gap = true
				continue
			}
			low, high = math.Min(low, *y[i]), math.Max(high, *y[i])
		}
		var all Extent
		all.Take(y...)
		if keep[0] != 0 || last != n-1 || !gap || low != all.Low || high != all.High {
			t.Fatalf("kept %d of %d: ends %d %d, gap %v, %v..%v of %v..%v", len(keep), n, keep[0], last, gap, low, high, all.Low, all.High)
		}
		if n == 6000 && len(keep) > 3000 {
			t.Fatalf("kept %d", len(keep))
		}
	})
}
