package live

import (
	"encoding/json"
	"fmt"
	"html"
	"maps"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/boatfile/edit"
	"hushwake/path/boatfile/lines"
	session "hushwake/path/live"
	"hushwake/path/report"
	"hushwake/path/study/readings"
)

func answered(t testing.TB, d *Desk, message string) (a answer) {
	t.Helper()
	require.NoError(t, json.Unmarshal(d.Handle([]byte(message)), &a))
	return a
}

func TestOnlyWhatChangedIsSentAgain(t *testing.T) {
	d := newDesk(session.New("boat.yaml", demo(t)))
	all := answered(t, d, `{"op":"show","page":"a"}`)
	assert.Contains(t, all.Fragments, "boat")
	assert.Empty(t, answered(t, d, `{"op":"show","page":"a"}`).Fragments)
	changed := answered(t, d, `{"op":"set","page":"a","at":"/listeners/helm/limit","to":"71 dBA"}`).Fragments
	assert.Contains(t, changed, "controls-seats")
	assert.NotContains(t, changed, "controls-line")
	assert.Len(t, answered(t, d, `{"op":"show","page":"b"}`).Fragments, len(all.Fragments), "another page has seen nothing yet")
	assert.Len(t, answered(t, d, `{"op":"show","page":"a"}`).Fragments, len(all.Fragments), "and the first one not that")
}

func TestFiguresAreThoseOfCompare(t *testing.T) {
	text := demo(t)
	d := newDesk(session.New("boat.yaml", text))
	answered(t, d, `{"op":"set","at":"`+bore+`","to":"128 mm"}`)
	a := answered(t, d, `{"op":"full"}`)
	require.Equal(t, session.Full, a.Form)
	assert.Equal(t, a.Stamp, a.Figures.Stamp)
	b, err := boatfile.Load("boat.yaml", d.Text())
	require.NoError(t, err)
	known, err := report.Know(b, readings.Options{})
	require.NoError(t, err)
	w, err := report.NewComparison(b, b.Layouts, 0, known)
	require.NoError(t, err)
	for i, l := range w.Document().(report.Compare).Layouts {
		for j, h := range l.Listeners {
			assert.Equal(t, levelFigures{h.Name, h.LevelDBA, h.LowDBA, h.HighDBA}, a.Figures.Layouts[i].Listeners[j])
		}
	}
}

func TestWhatMakesNoSenseChangesNothing(t *testing.T) {
	d := newDesk(session.New("boat.yaml", demo(t)))
	was := string(d.Text())
	for _, m := range []string{"", "{", "null", "[]", `{"op":7}`, `{"op":"fly"}`, `{"op":"set"}`, `{"op":"set","at":"nowhere","to":"1"}`, `{"op":"set","at":"` + bore + `","to":"["}`,
		`{"op":"remove","at":"/layouts/99"}`, `{"op":"insert","at":"/","to":"x"}`, `{"op":"layout","to":"none"}`, `{"op":"note","to":"loud"}`, "\x00\xff", `{"op":"units","to":"cubits"}`} {
		a := answered(t, d, m)
		assert.NotNil(t, a.Fragments, m)
		answered(t, d, `{"op":"undo"}`)
		assert.Equal(t, was, string(d.Text()), m)
	}
}

// broken is a session that fails.
type broken struct{ *session.Session }

func (b *broken) Do(m session.Message) session.Answer {
	if m.Op == "set" {
		panic("out of paper")
	}
	return b.Session.Do(m)
}

func TestAFaultIsAnswered(t *testing.T) {
	d := newDesk(&broken{session.New("boat.yaml", demo(t))})
	a := answered(t, d, `{"op":"set","at":"`+bore+`","to":"1 m"}`)
	require.Len(t, a.Errors, 1)
	assert.Contains(t, a.Errors[0].Message, "out of paper")
	assert.Contains(t, a.Fragments["problems"], "out of paper")
	assert.NotNil(t, a.Figures, "what stood stays")
	assert.Empty(t, answered(t, d, `{"op":"show"}`).Errors, "it goes on")
}

func TestATextThatDoesNotLoadIsShownWithItsSlips(t *testing.T) {
	for _, text := range []string{"", "boat: [", "a: 1\n", "\x00", strings.Repeat("- ", 3000)} {
		d, err := NewDesk("boat.yaml", []byte(text))
		require.NoError(t, err)
		a := answered(t, d, `{"op":"show"}`)
		assert.Nil(t, a.Figures)
		if text != "" {
			assert.NotEmpty(t, a.Fragments["problems"], text)
		} else {
			assert.Contains(t, a.Fragments["interview"], "What do you want to know?")
		}
	}
	_, err := NewDesk("boat.yaml", make([]byte, mostText+1))
	require.ErrorContains(t, err, "hint: ")
}

