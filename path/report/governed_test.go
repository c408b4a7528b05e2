package report

import (
	"context"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/report/enquiry"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/path/study/sizing"
	"hushwake/source/spectrum"
	"hushwake/testdata/turns"
)

// demoWith loads a demo with a text put in another's place.
func demoWith(t *testing.T, name string, swap ...string) *path.Boat {
	t.Helper()
	text, err := os.ReadFile("../../testdata/" + name + ".yaml")
	require.NoError(t, err)
	for i := 0; i < len(swap); i += 2 {
		require.Contains(t, string(text), swap[i])
	}
	b, err := boatfile.Load(name+".yaml", []byte(strings.NewReplacer(swap...).Replace(string(text))))
	require.NoError(t, err)
	return b
}

func governed(t *testing.T, b *path.Boat, o readings.Options) (*Comparison, Compare) {
	t.Helper()
	o.N = 400
	k, err := Know(b, o)
	require.NoError(t, err)
	w, err := NewComparison(b, b.Layouts, 0, k)
	require.NoError(t, err)
	return w, w.Document().(Compare)
}

// quotesRead is the demo of three quotes after its readings, for tests that only read it.
var quotesRead struct {
	*Comparison
	document Compare
}

func asRead(t *testing.T) (*Comparison, Compare) {
	t.Helper()
	if quotesRead.Comparison == nil {
		quotesRead.Comparison, quotesRead.document = governed(t, demoWith(t, "three-quotes"), readings.Options{})
	}
	return quotesRead.Comparison, quotesRead.document
}

// twoQuotes is that demo with the layout of today and one offer.
func twoQuotes(t *testing.T, swap ...string) *path.Boat {
	t.Helper()
	return first(demoWith(t, "three-quotes", swap...), "as is, holed", "new silencer + offer B")
}

// first leaves a boat a few of its layouts.
func first(b *path.Boat, names ...string) *path.Boat {
	b.Layouts = slices.DeleteFunc(b.Layouts, func(l *path.Layout) bool { return !slices.Contains(names, l.Name) })
	return b
}

// One file and seed give one figure for one seat: in compare, the page, explain, enquiry and
// what size and sweep ask; low <= level <= high everywhere.
func TestEveryAnswerHasTheSameFigure(t *testing.T) {
	w, d := asRead(t)
	b := w.Boat
	require.Equal(t, 4, d.ReadingsUsed)
	level := *d.Layouts[0].Listeners[0].LevelDBA
	page, err := w.Page(form.Units{})
	require.NoError(t, err)
	for _, l := range d.Layouts {
		for j, h := range l.Listeners {
			require.NotNil(t, h.UncorrectedDBA)
			if l.Verdict == VerdictAsk {
				require.Nil(t, h.LevelDBA)
				continue
			}
			assert.True(t, *h.LowDBA <= *h.LevelDBA && *h.LevelDBA <= *h.HighDBA, "%s %s", l.Name, h.Name)
			sum := spectrum.Silent
			for _, p := range h.Paths {
				if p.LevelDBA != nil {
					sum = spectrum.Sum(sum, *p.LevelDBA)
				}
			}
			assert.InDelta(t, *h.LevelDBA, sum, 0.05, "the routes add up")
			for _, pl := range page.Layouts {
				if pl.Name == l.Name {
					assert.Equal(t, h.LevelDBA, pl.Heard[j].LevelDBA)
				}
			}
		}
	}
	e, err := NewExplained(w.Known, b.Layouts[0], 0, true)
	require.NoError(t, err)
	assert.InDelta(t, level, *e.Document().(Explain).LevelDBA, 1e-3)
	names := ""
	for _, s := range e.Document().(Explain).Routes[0].Steps {
		names += s.Name + "; "
	}
	assert.Contains(t, names, draws.StepReadings)
	at := parts.Chosen{Layout: b.Layouts[0], Exhaust: 0, At: 3, Element: b.Layouts[0].Exhausts[0].Line.Elements[3]}
	enquiry, err := enquiry.NewEnquiry(w.Known, at, 0)
	require.NoError(t, err)
	assert.InDelta(t, level, enquiry.Today.Level, 1e-3)
	quick, err := w.Known.Quick(w.Known.Central[0]) // what sweep and size ask, at the running duty
	require.NoError(t, err)
	assert.InDelta(t, level, quick.Listeners[0].DBA(), 1e-3)
}

