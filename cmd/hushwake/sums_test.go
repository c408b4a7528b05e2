package main

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/source/spectrum"
	"hushwake/testdata/turns"
)

// Whatever the numbers are, they add up.
func TestCompareAddsUp(t *testing.T) {
	for _, name := range []string{"generator-box", "three-quotes", "everything"} {
		var d report.Compare
		document(t, &d, "compare", demos+name+".yaml", few)
		for _, l := range d.Layouts {
			for _, x := range l.Exhausts {
				pressuresAddUp(t, l.Name, x.Elements, x.BackPressure)
			}
			for _, h := range l.Listeners {
				levelsAddUp(t, l.Name+" at "+h.Name, h)
			}
		}
		rankingSorted(t, &d)
	}
}

// pressuresAddUp: the losses of all elements, implied steps and the outlet among them, are the back
// pressure within a thousandth.
func pressuresAddUp(t *testing.T, at string, elements []parts.Element, want form.Number) {
	t.Helper()
	sum, kinds := 0.0, map[string]bool{}
	for _, e := range elements {
		require.NotNil(t, e.PressureLoss, "%s, %s", at, e.Name)
		sum += *e.PressureLoss
		kinds[e.Kind] = true
		assert.NotEmpty(t, e.Name)
	}
	require.NotNil(t, want)
	assert.InEpsilon(t, *want, sum, 1e-3, at)
	assert.True(t, kinds["outlet"], "%s has no outlet row", at)
}

// levelsAddUp: the paths add as energy to the bands, the bands to dB(A) and dB(C), within 0.1 dB; the
// band of the level holds it; exposure and speech follow their definitions.
func levelsAddUp(t *testing.T, at string, h report.Listener) {
	t.Helper()
	require.Len(t, h.Bands, spectrum.N)
	for i, want := range h.Bands {
		sum := 0.0
		for _, p := range h.Paths {
			if p.Bands[i] != nil {
				sum += math.Pow(10, *p.Bands[i]/10)
			}
		}
		if want != nil {
			assert.InDelta(t, *want, 10*math.Log10(sum), 0.1, at)
		}
	}
	assert.LessOrEqual(t, *h.LowDBA, *h.HighDBA, at)
	if h.Hours != nil { // 2003/10/EC: LEX,8h = LAeq + 10 lg(T/8 h)
		assert.InDelta(t, *h.LevelDBA+10*math.Log10(*h.Hours/8), *h.Exposure, 0.01, at)
	}
	if s := h.Speech; s.Interference != nil { // ISO/TR 3352: mean of the octaves 500 Hz to 4 kHz or 500 Hz to 2 kHz
		four, three := meanOf(h.Bands[4:8]), meanOf(h.Bands[4:7])
		assert.True(t, math.Abs(*s.Interference-four) < 0.1 || math.Abs(*s.Interference-three) < 0.1, at)
		assert.Greater(t, *s.Raised, *s.Normal, at)
		var noise spectrum.Bands
		for i, b := range h.Bands {
			noise[i] = *b
		}
		assert.InDelta(t, spectrum.Understood, spectrum.Intelligibility(noise, spectrum.NormalVoice, *s.Normal), 0.001, at)
		assert.InDelta(t, spectrum.Understood, spectrum.Intelligibility(noise, spectrum.RaisedVoice, *s.Raised), 0.001, at)
	}
}

func meanOf(v []form.Number) float64 {
	sum := 0.0
	for _, x := range v {
		sum += *x
	}
	return sum / float64(len(v))
}

// rankingSorted: quietest first, refused layouts behind the others, chances adding to one.
func rankingSorted(t *testing.T, d *report.Compare) {
	t.Helper()
	refused, asked := map[string]bool{}, 0
	for _, l := range d.Layouts {
		if l.Verdict == report.VerdictAsk {
			asked++ // has no rank
		}
		refused[l.Name] = l.Refused
		assert.Equal(t, l.Refused, len(l.Refusals) > 0, l.Name)
	}
	for _, h := range d.Layouts[0].Listeners {
		rows := d.Ranking[h.Name]
		require.Len(t, rows, len(d.Layouts)-asked, h.Name)
		chance, open := 0.0, 0.0
		for i, r := range rows {
			chance += *r.Quietest
			if !refused[r.Layout] {
				open = 1
			}
			if i == 0 {
				continue
			}
			p := rows[i-1]
			if refused[p.Layout] == refused[r.Layout] {
				assert.LessOrEqual(t, *p.LevelDBA, *r.LevelDBA, h.Name)
			}
			assert.False(t, refused[p.Layout] && !refused[r.Layout], "%s: a refused layout stands before %s", h.Name, r.Layout)
		}
		assert.InDelta(t, open, chance, 0.01, "%s: one of those not refused is the quietest", h.Name)
	}
}

