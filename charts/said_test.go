package charts

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/charts/drawable"
	"hushwake/charts/plot"
	"hushwake/charts/style"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/silencer/safety"
	"hushwake/testdata/turns"
)

// A caution of all layouts stands once, one of some names them, and the gravest comes first.
func TestCautionsAreSaidOnce(t *testing.T) {
	r := sample(3, 1)
	r.Cautions = []report.Caution{{Severity: "note", Text: "n", Places: []int{0, 2}}, {Severity: "warning", Text: "w"}}
	for i := range r.Layouts {
		r.Layouts[i].Cautions = []report.Caution{{Severity: "danger", Text: "d"}}
	}
	r.Layouts[2].Cautions = append(r.Layouts[2].Cautions, report.Caution{Severity: "caution", Text: "c"})
	all := saidOnce(r)
	require.Len(t, all, 4)
	var said []string
	for _, c := range all {
		said = append(said, c.Severity)
	}
	assert.Equal(t, gravest, said)
	assert.Empty(t, all[0].in, "said of every layout")
	assert.Empty(t, all[1].in)
	assert.Equal(t, []int{2}, all[2].in)
	assert.Equal(t, "Cautions in full: 1 danger, 1 warning, 1 caution, 1 note", cautionsSection(r, all).Title)
	assert.Equal(t, "Layouts 1 and 3", layoutsSaid(r, all[3].in))
	same := func(severity, text string, place int) report.Caution {
		return report.Caution{Severity: severity, Text: text, Action: "Ask.", Source: "law", Places: []int{place}}
	}
	r.Cautions = append(r.Cautions, same("note", "64 to port.", 0), same("note", "82 to starboard.", 2), same("caution", "84 to port.", 1))
	all = saidOnce(r)
	whole := cautionsSection(r, all)
	some := whole.Lists[1].Items
	assert.Equal(t, "Cautions in full: 1 danger, 1 warning, 2 cautions, 2 notes", whole.Title, "as many as are listed")
	require.Len(t, some, len(all)-2-1, "remarks of one kind once, another severity keeps its own place")
	assert.Equal(t, item{Kind: "note", Text: "Layout 1: 64 to port. Layout 3: 82 to starboard.", Detail: []string{"Ask.", "Source: law"}}, some[len(some)-1])
	r.Cautions[0].Places = []int{3}
	assert.ErrorContains(t, drawable.Check(r), "caution")
}

// The answer gives the level with its doubt, what it was, the limit it misses, the engine's share and what to do.
func TestAnswerAtAGlance(t *testing.T) {
	r := sample(3, 1)
	r.Listeners[0].LimitDBA = f64(70)
	r.Layouts[1].RefusedFor, r.Chosen, r.Today, r.Helps.Layout = "does not fit", 2, 0, "x"
	r.Layouts[0].Heard[0].LevelDBA = f64(95)
	h := &r.Layouts[2].Heard[0]
	h.LevelDBA, h.LowDBA, h.HighDBA = f64(75), f64(70), f64(80)
	h.Paths = []report.Route{{Source: "hull", Way: "structure", LevelDBA: f64(75)}, {Source: "outlet", Way: "outlet", LevelDBA: f64(65)}}
	e := &r.Layouts[2].Exhausts[0]
	e.RatedBackPressure, e.RatedLow, e.RatedHigh, e.Limit = f64(4), f64(3), f64(5), f64(10)
	r.Offers = []report.Offer{{Name: "offer X", Layout: -1, Questions: []string{"a?", "b?"}}}
	r.Layouts[1].Questions = []string{"a of offer X?"} // the same, asked of the layout that it makes
	u := unitsOf(false)
	r.Advice = []string{"Take it: 75 dB(A).", "It stays over.", "It buys 9 dB."}
	head, more := adviceOf(r, u)
	assert.Equal(t, "Take it: 75\u00a0dB(A).", head)
	assert.Equal(t, []string{"It stays over. It buys 9\u00a0dB.", "The engine bears 4.00\u00a0kPa of back pressure, 40\u00a0% of what its maker allows."}, more)
	g := placesTable(r, u, &drawer{})
	assert.Equal(t, "refused: does not fit", g.Rows[1][1].Text)
	assert.Equal(t, "over by 5\u00a0dB at "+r.Listeners[0].Name, g.Rows[2][1].Text)
	assert.Equal(t, "75 over", g.Rows[2][2].Text)
	assert.Equal(t, "40\u00a0%", g.Rows[2][3].Text)
	now := nowAndThen(r, &drawer{}).Rows[0]
	assert.Equal(t, []string{"95 over", "75 over", "70", "70 to 80"}, []string{now[1].Text, now[2].Text, now[3].Text, now[4].Text})
	assert.Equal(t, "most comes through mounts and hull (91\u00a0%)", ruled(r, 2, 0)) // 10 of 11 parts
	asks, n := asked(r)
	assert.Equal(t, 2, n)
	assert.Equal(t, []string{"a?", "b?"}, asks.Items[0].Detail)
	var steps []string
	for _, i := range nextSteps(r).Items {
		steps = append(steps, i.Text)
	}
	text := strings.Join(steps, "\n")
	assert.Contains(t, text, "5\u00a0dB over the limit of 70\u00a0dB(A)")
	assert.Contains(t, text, "91\u00a0% of the energy) comes by \"hull\"")
	r.Chosen, r.Today = 0, 0
	r.Layouts[1].Slots = "hushwake choose boat.yaml --layout b"
	assert.NotContains(t, rankSaid(r, 0), "advised")
	r.Chosen = -1
	r.Advice = []string{"Nothing can be advised."}
	head, more = adviceOf(r, u)
	assert.Equal(t, r.Advice[0], head)
	assert.Empty(t, more, "no engine is asked anything")
	none := nowAndThen(r, &drawer{})
	assert.NotContains(t, none.Caption+strings.Join(none.Head, " "), "roposed", "nothing is")
	assert.Contains(t, none.Caption, "Layout "+tag(r, 0)+", not advised")
	require.Len(t, none.Rows[0], len(none.Head))
	assert.Equal(t, "95 over", none.Rows[0][1].Text)
}