func TestUnitsOfThePage(t *testing.T) {
	d := newDesk(session.New("boat.yaml", demo(t)))
	assert.Contains(t, answered(t, d, `{"op":"show"}`).Fragments["layouts"], " kW of heat")
	a := answered(t, d, `{"op":"units","to":"imperial"}`)
	assert.NotContains(t, a.Fragments["layouts"], " kW of heat")
	assert.NotContains(t, a.Fragments["steps"], " m2 ")
	assert.Equal(t, string(demo(t)), string(d.Text()))
}

// plainBoat has one layout and no more than its line needs.
const plainBoat = `boat: unknown
engines:
  main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}, in: engine room}
spaces:
  engine room: unknown
listeners:
  helm: {in: outside, at: [6 m, 0 m, 2 m]}
layouts:
  - name: as is
    exhausts:
      main:
        line:
          - pipe: {bore: 76 mm, length: 3 m}
          - elbow: {bore: 76 mm}
          - pipe: {bore: 76 mm, length: 1 m}
        outlet: {at: [0 m, 0.6 m, 0.3 m]}
`

// Every kind of part that a file may hold can be put into a line by the page's own form: before its first part, before its last one, at its
// end. Where the file has no quotes, nothing is offered that is made of them.
func TestEveryKindCanBePutIntoALine(t *testing.T) {
	ofOffers := func(kind string) bool { return kind == "quote" || kind == "one_of" }
	for _, quotes := range []string{"", "quotes: {A: {insertion_loss: {overall: 20 dB}}, 'B, lagged': {price: 900}}\n"} {
		text := []byte(plainBoat + quotes)
		v := newDesk(session.New("boat.yaml", text)).view(nil)
		line := v.lines()[0]
		last := v.lastPart(line)
		require.Equal(t, line+"/2", last)
		for _, at := range []string{line + "/0", last, line + "/3"} {
			kinds := offeredAt(v, at)
			for kind, item := range kinds {
				put := edit.Insert
				if at > last {
					put = func(text []byte, _, item string) ([]byte, error) { return edit.Add(text, line, item) }
				}
				into, err := put(text, at, item)
				require.NoError(t, err, kind)
				isThere(t, into, at+"/"+kind)
			}
			want := lines.Kinds()
			if quotes == "" {
				want = slices.DeleteFunc(want, ofOffers)
			}
			assert.ElementsMatch(t, want, slices.Collect(maps.Keys(kinds)), at)
		}
	}
}

// offeredAt are the parts of the form beside a part, by their kind.
func offeredAt(v *view, at string) map[string]string {
	var m markup
	v.partForm(&m, "insert", at, at, "Which")
	out := map[string]string{}
	for _, found := range regexp.MustCompile(`value="([^"]*)"`).FindAllStringSubmatch(m.String(), -1) {
		item := html.UnescapeString(found[1])
		if kind, _, ok := strings.Cut(item, ": "); ok {
			out[strings.TrimPrefix(kind, "{")] = item
		}
	}
	return out
}

// isThere asks for a file that is read and has something at a place.
func isThere(t *testing.T, text []byte, at string) {
	_, err := boatfile.Load("boat.yaml", text)
	assert.NoError(t, err, at)
	_, ok := edit.Get(text, at)
	assert.True(t, ok, at)
}

func TestAPlaceLeftOpenHasANameOfItsOwn(t *testing.T) {
	text, at := []byte(plainBoat), "/layouts/0/exhausts/main/line/1"
	for range 2 {
		v := newDesk(session.New("boat.yaml", text)).view(nil)
		var err error
		text, err = edit.Insert(text, at, offeredAt(v, at)["slot"])
		require.NoError(t, err)
		isThere(t, text, at+"/slot")
	}
}

func TestAPartTakesTheBoreBesideIt(t *testing.T) {
	d := newDesk(session.New("boat.yaml", demo(t)))
	v := d.view(nil)
	assert.Equal(t, "76 mm", v.boreNear("/layouts/0/exhausts/main/line/5"))
	assert.Equal(t, "128 mm", v.boreNear("/layouts/0/exhausts/main/line/0"))
	assert.Equal(t, "unknown", v.boreNear("/layouts/7/exhausts/main/line/0"))
}