// The steps of explain add up to each route, the routes as energy to the level. A run takes half.
func TestExplainAddsUp(t *testing.T) {
	shown := map[string]bool{}
	runs := [][]string{
		{"three-quotes", "--layout=as is, holed", "--listener=saloon"},
		{"three-quotes", "--layout=new silencer + offer C", "--listener=flybridge helm"},
		{"generator-box", "--layout=lined ducts", "--listener=quay"},
		{"dry-stack", "--layout=wet with lift chamber", "--listener=aft cabin"},
	}
	for i := range turns.Of(t, len(runs), 2) {
		c := runs[i]
		var d report.Explain
		document(t, &d, "explain", demos+c[0]+".yaml", c[1], c[2], light())
		total := 0.0
		for _, r := range d.Routes {
			level := spectrum.Bands{}
			for _, s := range r.Steps {
				assert.NotEmpty(t, s.Formula, s.Name)
				assert.NotEmpty(t, s.Source, s.Name)
				assert.NotEmpty(t, s.Mark, s.Name)
				for i, v := range s.Bands {
					level[i] += *v
				}
				rest := level
				for _, term := range s.Terms {
					shown[term.Name] = true
					for i, v := range term.Bands {
						rest[i] -= *v
					}
				}
				if len(s.Terms) > 0 {
					assert.InDeltaSlice(t, make([]float64, spectrum.N), rest[:], 0.1, "terms of %s", s.Name)
				}
			}
			for i, v := range r.Bands {
				assert.InDelta(t, *v, level[i], 0.1, "%s %s, band %d", r.Source, r.Route, i)
			}
			for i, v := range r.AWeight {
				level[i] += *v
			}
			assert.InDelta(t, *r.LevelDBA, level.Total(), 0.1, r.Route)
			total += math.Pow(10, level.Total()/10)
		}
		assert.InDelta(t, *d.LevelDBA, 10*math.Log10(total), 0.1, c)
	}
	assert.True(t, shown["what the gas flow can hold"] && shown["casing speed"], "%v", shown)
}

func TestLineAddsUp(t *testing.T) {
	var d parts.Line
	document(t, &d, "line", demos+"generator-box.yaml", "--from=20 Hz", "--to=200 Hz", "--step=20 Hz")
	pressuresAddUp(t, d.Layout, d.Elements, d.BackPressure)
	assert.Equal(t, []float64{20, 40, 60, 80, 100, 120, 140, 160, 180, 200}, values(d.Curve.Frequency))
	assert.Len(t, d.Curve.TL, 10)
	assert.Len(t, d.Curve.IL, 10)
}

func values(v []form.Number) (out []float64) {
	for _, x := range v {
		out = append(out, *x)
	}
	return out
}

// The same seed prints the same bytes, also on the page; another seed prints others. A run takes calibrate, which compares too.
func TestSeeds(t *testing.T) {
	runs := [][]string{
		{"calibrate", demos + "generator-box.yaml", "--draws=200", "--quiet", "--format=json"},
		{"compare", demos + "three-quotes.yaml", "--draws=200", "--quiet", "--format=json"},
	}
	for i := range turns.Of(t, len(runs), 2) {
		args := runs[i]
		one, again := output(t, args...), output(t, args...)
		assert.True(t, one == again, "%v: two runs differ", args)
		assert.NotEqual(t, one, output(t, append(args, "--seed=2")...))
	}
	var pages, tables [2]string
	for i := range pages {
		name := filepath.Join(t.TempDir(), "page.html")
		tables[i] = output(t, "compare", demos+"generator-box.yaml", "--draws=200", "--quiet", "--report", name)
		page, err := os.ReadFile(name)
		require.NoError(t, err)
		pages[i] = string(page)
	}
	assert.True(t, tables[0] == tables[1], "two tables of one seed differ")
	assert.True(t, pages[0] == pages[1], "two pages of one seed differ")
	assert.Less(t, len(pages[0]), 2_500_000, "bytes of the page")
}

// Rows of the CSV are those of the JSON.
func TestCompareCSV(t *testing.T) {
	var d report.Compare
	document(t, &d, "compare", demos+"three-quotes.yaml", few)
	rows, err := csv.NewReader(strings.NewReader(output(t, "compare", demos+"three-quotes.yaml", few, "--quiet", "--format=csv"))).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 1+len(d.Layouts)*len(d.Layouts[0].Listeners))
	assert.Equal(t, d.Layouts[0].Listeners[0].Name, rows[1][1])
	for _, r := range rows[1:] {
		assert.Contains(t, []string{"true", "false"}, r[7])
	}
}