// Three dangers at most, of the layout that is told of, and carbon monoxide whatever else there is.
func TestDangersNameCarbonMonoxide(t *testing.T) {
	r := sample(2, 1)
	r.Cautions = []report.Caution{{Severity: "danger", Text: "Hot, this and the old silencer. More.", Action: "Lag it."}}
	r.Own = []report.Caution{{Severity: "danger", Text: "Hot. More.", Action: "Lag it."}}
	for range 4 {
		r.Own = append(r.Own, report.Caution{Severity: "warning", Text: "Wet.", Action: "Dry it."})
	}
	got := dangers(r)
	require.Len(t, got, 3)
	assert.Equal(t, "Hot. Lag it.", got[1].Text)
	assert.Contains(t, got[0].Text, "carbon monoxide")
	r.Own = append(r.Own, report.Caution{Code: safety.Monoxide, Severity: "danger", Text: "Exhaust gas kills: by leaks.", Action: "Alarms in every cabin."})
	assert.Equal(t, "Exhaust gas kills: alarms in every cabin.", dangers(r)[0].Text)
	r.Own = nil
	assert.Contains(t, dangers(r)[0].Text, "carbon monoxide")
}

// The title of a trade-off says no more than its marks show.
func TestTradeoffTitles(t *testing.T) {
	r, u := sample(2, 1), unitsOf(false)
	at := func(x0, y0, x1, y1 float64) string {
		return ends(r, u, "helm", []tradeoffPoint{{layout: 0, x: x0, y: y0}, {layout: 1, x: x1, y: y1}}, "none")
	}
	r.Layouts[0].Refused, r.Layouts[1].Refused = false, false
	first, second := tag(r, 0), tag(r, 1)
	assert.Equal(t, "At helm layout "+first+" is quietest, "+second+" easiest on the engine", at(3, 60, 2, 70))
	assert.Equal(t, "At helm layout "+first+" is quietest and easiest on the engine", at(2, 60, 3, 70))
	assert.Equal(t, "At helm layout "+first+" is quietest and easiest on the engine", ends(r, u, "helm", []tradeoffPoint{{layout: 0, x: 3.001, y: 60}, {layout: 1, x: 3, y: 70}, {layout: 1, x: 9, y: 80}}, "none"), "what prints as one pressure is one")
	assert.Equal(t, "At helm layout "+first+" is quietest, and the back pressure of all is the same", at(3.5, 60, 3.5, 61))
	r.Layouts[0].Refused, r.Layouts[1].Refused = true, true
	assert.Equal(t, "none", at(3, 60, 2, 70))
	for i := range r.Layouts {
		r.Layouts[i].Heard[r.Main].OnFront = false
	}
	assert.Equal(t, "at "+r.Listeners[r.Main].Name+" no layout that could be taken", onFront(r, enginesOf(r)[0]))
}