// The element as it stands has in size the level that compare gives it.
func TestSizeStartsFromTheSameFigure(t *testing.T) {
	b := first(demoWith(t, "dry-stack"), "as found", "as found, door open", "reactive 356 mm in the trunk")
	l, ok := b.Layout("reactive 356 mm in the trunk")
	require.True(t, ok)
	k, err := Know(b, readings.Options{Options: draws.Options{N: 400}})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	for i, e := range l.Exhausts[0].Line.Elements {
		if e.Kind() == "chamber" {
			d, err := parts.NewSize(ctx, k, parts.Chosen{Layout: l, Exhaust: 0, At: i, Element: e}, 0, sizing.Budget{}, func(done, _ int) {
				if done > 3 {
					stop()
				}
			})
			require.NoError(t, err)
			assert.InDelta(t, k.At(l.Name).Listeners[0].DBA(), *d.Present.LevelDBA, 0.1)
			return
		}
	}
	t.Fatal("no chamber")
}

// Without its readings a file says what it says with them ignored; one that is struck moves nothing.
func TestIgnoredAndStruckReadings(t *testing.T) {
	w, d := governed(t, twoQuotes(t), readings.Options{Ignore: true})
	require.Zero(t, d.ReadingsUsed)
	require.Nil(t, d.Layouts[0].Listeners[0].UncorrectedDBA)
	struck := twoQuotes(t, "plus_minus: 2 dB, background", "strike: true, plus_minus: 2 dB, background", "back_pressure: 33 mbar,", "back_pressure: 33 mbar, strike: true,")
	v, s := governed(t, struck, readings.Options{})
	require.Zero(t, s.ReadingsUsed)
	for i, l := range w.Spread.Layouts {
		for j, h := range l.Listeners {
			assert.InDelta(t, h.Low, v.Spread.Layouts[i].Listeners[j].Low, 1e-9)
			assert.InDelta(t, h.High, v.Spread.Layouts[i].Listeners[j].High, 1e-9)
		}
	}
	require.Len(t, v.Known.Fit.Residuals, 4)
	for _, r := range v.Known.Fit.Residuals {
		assert.True(t, r.Struck)
		assert.Contains(t, r.Reason, "struck")
	}
}

// A back pressure read over the limit is a danger and the verdict of that layout, whatever the model says;
// struck it is neither.
func TestMeasuredBackPressureOverTheLimit(t *testing.T) {
	over := []string{"back_pressure: 33 mbar,", "back_pressure: 90 mbar,"}
	w, d := governed(t, twoQuotes(t, over...), readings.Options{})
	require.Equal(t, VerdictOver, d.Layouts[0].Verdict)
	assert.Contains(t, flat(w.Text(form.Units{})), "OVER LIMIT (measured)")
	assert.Equal(t, readings.CodeMeasured, w.Predictions[0].Findings[0].Code, "the first danger of all")
	assert.Equal(t, "danger", w.Predictions[0].Findings[0].Severity)
	assert.True(t, w.OverLimit())
	assert.NotEqual(t, d.Layouts[0].Name, *d.Advice.Layout)
	assert.Greater(t, w.Spread.Layouts[0].Exhausts[0].Rated, 6000.0, "the draws follow the gauge")
	assert.False(t, readings.OverMeasured(&w.Predictions[1]), "another layout was not read")
	checked, err := NewChecked(twoQuotes(t, over...), readings.Options{Options: draws.Options{N: 100}})
	require.NoError(t, err)
	assert.Equal(t, readings.CodeMeasured, checked.Document().(Check).Cautions[firstCaution(checked)].Code)
	v, _ := governed(t, twoQuotes(t, "back_pressure: 33 mbar,", "back_pressure: 90 mbar, strike: true,"), readings.Options{})
	assert.False(t, readings.OverMeasured(&v.Predictions[0]))
}

