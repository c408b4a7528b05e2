package charts

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hushwake/path/report"
)

// NIST SP 811 (2008), appendix B.8: 1 inH2O (conventional) = 249.0889 Pa, 1 ft = 0.3048 m,
// 1 lb = 0.45359237 kg, 1 hp (550 ft·lbf/s) = 745.6999 W, 1 ft³/min = 4.719474e-4 m³/s.
func TestImperialUnits(t *testing.T) {
	u := unitsOf(true)
	for _, c := range []struct {
		q    quantity
		v    float64
		want string
	}{
		{u.pressure, 2.490889, "10.0\u00a0in\u00a0H₂O"}, {u.temperature, 100, "212\u00a0°F"}, {u.rise, 10, "18\u00a0°F"},
		{u.length, 3.048, "10.0\u00a0ft"}, {u.mass, 45.359237, "100\u00a0lb"}, {u.power, 74.56999, "100\u00a0hp"},
		{u.flow, 0.4719474, "1\u202f000\u00a0cfm"}, {u.small, 63.5, "2 1/2\u00a0in"}, {u.area, 0.00064516, "1\u00a0in²"},
		{u.speed, 30.48, "100\u00a0ft/s"}, {u.draught, 249.0889, "1.00\u00a0in\u00a0H₂O"},
	} {
		assert.Equal(t, c.want, c.q.text(&c.v))
	}
	assert.Equal(t, "not known", u.mass.text(nil))
	assert.Equal(t, "–", u.mass.bare(nil))
	assert.Nil(t, u.mass.shown(nil))
}

func TestPrintedNumbers(t *testing.T) {
	for want, x := range map[string]float64{"−3.2": -3.24, "0.0": -0.01, "12\u202f345.7": 12345.67, "999.0": 999, "1\u202f000.0": 999.96, "100\u202f000.0": 1e5} {
		assert.Equal(t, want, grouped(x, 1))
	}
	assert.Equal(t, "63", grouped(63, -1))
	assert.Equal(t, "31.5", grouped(31.5, -1))
}

func TestSharesAreOfEnergy(t *testing.T) {
	s := shares([]report.Route{{Source: "a", LevelDBA: f64(70)}, {Source: "b", LevelDBA: f64(80)}, {Source: "c"}})
	require.Len(t, s, 3)
	assert.Equal(t, "b", s[0].name)
	assert.InDelta(t, 10.0/11, s[0].share, 1e-12) // 10 dB is ten times the energy
	assert.InDelta(t, 1.0/11, s[1].share, 1e-12)
	assert.Zero(t, s[2].share)
	rapid.Check(t, func(t *rapid.T) {
		levels := rapid.SliceOfN(rapid.Float64Range(-400, 400), 1, 12).Draw(t, "levels")
		var routes []report.Route
		for i := range levels {
			routes = append(routes, report.Route{LevelDBA: &levels[i]})
		}
		sum := 0.0
		for _, s := range shares(routes) {
			sum += s.share
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Fatalf("shares add up to %v", sum)
		}
	})
}

// Every point of the front is unbeaten, and every point off it is refused or beaten.
func TestFrontIsUnbeaten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := &report.Page{}
		var points []tradeoffPoint
		for i := range rapid.IntRange(1, 9).Draw(t, "n") {
			r.Layouts = append(r.Layouts, report.PageLayout{Refused: rapid.Bool().Draw(t, "refused")})
			points = append(points, tradeoffPoint{layout: i, x: float64(rapid.IntRange(0, 5).Draw(t, "x")), y: float64(rapid.IntRange(0, 5).Draw(t, "y"))})
		}
		on := map[[2]float64]bool{}
		for _, p := range unbeaten(r, points) {
			on[[2]float64{p.x, p.y}] = true
		}
		for _, p := range points {
			if r.Layouts[p.layout].Refused {
				continue
			}
			beaten := false
			for _, q := range points {
				beaten = beaten || !r.Layouts[q.layout].Refused && q.x <= p.x && q.y <= p.y && (q.x < p.x || q.y < p.y)
			}
			if beaten == on[[2]float64{p.x, p.y}] {
				t.Fatalf("point %v: beaten %v, on the front %v", p, beaten, !beaten)
			}
		}
	})
}

// A chain's running levels end at the sum of its links, and a missing link makes no number up.
func TestChainAddsUp(t *testing.T) {
	links := []report.ExplainStep{{Bands: ptrs(100, 90)}, {Bands: ptrs(-20, -5)}, {Bands: []*float64{f64(3), nil}}}
	after := running(links, 2)
	assert.Equal(t, 83.0, *after[2][0])
	assert.Equal(t, 85.0, *after[1][1])
	assert.Nil(t, after[2][1])
}

func TestWordsOfThePage(t *testing.T) {
	page := string(written(t, full()))
	for _, part := range []string{
		"3 dB is barely a difference, 10 dB sounds half or twice as loud", "(refused)", "506 mm with lagging", "can&#39;t be judged", "equal mass flow or equal volume flow",
		"accept from, to", "cooked", "No boat was measured before and after.", "CO alarm", "local code", "not stated", "default-src &#39;none&#39;",
	} {
		assert.True(t, strings.Contains(page, part), part)
	}
	small := string(written(t, sample(1, 1)))
	assert.NotContains(t, small, `<section id="quotes"`)
	assert.NotContains(t, small, `<section id="enclosure"`)
	none := string(written(t, sample(1, 0)))
	assert.Contains(t, none, "names no listener")
	// nothing in the page's own parts points at a network or asks for a laxer policy
	own := strings.ReplaceAll(strings.ReplaceAll(page, packed(), ""), ` xmlns="http://www.w3.org/2000/svg"`, "")
	for _, part := range []string{"http://", "https://", "src=", "@import", "url(", " style=", "unsafe-inline", "unsafe-eval", "unsafe-hashes"} {
		assert.False(t, strings.Contains(own, part), part)
	}
}