// Layouts of one back pressure stand side by side, each with its percentiles and its number below; others on an axis of pressure.
func TestLayoutsOfOneBackPressureStandSideBySide(t *testing.T) {
	r, u := sample(3, 1), unitsOf(false)
	engine := enginesOf(r)
	apart := tradeoffFigure(r, u, engine, 0, 0)
	require.NotNil(t, apart.Plot)
	assert.Equal(t, "value", apart.Plot.XAxisList[0].Type)
	for i := range r.Layouts {
		r.Layouts[i].Exhausts[0].RatedBackPressure = f64(3.5 + float64(i)/1000)
	}
	beside := tradeoffFigure(r, u, engine, 0, 0)
	require.NotNil(t, beside.Plot)
	assert.Equal(t, "category", beside.Plot.XAxisList[0].Type)
	assert.Contains(t, beside.Plot.XAxisList[0].Name, "3.50")
	raw, err := beside.Plot.Marshal("t")
	require.NoError(t, err)
	assert.Contains(t, string(raw), `"data":["1","(2)","3"]`)
	for i := range r.Layouts {
		assert.Regexp(t, fmt.Sprintf(`"value":\[%d,[0-9.]+,%d,%d,`, i, i, i), string(raw), "percentiles of the level alone")
	}
	r.Layouts[0].Exhausts[0].RatedBackPressure = f64(3.6)
	assert.Equal(t, "value", tradeoffFigure(r, u, engine, 0, 0).Plot.XAxisList[0].Type)
}

// On the page a layout is told from the rest by colour where it is chosen, and by black where it is on board.
func TestChosenLayoutStandsOut(t *testing.T) {
	r := sample(4, 1)
	r.Chosen, r.Today = 2, 1
	var colours []string
	for i := range r.Layouts {
		colours = append(colours, lookIn(r, i).Colour)
	}
	assert.Equal(t, []string{"other", "ink", "c1", "other"}, colours)
	assert.Equal(t, []int{2, 1}, r.InDetail())
	r.Today = 2
	assert.Equal(t, []int{2}, r.InDetail())
}

// Titles of curves say of which layout they are, and how far it goes.
func TestTitlesOfCurvesNameTheirLayout(t *testing.T) {
	r := sample(3, 1)
	r.Chosen = 1
	r.Sweeps = []report.PageSweep{{Layout: 1, Points: []report.PageSpeed{{SpeedRPM: 800, LevelDBA: []*float64{f64(60.4)}, BackPressureKPa: f64(0.4)}, {SpeedRPM: 2000, LevelDBA: []*float64{f64(71.6)}, BackPressureKPa: f64(2.5)}}}}
	assert.Equal(t, "At "+r.Listeners[0].Name+" with layout "+tag(r, 1)+": 60 to 72\u00a0dB(A) over speed", sweepFigure(r, unitsOf(false), 0).Title)
	assert.Empty(t, sweepSection(r, unitsOf(false)).Folds)
	r.Sweeps[0].Notes = []string{"Read once.", "Read once."}
	assert.Equal(t, []item{{Text: "Read once."}}, sweepSection(r, unitsOf(false)).Folds[0].Lists[0].Items)
	assert.Equal(t, "Back pressure with layout "+tag(r, 1)+": 0.40 to 2.50\u00a0kPa over speed", sweepPressure(r, unitsOf(false)).Title)
	r.Sweeps[0].Points[0].LevelDBA[0] = f64(71.8)
	assert.Equal(t, "At "+r.Listeners[0].Name+" with layout "+tag(r, 1)+": 72\u00a0dB(A) at every speed", sweepFigure(r, unitsOf(false), 0).Title, "what doesn't move is told once")
	r.Sweeps[0].Points[0].BackPressureKPa, r.Sweeps[0].Points[1].BackPressureKPa = nil, nil
	assert.Equal(t, "Back pressure over speed", sweepPressure(r, unitsOf(false)).Title)
}