// The air in a box read over what the file allows is the verdict of that layout; a rule of thumb is a danger alone, and the
// box is cooked as the readings leave it.
func TestMeasuredBoxOverTheLimit(t *testing.T) {
	w, d := governed(t, demoWith(t, "generator-box"), readings.Options{})
	require.Equal(t, 6, d.ReadingsUsed)
	require.Equal(t, "as is", d.Layouts[0].Name)
	assert.Equal(t, readings.CodeMeasuredHot, w.Predictions[0].Findings[0].Code)
	assert.Contains(t, flat(w.Text(form.Units{})), "set COOKED")
	assert.NotContains(t, flat(w.Text(form.Units{})), "OVER LIMIT (measured)")
	w, _ = governed(t, first(demoWith(t, "generator-box", "    heat: 3.1 kW", "    limit: 50 °C\n    heat: 3.1 kW"), "as is"), readings.Options{})
	assert.Contains(t, flat(w.Text(form.Units{})), "OVER LIMIT (measured)")
	assert.True(t, w.OverLimit())
	assert.Equal(t, VerdictOver, w.Verdict(0))
	cool, _ := governed(t, first(demoWith(t, "generator-box", "temperature: 74 °C", "temperature: 32 °C, plus_minus: 0.5 K"), "as is"), readings.Options{})
	assert.Less(t, cool.Predictions[0].Exhausts[0].Box.Air.Rise, w.Predictions[0].Exhausts[0].Box.Air.Rise)
}

func firstCaution(c Checked) int {
	for i, x := range c.Document().(Check).Cautions {
		if !x.Refuses {
			return i
		}
	}
	return 0
}

// The offer that can't be judged has no level, a span, questions, no rank and no refusal; the level of
// today fails the acceptance of the one that is taken.
func TestOfferThatCantBeJudged(t *testing.T) {
	w, d := asRead(t)
	for _, l := range d.Layouts {
		if l.Name != "new silencer + offer A" {
			assert.NotEqual(t, VerdictAsk, l.Verdict, l.Name)
			continue
		}
		assert.Equal(t, VerdictAsk, l.Verdict)
		assert.False(t, l.Refused)
		assert.NotEmpty(t, l.Questions)
		assert.Nil(t, l.Listeners[0].LevelDBA)
		assert.Greater(t, *l.Listeners[0].HighDBA, *l.Listeners[0].LowDBA+10)
	}
	for _, r := range d.Ranking["flybridge helm"] {
		assert.NotEqual(t, "new silencer + offer A", r.Layout)
	}
	text := flat(w.Text(form.Units{}))
	assert.Contains(t, text, "ASK FIRST")
	assert.NotContains(t, text, "one reading at this seat", "the file holds it")
	for _, j := range w.offers() {
		if j.Name == "offer B" {
			assert.Empty(t, j.CantTell)
			assert.Greater(t, w.Spread.Layouts[0].Listeners[0].Level, *j.High)
		}
	}
}

// One reading alone, near or far from what the model says, sharp or not: the seat's level comes within 0.5 dB
// of a sharp one, its band holds it and is no wider than 3 dB; a far one is named.
func TestOneReadingGovernsADemoSeat(t *testing.T) {
	seats := []struct {
		demo, listener string
		level, pm      float64
	}{{"three-quotes", "flybridge helm", 75, 0.5}, {"three-quotes", "saloon", 68, 2}, {"three-quotes", "saloon", 60, 0.5}, {"three-quotes", "forward cabin", 54, 0.5},
		{"generator-box", "pillow", 54, 0.5}, {"generator-box", "quay", 68, 2}}
	for i := range turns.Of(t, len(seats), 2) {
		c := seats[i]
		b := demoWith(t, c.demo)
		b.Layouts = b.Layouts[:1]
		b.Readings = []path.Reading{{Index: 1, Listener: c.listener, Layout: b.Layouts[0].Name, Level: &c.level, PlusMinus: c.pm, Weighting: "A", Instrument: "meter"}}
		k, err := Know(b, readings.Options{Options: draws.Options{N: 4000}})
		require.NoError(t, err)
		for j, l := range b.Listeners {
			if l.Name != c.listener {
				continue
			}
			s := k.Spread().Layouts[0].Listeners[j]
			assert.InDelta(t, c.level, s.Level, max(c.pm, 0.5), "%v: %v", c, s)
			assert.True(t, s.Low <= c.level && c.level <= s.High, "%v: %v", c, s)
			if c.pm < 1 {
				assert.Less(t, s.High-s.Low, 3.0, "%v: %v", c, s)
			}
		}
		z := k.Fit.Residuals[0].Standardised
		assert.Equal(t, z > 3 || z < -3, strings.Contains(strings.Join(k.Remarks(), " "), "far off"), "%g deviations", z)
	}
}

