package report

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/path/report/reporttest"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source/said"
)

// What the page shows of a layout is what the document holds of it, and both hold the prediction: levels, back
// pressures, and the loss of each box.
func TestPageAndDocumentAgree(t *testing.T) {
	w := comparison(t, "generator-box")
	d := w.Document().(Compare)
	p, err := w.Page(form.Units{})
	require.NoError(t, err)
	require.Len(t, p.Layouts, len(d.Layouts))
	at := map[string]Layout{}
	for i, l := range d.Layouts {
		at[l.Name] = l
		for j, h := range l.Listeners {
			assert.InDelta(t, w.Spread.Layouts[i].Listeners[j].Level, *h.LevelDBA, 1e-3)
		}
		for j, x := range l.Exhausts {
			assert.InDelta(t, w.Spread.Layouts[i].Exhausts[j].Rated, 1e3**x.RatedBackPressure, 1e-2, "kPa of Pa")
			assert.InDelta(t, w.Predictions[i].Exhausts[j].Running.OutletTemperature, *x.OutletTemperature+273.15, 1e-3, "°C of K")
		}
	}
	for _, l := range p.Layouts {
		for j, h := range l.Heard {
			assert.Equal(t, at[l.Name].Listeners[j].LevelDBA, h.LevelDBA, l.Name)
			assert.Equal(t, at[l.Name].Listeners[j].Paths, h.Paths, l.Name)
			assert.NotEmpty(t, h.Means)
		}
		for j, x := range l.Exhausts {
			assert.Equal(t, at[l.Name].Exhausts[j].RatedBackPressure, x.RatedBackPressure, l.Name)
			assert.InDelta(t, *x.Along[0].PressureKPa, total(x.Along), 1e-3, "what the elements use up is what the engine pushes against")
		}
	}
	require.NotEmpty(t, p.Enclosures)
	for k, e := range p.Enclosures {
		assert.NotNil(t, e.InsertionLossDBA)
		assert.Contains(t, e.Name, p.Layouts[e.Places[0]].Name, "a box stands with its layout")
		if k > 0 {
			assert.LessOrEqual(t, p.Enclosures[k-1].Places[0], e.Places[0], "in the order of the page")
		}
	}
}

func total(all []Along) (sum float64) {
	for _, a := range all {
		sum += *a.LossKPa
	}
	return sum
}

// Lists that are empty are [], and nothing of the page alone gets into a document.
func TestDocumentsHoldNoNullLists(t *testing.T) {
	w := comparison(t, "three-quotes")
	for _, a := range []form.Answer{w, Checked{w}} {
		text, err := json.Marshal(a.Document())
		require.NoError(t, err)
		for _, key := range []string{"warnings", "assumptions", "cautions", "refusals", "paths", "elements"} {
			assert.NotContains(t, string(text), `"`+key+`":null`)
		}
		for _, key := range []string{"Means", "Along", "Places", "OnFront", "Quietest"} {
			assert.NotContains(t, string(text), `"`+key+`"`)
		}
		require.Greater(t, len(a.Sheet()), 1)
		for _, row := range a.Sheet() {
			assert.Len(t, row, len(a.Sheet()[0]))
		}
	}
}

// In reporttest.Imperial units a text holds no metric figure that a sentence of its own or of a model tells, and the figures are
// those of the prediction; documents stay SI.
func TestTextsInImperialUnits(t *testing.T) {
	w := comparison(t, "three-quotes")
	metric := flat(w.Text(form.Units{}))
	text := strings.TrimPrefix(flat(w.Text(reporttest.Imperial)), w.Boat.Text) // the owner's own words stay
	assert.Regexp(t, `\d (kPa|kW|mm|C|m)\b`, metric)
	assert.NotRegexp(t, `\d (kPa|kW|mm|m|m/s|C|°C)\b`, text)
	assert.Contains(t, metric, "rpm and 85 kW")
	assert.Contains(t, text, "rpm and 114 hp", "85 kW / 745.7 W")
	quietest := w.Order(0)[0]
	h, s := &w.Predictions[quietest].Listeners[0], w.Spread.Layouts[quietest].Listeners[0]
	assert.Contains(t, meaning(h, s, form.Units{})[0], " m, a raised one")
	assert.Contains(t, meaning(h, s, reporttest.Imperial)[0], " ft, a raised one")
	one, err := json.Marshal(w.Document())
	require.NoError(t, err)
	assert.Contains(t, string(one), `"units":"SI, as named in each key"`)
}

// flat is all the words of a text.
func flat(t *form.Text) string {
	var b strings.Builder
	for _, k := range t.Blocks {
		b.WriteString(k.First + k.Words + "\n")
		if k.Table != nil {
			for _, r := range k.Table.Rows {
				b.WriteString(strings.Join(r, " | ") + "\n")
			}
		}
	}
	return b.String()
}

// Bad input is an error with a remedy and never a panic: no layout, no listener, draws below zero, an unknown offer.
func TestComparisonOfNothing(t *testing.T) {
	b, err := boatfile.LoadFile("../../testdata/three-quotes.yaml")
	require.NoError(t, err)
	bare := *b
	bare.Layouts = nil
	_, err = Know(&bare, readings.Options{})
	require.ErrorContains(t, err, "hint:")
	_, err = Know(b, readings.Options{Options: draws.Options{N: -1}})
	require.ErrorContains(t, err, "--draws -1")
	quiet := *b
	quiet.Listeners = nil
	_, err = Know(&quiet, readings.Options{})
	require.ErrorContains(t, err, "no listeners")
}