// Of the boxes the one of the layout that is told of is in colour and named in the title, the rest grey.
func TestBoxOfTheChosenLayoutStandsOut(t *testing.T) {
	r := sample(3, 1)
	r.Chosen, r.Today = 1, 0
	for i := range r.Layouts {
		b := sampleBox()
		b.Name, b.Places, b.InsertionLossDBA = "box of "+r.Layouts[i].Name, []int{i}, f64(10+float64(i))
		r.Enclosures = append(r.Enclosures, b)
	}
	f := boxLoss(r)
	assert.Equal(t, "What each box takes off, by octave: box of "+r.Layouts[1].Name+" 11\u00a0dB(A) over all", f.Title)
	var classes []string
	for _, m := range f.Key {
		classes = append(classes, m.Class)
	}
	assert.Equal(t, []string{"k-ink", "k-c1", "k-other"}, classes)
}

// The foot of a sheet is a text that a style sheet can't take for anything else.
func TestFootOfASheet(t *testing.T) {
	assert.Equal(t, `"boat one.yaml, 0123"`, cssText("boat one.yaml, 0123"))
	assert.Equal(t, `"\000022\00005c\00003c/"`, strings.ReplaceAll(cssText("\"\\<\u202e\n/"), `\00002f`, "/"))
	r := sample(1, 1)
	assert.Equal(t, "boat.yaml, 0123456789ab", footOf(r))
	r.Hash = ""
	assert.Equal(t, "boat.yaml", footOf(r))
}

// What is said of every layout, or of every box, is said once.
func TestNothingIsRepeated(t *testing.T) {
	r := sample(3, 1)
	for i := range r.Layouts {
		r.Layouts[i].Heard[0].Means = []string{fmt.Sprintf("Talk carries %d m.", i+1), "The room booms."}
	}
	r.Layouts[1].Heard[0].Means = []string{"Talk is hard.", "It is loud.", "The room booms."}
	assert.Equal(t, []string{"With every layout: The room booms.", "Layouts 1 and 3: Talk carries 1-3 m.", "Layout 2: Talk is hard. It is loud."}, meanings(r, 0))
	boxes := &report.Page{Enclosures: []parts.Enclosure{{Name: "a", Warnings: []string{"leak assumed", "warm"}}, {Name: "b", Warnings: []string{"leak assumed"}}}}
	lists := boxVerdicts(boxes)
	require.Len(t, lists, 1)
	assert.Equal(t, []item{{Text: "Leak assumed."}, {Text: "A: warm."}}, lists[0].Items)
}

// An offer that can't be judged gets no reading to accept, and a refused layout no rank.
func TestOffersInWords(t *testing.T) {
	r := sample(2, 1)
	r.Layouts[1].Refused, r.Layouts[1].Refusals = true, []string{"Too wide."}
	r.Offers = []report.Offer{{Name: "offer A", Why: "offer A can't be judged because no octaves.", Layout: -1, Acceptance: []report.Reading{{LevelDBA: f64(70)}}},
		{Name: "offer C", Judged: true, Layout: 1, Rank: 1}}
	order := offerOrder(r.Offers)
	assert.Equal(t, "refused", verdict(r, r.Offers[1]))
	assert.Equal(t, []string{"Too wide."}, ranking(r, order).Items[0].Detail)
	assert.Equal(t, "Offer A can't be judged because no octaves.", unjudged(r, order).Items[0].Text, "the name stands once")
	assert.Len(t, quotesSection(r, unitsOf(false)).Lists, 2)
	r.Offers[0].Judged = true
	assert.Len(t, quotesSection(r, unitsOf(false)).Lists, 1, "no heading over nothing")
	r.Offers[0].Judged = false
	for _, row := range acceptanceTable(r, order).Rows {
		if row[0].Text == "offer A" {
			assert.Equal(t, "–", row[2].Text)
		}
	}
}

// A column in which nothing is said is left out; a column of numbers stays.
func TestSilentColumns(t *testing.T) {
	got := withoutEmptyColumns(table{Head: []string{"a", "b", "c", "d"}, Rows: [][]cell{{words(""), words(""), num("–"), words("x")}, {words("n"), words(""), num("–"), words("")}}})
	assert.Equal(t, []string{"a", "c", "d"}, got.Head)
	assert.Equal(t, "x", got.Rows[0][2].Text)
	assert.Len(t, got.Rows[1], 3)
}