func TestEveryControlStandsInAGroup(t *testing.T) {
	for at, want := range map[string]string{"/engines/main/power": "engine", "/layouts/0/exhausts/main/line/1/pipe/bore": "line", "/layouts/1/replace/old silencer/packed/bore": "line",
		"/layouts/0/exhausts/main/outlet/bore": "outlet", "/partitions/0/open_area": "walls", "/layouts/1/changes/partitions/0/open_area": "walls", "/enclosures/box/size": "box",
		"/listeners/helm/limit": "seats", "/weather/air": "rest", "/": "rest"} {
		for _, g := range groups {
			if g.takes(tokens(at)) {
				assert.Equal(t, want, g.id, at)
				break
			}
		}
	}
}

func TestAGainIsTakenWhereItIsAnEdit(t *testing.T) {
	text := demo(t)
	assert.Equal(t, "/partitions/13/open_area", gapOf(text, "wheelhouse door"))
	assert.Empty(t, gapOf(text, ""))
	assert.Empty(t, gapOf(text, "no such wall"))
	d := newDesk(session.New("boat.yaml", text))
	answered(t, d, `{"op":"show","page":"a"}`)
	d.gains = &gains{stamp: d.last.Stamp, layout: "as found", all: []report.Gain{{Change: "the gaps of wheelhouse door sealed", DB: []float64{-3, 0, 0, 0, 0}}}, places: []string{"/partitions/13/open_area"}}
	list := answered(t, d, `{"op":"show","page":"a"}`).Fragments["gains"]
	assert.Contains(t, list, `data-op="set" data-at="/partitions/13/open_area" data-to="0 m2"`)
	assert.Contains(t, list, ">−3<")
	list = answered(t, d, `{"op":"set","page":"a","at":"/partitions/13/open_area","to":"0 m2"}`).Fragments["gains"]
	assert.Contains(t, list, "of the text before the last change")
	assert.NotContains(t, list, `data-op="set"`, "what was worked out for another text is not taken")
}

func TestMoreOfAThingIsShownOnDemand(t *testing.T) {
	d := newDesk(session.New("boat.yaml", demo(t)))
	const mass = `data-at="/engines/main/mass"`
	const count = `data-at="/engines/main/mounts/count"`
	first := answered(t, d, `{"op":"show","page":"a"}`).Fragments["controls-engine"]
	assert.Contains(t, first, mass, "it is dear not to know")
	assert.NotContains(t, first, count)
	assert.Contains(t, answered(t, d, `{"op":"more","page":"a","at":"/engines/main"}`).Fragments["controls-engine"], count)
	assert.Equal(t, first, answered(t, d, `{"op":"more","page":"a","at":"/engines/main"}`).Fragments["controls-engine"])
}

func TestSeveralAtOnce(t *testing.T) {
	d := newDesk(session.New("boat.yaml", demo(t)))
	var all sync.WaitGroup
	for k := range 4 {
		all.Go(func() { d.Handle([]byte(fmt.Sprintf(`{"op":"set","at":"/listeners/helm/limit","to":"%d dBA"}`, 60+k))) })
	}
	all.Wait()
	assert.Contains(t, string(d.Text()), "limit: 6")
}

func TestScriptIsSmall(t *testing.T) {
	assert.Less(t, len(pageScript), 12_000, "bytes, without the interview's part")
	assert.NotContains(t, script, "eval(")
}

func TestThePageOfAWorkerHoldsItsProgram(t *testing.T) {
	d := newDesk(session.New("boat.yaml", demo(t)))
	page := string(Page(PageOptions{Name: "boat.yaml", Desk: d, Worker: "'</script>'", Program: "wasm"}))
	assert.True(t, strings.Contains(page, `<script type="text/plain" id="worker">'<\/script>'</script>`))
	assert.True(t, strings.Contains(page, `id="program">wasm<`))
	policy := Policy(PageOptions{Worker: "w"})
	assert.Contains(t, policy, "'wasm-unsafe-eval'; worker-src blob:")
	assert.NotContains(t, policy, "connect-src", "it asks nobody")
	assert.NotContains(t, Policy(PageOptions{}), "wasm")
}

func BenchmarkDrawing(b *testing.B) {
	d := newDesk(session.New("boat.yaml", demo(b)))
	b.ReportAllocs()
	for b.Loop() {
		d.page = ""
		d.Handle([]byte(`{"op":"units"}`))
	}
}

func BenchmarkBore(b *testing.B) {
	d := newDesk(session.New("boat.yaml", demo(b)))
	for k := 0; b.Loop(); k++ {
		d.Handle([]byte(fmt.Sprintf(`{"op":"set","page":"a","at":"%s","to":"%d mm"}`, bore, 80+k%40)))
	}
}