// Remarks that differ in figures alone are told once with the range of each figure; others stay apart.
func TestRemarksOfOneWording(t *testing.T) {
	all := mergeRemarks([]remark{{layout: "a", about: []string{"pipe"}, text: said.Marked("takes {1.5 of 6 kPa} (clean)")}, {layout: "b", about: []string{"hose"}, text: said.Marked("takes {2.5 of 6 kPa} (clean)")}, {layout: "b", text: "leaks"}})
	require.Len(t, all, 2)
	assert.Equal(t, said.Marked("takes {1.5-2.5 of 6 kPa} (clean)"), all[0].text())
	assert.Equal(t, "pipe, hose: takes 1.5-2.5 of 6 kPa (clean)", all[0].whole(form.Units{}))
	assert.Equal(t, "pipe, hose: takes 6-10 of 24.1 in H₂O (clean)", all[0].whole(reporttest.Imperial))
	near := mergeRemarks([]remark{{layout: "a", text: said.Textf("takes {%.1f kPa}", 1.54)}, {layout: "b", text: said.Textf("takes {%.1f kPa}", 1.46)}, {layout: "c", text: said.Textf("takes {%.1f kPa}", 1.96)}})
	require.Len(t, near, 1)
	// Of places, which every layout has, nothing is told with a layout in which it doesn't hold.
	apart := mergeRemarks([]remark{{"a", []string{"deck"}, "loud", "deck"}, {"a", []string{"helm"}, "loud", "helm"}, {"b", []string{"deck"}, "loud", "deck"}, {"b", []string{"helm"}, "loud", "helm"},
		{"b", []string{"cabin"}, "loud", "cabin"}})
	require.Len(t, apart, 2)
	assert.Equal(t, "deck, helm: loud", apart[0].whole(form.Units{}))
	assert.Equal(t, "cabin: loud", apart[1].whole(form.Units{}))
	assert.Equal(t, []string{"b"}, apart[1].layouts)
	assert.Equal(t, "takes 1.5-2.0 kPa", near[0].whole(form.Units{}))
	assert.Equal(t, "takes 5.9-7.9 in H₂O", near[0].whole(reporttest.Imperial), "1.5 kPa would be 6, 2.0 kPa 8")
	alike := mergeRemarks([]remark{{layout: "a", text: said.Textf("takes {%.1f kPa}", 1.54)}, {layout: "b", text: said.Textf("takes {%.1f kPa}", 1.46)}})
	require.Len(t, alike, 1)
	assert.Equal(t, []string{"a", "b"}, alike[0].layouts)
	assert.Equal(t, "takes 1.5 kPa", alike[0].whole(form.Units{}), "what reads alike is said once")
	assert.Len(t, form.Unique([]string{said.Textf("{%.1f kPa}", 1.54), said.Textf("{%.1f kPa}", 1.46)}), 1)
	hot := mergeRemarks([]remark{{layout: "a", text: said.Marked("up to {300 °C} outside")}, {layout: "b", text: said.Marked("up to {320 °C} outside")}})
	assert.Equal(t, "up to 320 °C outside", hot[0].whole(form.Units{}), "the largest behind up to")
	levels := mergeRemarks([]remark{{layout: "a", text: "At 25 m 73 dB(A) come out; 72 dB(A) is asked"}, {layout: "b", text: "At 25 m 78 dB(A) come out; 72 dB(A) is asked"}})
	assert.Equal(t, "At 25 m 73-78 dB(A), from layout to layout and without their doubt, come out; 72 dB(A) is asked", levels[0].text())
	assert.Equal(t, "At 25 m 73 dB(A) come out; 72 dB(A) is asked", mergeRemarks([]remark{{layout: "a", text: "At 25 m 73 dB(A) come out; 72 dB(A) is asked"}})[0].text())
	assert.Empty(t, all[0].where([]string{"a", "b"}, 3))
	assert.Equal(t, `"b"`, all[1].where([]string{"a", "b"}, 3))
}

// The sum of the energy of the routes that explain shows is the level it names.
func TestExplainedRoutesAddUp(t *testing.T) {
	b, err := boatfile.LoadFile("../../testdata/dry-stack.yaml")
	require.NoError(t, err)
	e, err := NewExplained(reporttest.Known(t, b, 100), b.Layouts[0], 0, true)
	require.NoError(t, err)
	d := e.Document().(Explain)
	energy := 0.0
	for _, r := range d.Routes {
		energy += math.Pow(10, *r.LevelDBA/10)
	}
	assert.InDelta(t, *d.LevelDBA, 10*math.Log10(energy), 0.05)
	assert.Equal(t, len(d.Routes), strings.Count(flat(e.Text(form.Units{})), "= at the ear"), "with --all every route shows its steps")
}

// comparisons are the comparisons of whole demos that tests only read.
var comparisons = reporttest.Once[*Comparison]{}

func comparison(t *testing.T, name string) *Comparison {
	t.Helper()
	return comparisons.Of(t, name, func(b *path.Boat, k *readings.Known) (*Comparison, error) { return NewComparison(b, b.Layouts, 0, k) })
}