// Ways that read alike are told alike, whichever is louder by a tenth; one that is louder leads.
func TestWaysThatReadAlike(t *testing.T) {
	r := sample(1, 1)
	paths := func(out, walls float64) {
		r.Layouts[0].Heard[0].Paths = []report.Route{{Way: "outlet", LevelDBA: &out}, {Way: "line wall", LevelDBA: &walls}}
	}
	paths(60.2, 59.8)
	assert.Equal(t, "as much comes out of the pipe’s end as through the walls of the line (60\u00a0dB(A) each)", ruled(r, 0, 0))
	paths(59.8, 60.2)
	assert.Equal(t, "as much comes through the walls of the line as out of the pipe’s end (60\u00a0dB(A) each)", ruled(r, 0, 0))
	paths(63, 60)
	assert.Regexp(t, "^most comes out of the pipe’s end", ruled(r, 0, 0))
}

// The heading counts the marks that are filled in the chart of its place.
func TestHeadingCountsWhatIsDrawn(t *testing.T) {
	for n := 1; n <= 5; n++ {
		r := sample(n, 2)
		r.Main = 1
		filled := 0
		for i := range r.Layouts {
			r.Layouts[i].Heard[0].OnFront = true
			r.Layouts[i].Heard[1].OnFront = i != 1
		}
		if n > 2 {
			r.Layouts[2].Exhausts[0].RatedBackPressure = nil // not in the chart
		}
		s := tradeoffSection(r, unitsOf(false))
		for _, m := range s.Figures[1].Key {
			if !m.Hollow {
				filled++
			}
		}
		assert.Contains(t, s.Title, "at "+r.Listeners[1].Name+" "+form.Counted(filled, "layout"))
	}
}

// Long names may break at their joints, figures may not, and nothing is lost.
func TestPartsOfNames(t *testing.T) {
	assert.Equal(t, []string{"engines.", "main.", "fuel_", "consumption 0.5 m"}, style.Parts("engines.main.fuel_consumption 0.5 m"))
	assert.Equal(t, []string{""}, style.Parts(""))
}

// A box that cooks its engine is said on the first screen.
func TestCookedEngineIsSaidAtOnce(t *testing.T) {
	r := sample(1, 1)
	r.Layouts[0].Refused = false
	r.Enclosures = []parts.Enclosure{{Name: "box", Places: []int{0}, Verdicts: []parts.Verdict{{Code: "cooked", Text: "too hot"}}}}
	assert.Contains(t, placesTable(r, unitsOf(false), &drawer{}).Rows[0][1].Text, "engine cooked in its box")
	assert.Contains(t, nextSteps(r).Items[0].Text, "leaves the engine cooked")
	r.Enclosures[0].Places = []int{7}
	assert.ErrorContains(t, drawable.Check(r), "no layout")
}

// Layouts with one and the same line share its charts, others never do.
func TestSameLinesStandTogether(t *testing.T) {
	r := sample(3, 1)
	for i := range r.Layouts {
		r.Layouts[i].Exhausts = []report.Exhaust{sampleExhaust(1)}
	}
	r.Layouts[1].Exhausts[0].Along[0].LossKPa = f64(9)
	assert.Equal(t, []int{0, 2}, sharers(r, 2, 0))
	assert.Equal(t, "Layouts 1 and 3", lineName(r, 0, 0))
	assert.Equal(t, titled(r, 1), lineName(r, 1, 0))
	assert.Len(t, lossSection(r).Figures, 2)
	assert.Len(t, yardSection(r, unitsOf(false), &drawer{}).Folds, 3, "the line shown, the other one, and prices")
}

// Lines that end together are named once, at the first of them; none is named twice.
func TestEndsOfLinesAreNamedOnce(t *testing.T) {
	r := &report.Page{}
	for i, level := range []float64{60, 61, 70} {
		r.Layouts = append(r.Layouts, report.PageLayout{Place: i + 1})
		r.Sweeps = append(r.Sweeps, report.PageSweep{Layout: i, Points: []report.PageSpeed{{SpeedRPM: 2000, LevelDBA: []*float64{f64(level)}}}})
	}
	value := func(q report.PageSpeed) *float64 { return q.LevelDBA[0] }
	assert.Equal(t, []string{"ends 1, 2", "nowhere 1", "ends 3"}, endNames(r, plot.Scale{Low: 50, High: 80, Step: 5}, value))
	assert.Equal(t, []string{"ends 1", "ends 2", "ends 3"}, endNames(r, plot.Scale{Low: 59, High: 71, Step: 1}, value))
	r.Sweeps[0].Points = nil
	assert.Equal(t, []string{"nowhere 0", "ends 2", "ends 3"}, endNames(r, plot.Scale{Low: 50, High: 80, Step: 5}, value))
}