// A price of which a part is unknown reads "from", and the document names the part.
func TestPricesOfWhichAPartIsUnknown(t *testing.T) {
	w, d := governed(t, demoWith(t, "three-quotes"), readings.Options{})
	assert.Contains(t, Brief{w}.heading(1), "from 1840 EUR")
	assert.Contains(t, Brief{w}.heading(3), "from 4490 EUR")
	assert.NotContains(t, Brief{w}.heading(2), "from")
	assert.Equal(t, []string{"lagging of offer A", "flanges of offer A"}, d.Layouts[1].Unpriced)
}

// A layout with open slots is asked about and never advised as it stands; verdict, question, advice and the next command
// name what fills it.
func TestOpenSlotsAreNotAdvised(t *testing.T) {
	w, d := governed(t, demoWith(t, "choice"), readings.Options{})
	require.NotNil(t, d.Advice.Layout)
	assert.Equal(t, "bare pipe", *d.Advice.Layout)
	assert.Contains(t, d.Advice.Text, `"new line" has open slots: hushwake choose choice.yaml --layout 'new line' searches`)
	assert.NotContains(t, d.Advice.Text, `Take "new line"`)
	assert.Equal(t, VerdictAsk, d.Layouts[0].Verdict)
	assert.Nil(t, d.Layouts[0].Listeners[0].LevelDBA)
	assert.Contains(t, strings.Join(d.Layouts[0].Questions, "\n"), "Open slots: what goes into first and second?")
	assert.Equal(t, VerdictOK, d.Layouts[1].Verdict)
	assert.Contains(t, Brief{w}.heading(0), "ASK FIRST: open slots, from 400 EUR")
	var next []string
	for _, b := range (Brief{w}).Text(form.Units{}).Blocks {
		next = append(next, strings.Join(b.Command, " "))
	}
	assert.Contains(t, next, "hushwake choose choice.yaml --layout 'new line'")

	_, d = governed(t, demoWith(t, "choice", "  - {name: bare pipe, like: new line, remove: [first, second]}\n", ""), readings.Options{})
	assert.Nil(t, d.Advice.Layout)
	assert.Contains(t, d.Advice.Text, "Nothing can be advised")
	assert.Contains(t, d.Advice.Text, "hushwake choose")
}

// A layout over the limit of a place says so in its verdict too, apart from its back pressure; where none is stated
// nothing is called ok of it, and what rounds to its limit is still shown to be over it.
func TestVerdictsNameTheirLimit(t *testing.T) {
	w, d := asRead(t)
	i := slices.IndexFunc(d.Layouts, func(l Layout) bool { return l.Verdict == VerdictOver })
	require.GreaterOrEqual(t, i, 0)
	i = slices.IndexFunc(w.Predictions, func(p path.Prediction) bool { return p.Layout.Name == d.Layouts[i].Name })
	assert.Regexp(t, "^pressure within limit; over limit at .*saloon", w.verdict(i))
	assert.Empty(t, Brief{w}.verdicts(i), "levels have their mark")

	of := *w
	boat := *w.Boat
	boat.Listeners = slices.Clone(boat.Listeners)
	of.Boat = &boat
	boat.Text = ""
	assert.NotEmpty(t, Brief{&of}.Text(form.Units{}).Blocks[0].Words, "no empty line for a title")
	near := of.Spread.Layouts[i].Listeners[0].Level
	under := near - 0.01
	boat.Listeners[0].Limit = &under
	require.Equal(t, form.Decibel(near), form.Decibel(under), "a level that does not lie on an edge of rounding")
	assert.Equal(t, ">"+form.Decibel(under)+"!", Brief{&of}.cell(i, 0))
	assert.Contains(t, Brief{&of}.caption(form.Units{}), "! is over a limit")
	for j := range boat.Listeners {
		boat.Listeners[j].Limit = nil
	}
	assert.NotContains(t, Brief{&of}.caption(form.Units{}), "limit")
}