// The name of a limit stands at the end of its line where the curves are further off; pins count as well.
func TestLimitIsNamedClearOfTheCurves(t *testing.T) {
	x, y := plot.Scale{Low: 1000, High: 2000, Step: 250}, plot.Scale{Low: 50, High: 90, Step: 10}
	r := sample(2, 1)
	r.Listeners[0].LimitDBA = f64(60)
	rising := func(from float64) (out []report.PageSpeed) {
		for k := range 11 {
			out = append(out, report.PageSpeed{SpeedRPM: 1000 + 100*float64(k), LevelDBA: []*float64{f64(from + 2*float64(k))}})
		}
		return out
	}
	r.Sweeps = []report.PageSweep{{Layout: 0, Points: rising(70)}}
	assert.Equal(t, "insideStartTop", clearEnd(r, 0, x, y), "no curve near it")
	r.Sweeps[0].Points = rising(60)
	assert.Equal(t, "insideEndTop", clearEnd(r, 0, x, y), "the curve begins at the limit")
	r.Sweeps[0].Points = rising(41)
	assert.Equal(t, "insideStartTop", clearEnd(r, 0, x, y), "it ends there")
	r.Sweeps[0].Points = rising(70)
	r.Sweeps[0].Booms = []report.PageBoom{{SpeedRPM: 1100}}
	assert.Equal(t, "insideEndTop", clearEnd(r, 0, x, y), "a pin stands at the left")
}

// A price that leaves something out is a least price; one that nobody stated stays a dash.
func TestPriceThatLeavesSomethingOut(t *testing.T) {
	r := sample(2, 1)
	r.Layouts[0].Price, r.Layouts[0].PriceNote = f64(1840), "without flanges: not priced"
	r.Layouts[1].Price, r.Layouts[1].PriceNote = f64(2790), ""
	prices := func() (out []string) {
		for _, row := range placesTable(r, unitsOf(false), &drawer{}).Rows {
			out = append(out, row[len(row)-1].Text)
		}
		return out
	}
	assert.Equal(t, []string{"from 1\u202f840", "2\u202f790"}, prices())
	r.Layouts[0].Price = nil
	assert.Equal(t, "–", prices()[0])
}

// The number at the end of a curve that ends on its limit stands beside the line of the limit, not under it. A run takes some of the distances.
func TestEndOfACurveIsClearOfTheLimit(t *testing.T) {
	distances := []float64{-1, -0.2, 0, 0.3, 1}
	for i := range turns.Of(t, len(distances), 3) {
		off := distances[i]
		r := full()
		points := r.Sweeps[0].Points
		r.Listeners[0].LimitDBA = f64(*points[len(points)-1].LevelDBA[0] + off)
		page := filepath.Join(t.TempDir(), "page.html")
		require.NoError(t, os.WriteFile(page, written(t, r), 0o600))
		b := startBrowser(t)
		b.Visit(page)
		b.DrawAll()
		var apart []float64
		b.Eval(`(function (svg) {
			function middle(e) { var r = e.getBoundingClientRect(); return r.top + r.height / 2; }
			var line = Array.from(svg.querySelectorAll('path')).filter(function (p) { var r = p.getBoundingClientRect(); return p.getAttribute('stroke-dasharray') && r.height < 1 && r.width > 100; });
			var names = Array.from(svg.querySelectorAll('text')).filter(function (x) { return /^\d+(, \d+)*$/.test(x.textContent) && /bold/.test(x.outerHTML); });
			function left(x) { return x.getBoundingClientRect().left; }
			names = names.filter(function (x) { return left(x) > Math.max.apply(null, names.map(left)) - 12; }); // those of pins stand further left
			return line.length === 1 ? names.map(function (x) { return Math.abs(middle(x) - middle(line[0])); }) : [];
		})(document.querySelector('#speed .chart svg'))`, &apart)
		require.NotEmpty(t, apart, "no limit, or no number at a curve's end")
		for _, d := range apart {
			assert.Greater(t, d, 7.0, "px between the limit and the middle of a number, %g dB off", off)
		}
	}
}

// A step of bore between two parts is nothing to build, and isn't counted as the picture doesn't number it.
func TestPartsOfALineAreThoseToBuild(t *testing.T) {
	r := sample(1, 1)
	before := toBuild(r, unitsOf(false))
	e := &r.Layouts[0].Exhausts[0]
	e.Along = append(e.Along, report.Along{Name: "step", Kind: "step"})
	assert.Equal(t, before, toBuild(r, unitsOf(false)))
	e.Along = append(e.Along, report.Along{Name: "tail", Kind: "pipe"})
	assert.NotEqual(t, before, toBuild(r, unitsOf(false)))
}

// Every word of the trade that a section offers to explain is explained.
func TestTermsAreExplained(t *testing.T) {
	for _, s := range sectionsOf(full(), unitsOf(false), &drawer{}) {
		for _, w := range s.Terms {
			assert.NotEmpty(t, w.Means, w.Name)
		}
	}
}

// A span that a sheet leaves open is marked over where all of it is, and at worst where its upper end is.
func TestOpenSpansAreMarked(t *testing.T) {
	r := sample(2, 1)
	low, high, limit := 63.0, 87.0, 75.0
	r.Listeners[0].LimitDBA = &limit
	h := &r.Layouts[0].Heard[0]
	h.LevelDBA, h.LowDBA, h.HighDBA = nil, &low, &high
	assert.Equal(t, "63 to 87 over at worst", levelCell(r, 0, 0).Text)
	assert.NotContains(t, levelCell(r, 0, 0).Class, "bad")
	limit = 60
	assert.Equal(t, "63 to 87"+style.Over, levelCell(r, 0, 0).Text)
	assert.Contains(t, levelCell(r, 0, 0).Class, "bad")
	limit = 90
	assert.Equal(t, "63 to 87", levelCell(r, 0, 0).Text)
}

// The key shows the lines of the orders as the chart draws them, and names the firing frequency only where it stands there.
func TestOrdersAreDrawnAsTheKeySays(t *testing.T) {
	r := sample(1, 1)
	key := func() string {
		k := lossFigure(r, 0, 0, lossScale(r)).Key
		assert.Equal(t, plot.SvgDash[0], k[2].Dash)
		return k[2].Text
	}
	assert.Equal(t, "strongest engine orders (thick: firing)", key())
	lines := orderLines(r.Layouts[0].Exhausts[0].Loss.Orders, lossScale(r).x)
	assert.Equal(t, "solid", lines.LineStyle.Type)
	r.Layouts[0].Exhausts[0].Loss.Orders[0].FrequencyHz = 5
	assert.Equal(t, "strongest engine orders", key(), "below the scale")
	r.Layouts[0].Exhausts[0].Loss.Orders = r.Layouts[0].Exhausts[0].Loss.Orders[1:]
	assert.Equal(t, "strongest engine orders", key())
}

// The words of parts and of dangers are explained where the page says them, and nowhere else.
func TestWordsOfPartsAreExplained(t *testing.T) {
	r := full()
	r.Own = append(r.Own, report.Caution{Severity: "danger", Text: "The bellows are short.", Action: "Fit a second."})
	r.Layouts[0].Exhausts[0].Along = append(r.Layouts[0].Exhausts[0].Along, report.Along{Name: "box", Kind: "lift chamber"})
	explained := map[string]string{}
	for _, s := range sectionsOf(r, unitsOf(false), &drawer{}) {
		for _, w := range s.Terms {
			explained[s.ID] += w.Name + "; "
		}
	}
	assert.Contains(t, explained["places"], "bellows")
	assert.Contains(t, explained["yard"], "lift chamber")
	assert.NotContains(t, explained["places"]+explained["yard"], "anti siphon")
}

// Of a layout that has to be asked about first nothing is found, and what has no level has no curve in the key.
func TestWhatCannotBeJudgedHasNoFinding(t *testing.T) {
	r := sample(2, 1)
	e := report.Exhaust{InsertionLossDBA: f64(11)}
	assert.Contains(t, takesOff(r.Layouts[0], e), "11\u00a0dB(A) off")
	r.Layouts[0].Verdict = report.VerdictAsk
	assert.NotContains(t, takesOff(r.Layouts[0], e), "11")
	n := len(spectrumFigure(r, 0).Key)
	r.Layouts[0].Heard[0].Bands = make([]*float64, len(r.BandsHz))
	assert.Len(t, spectrumFigure(r, 0).Key, n-1)
}
