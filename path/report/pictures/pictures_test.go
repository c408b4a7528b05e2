package pictures

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/charts/picture"
	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/room"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
	"hushwake/testdata/turns"
)

var (
	demosOnce = map[string]Drawn{}
	imperial  = form.Units{System: quantity.Imperial}
)

func drawn(t *testing.T, b *path.Boat) Drawn {
	t.Helper()
	k, err := report.Know(b, readings.Options{Options: draws.Options{N: 100}})
	require.NoError(t, err)
	w, err := report.NewComparison(b, b.Layouts, 0, k)
	require.NoError(t, err)
	return Of(w)
}

// demoOnce is the comparison of a demo, worked out once; nobody changes it.
func demoOnce(t *testing.T, demo string) Drawn {
	t.Helper()
	if _, done := demosOnce[demo]; !done {
		b, err := boatfile.LoadFile("../../../testdata/" + demo + ".yaml")
		require.NoError(t, err)
		demosOnce[demo] = drawn(t, b)
	}
	return demosOnce[demo]
}

// seen is what stands in one view of the boat, by attribute and name.
type seen struct {
	count  map[string]int
	level  map[string]string // at a seat
	plates [][4]float64      // of labels: x, y, width, height
}

// views reads the picture of a boat back.
func views(t *testing.T, svg string) map[string]*seen {
	t.Helper()
	d, out := xml.NewDecoder(strings.NewReader(svg)), map[string]*seen{}
	var at *seen
	for {
		token, err := d.Token()
		if token == nil {
			return out
		}
		require.NoError(t, err)
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		a := map[string]string{}
		for _, x := range e.Attr {
			a[x.Name.Local] = x.Value
		}
		if v := a["data-view"]; v != "" {
			at = &seen{map[string]int{}, map[string]string{}, nil}
			out[v] = at
		}
		for _, k := range []string{"data-seat", "data-label", "data-space", "data-outlet", "data-engine"} {
			if v, ok := a[k]; ok {
				at.count[k+" "+v]++
			}
		}
		if v, ok := a["data-level"]; ok {
			at.level[a["data-label"]] = v
		}
		if strings.Contains(a["class"], "pic-plate") {
			var r [4]float64
			for i, k := range []string{"x", "y", "width", "height"} {
				r[i], err = strconv.ParseFloat(a[k], 64)
				require.NoError(t, err)
			}
			at.plates = append(at.plates, r)
		}
	}
}

// In the picture of every layout of every demo each seat, each outlet and each space and engine with a place stands once in each
// view, with the level that the document gives, and no two labels touch.
func TestBoatPictureIsTheDocument(t *testing.T) {
	demos := []string{"three-quotes", "dry-stack", "generator-box", "everything"}
	for i := range turns.Of(t, len(demos), 2) {
		demo := demos[i]
		w := demoOnce(t, demo)
		doc := w.Document().(report.Compare)
		for i := range w.Predictions {
			b := w.Pictures(i, form.Units{}).Boat
			require.NotNil(t, b, demo)
			for _, width := range []picture.Width{picture.Wide, picture.Narrow} {
				svg, err := b.SVG("b", width)
				require.NoError(t, err)
				all := views(t, svg)
				require.Len(t, all, 2)
				for name, v := range all {
					where := fmt.Sprint(demo, ", ", w.Predictions[i].Layout.Name, ", ", name, width)
					standsOnce(t, where, w, i, v)
					for k, p := range v.plates {
						for _, q := range v.plates[k+1:] {
							assert.False(t, p[0] < q[0]+q[2] && q[0] < p[0]+p[2] && p[1] < q[1]+q[3] && q[1] < p[1]+p[3], "%s: labels touch: %v %v", where, p, q)
						}
					}
				}
				for _, h := range doc.Layouts[i].Listeners {
					assert.Contains(t, levelWords(h), all["side"].level[h.Name], "%s, %s", demo, h.Name)
				}
			}
		}
	}
}

// levelWords are what a picture says of a level: what the three decimals of the document come to.
func levelWords(h report.Listener) []string {
	if h.LevelDBA == nil {
		return []string{form.Whole(*h.LowDBA) + " to " + form.Whole(*h.HighDBA) + " dB(A)"}
	}
	return []string{form.Whole(*h.LevelDBA) + " dB(A)"}
}

func standsOnce(t *testing.T, where string, w Drawn, i int, v *seen) {
	t.Helper()
	l := w.Predictions[i].Layout
	want := map[string]int{}
	for _, x := range w.Boat.Listeners {
		want["data-seat "+x.Name]++
		want["data-label "+x.Name]++
	}
	for _, s := range l.Spaces {
		if s.AtStated {
			want["data-space "+s.Name]++
		}
	}
	for _, e := range l.Engines {
		if e.AtStated {
			want["data-engine "+e.Name]++
		}
	}
	for _, x := range l.Exhausts {
		want["data-outlet "+x.Engine+" outlet"]++
	}
	assert.Equal(t, want, v.count, where)
	for what, n := range v.count {
		assert.Equal(t, 1, n, "%s: %s", where, what)
	}
}

// The rungs of a ladder add up, as energy, to the level of the seat in the document, and none is lost.
func TestLadderIsTheLevel(t *testing.T) {
	for _, demo := range []string{"dry-stack", "generator-box"} {
		w := demoOnce(t, demo)
		doc := w.Document().(report.Compare)
		for i := range w.Predictions {
			pics := w.Pictures(i, form.Units{})
			name, words, found := strings.Cut(pics.Boat.Title, ": ")
			level, _, _ := strings.Cut(words, " at "+w.Seat())
			assert.True(t, found)
			assert.Equal(t, w.Predictions[i].Layout.Name, name)
			assert.Contains(t, levelWords(doc.Layouts[i].Listeners[0]), level)
			if limit := w.Boat.Listeners[0].Limit; limit != nil {
				assert.Equal(t, *doc.Layouts[i].Listeners[0].LevelDBA > *limit, strings.Contains(pics.Boat.Title, "over its limit"))
			}
			for j, l := range pics.Ladders {
				share, _, _ := strings.Cut(l.Title, " % of what")
				percent, err := strconv.ParseFloat(share, 64)
				require.NoError(t, err)
				assert.InDelta(t, 100*spectrum.Power(l.Rungs[0].Level-*doc.Layouts[i].Listeners[j].LevelDBA), percent, 0.6, "rounded")
				assert.Contains(t, l.Title, l.Rungs[0].Way.Words())
				var sum, routes float64
				for k, r := range l.Rungs {
					sum += spectrum.Power(r.Level)
					assert.True(t, k == 0 || r.Level <= l.Rungs[k-1].Level)
					for _, x := range r.Routes {
						routes += spectrum.Power(x.Level)
					}
				}
				h := doc.Layouts[i].Listeners[j]
				assert.InDelta(t, *h.LevelDBA, spectrum.Level(sum), 0.01, "%s, %s", l.Layout, l.Seat)
				assert.InDelta(t, *h.LevelDBA, spectrum.Level(routes), 0.01)
				assert.InDelta(t, *h.LevelDBA, l.Total.DBA, 1e-3)
				assert.Equal(t, w.Boat.Listeners[j].Limit, l.Limit)
				assert.InDelta(t, *h.LevelDBA, pics.Bands[j].Level.DBA, 1e-3)
				assert.LessOrEqual(t, pics.Bands[j].From, *h.LowDBA)
				assert.GreaterOrEqual(t, pics.Bands[j].To, *h.HighDBA)
			}
		}
	}
}

// A waterfall begins with the level of the source and ends with that of the loudest route of each layout, beside what is
// heard there in all.
func TestWaterfallEndsAtTheRoute(t *testing.T) {
	w := demoOnce(t, "dry-stack")
	for i := range w.Predictions {
		for j := range w.Boat.Listeners {
			f := w.Waterfall(0, i, j, form.Units{})
			require.NotEmpty(t, f.Cascades)
			shown := []int{0, i}
			if i == 0 {
				shown = shown[:1]
			}
			require.Len(t, f.Cascades, len(shown))
			for n, at := range shown {
				h := &w.Predictions[at].Listeners[j]
				falls, loudest := f.Cascades[n].Falls, h.Routes[0]
				for _, r := range h.Routes {
					assert.LessOrEqual(t, r.DBA(), loudest.DBA())
				}
				require.Len(t, falls, len(loudest.Steps))
				assert.InDelta(t, loudest.DBA(), falls[len(falls)-1].After, 1e-6)
				assert.InDelta(t, loudest.Steps[0].Bands.Plus(loudest.Weighted().Minus(loudest.Bands)).Total(), falls[0].After, 1e-9)
				assert.InDelta(t, w.Spread.Layouts[at].Listeners[j].Level, f.Cascades[n].All, 1e-9)
			}
		}
	}
}

// The line of a picture is that of the document: as many elements, as long, and its pressure what the engine feels.
func TestLinePictureIsTheLine(t *testing.T) {
	w := demoOnce(t, "dry-stack")
	for i := range w.Predictions {
		r := w.Predictions[i].Exhausts[0]
		l := w.Pictures(i, form.Units{}).Lines[0]
		elements := 1 // with the outlet
		for _, row := range r.Rated.Rows {
			if row.Index > 0 {
				elements++
			}
		}
		require.Len(t, l.Parts, elements)
		long := 0.0
		for _, p := range l.Parts {
			long += p.Length
		}
		assert.InDelta(t, r.Rated.Length, long, 1e-9)
		assert.InDelta(t, r.Rated.BackPressure, l.Parts[0].Pressure, 1e-9)
		assert.InDelta(t, r.RatedSource.Temperature-273.15, l.GasC, 1e-9, "what the engine gives at rated")
		assert.Greater(t, l.GasC, l.Parts[0].GasC, "a wall cools it")
		last := len(l.Parts) - 1
		assert.InDelta(t, r.Rated.Rows[len(r.Rated.Rows)-1].PressureLoss, l.Parts[last].Pressure, 1e-6, "what is left at the last element is its own loss")
	}
	feet := w.Pictures(0, imperial).Lines[0]
	assert.True(t, feet.Feet)
	assert.Contains(t, feet.Parts[1].Size, " in")
}

// The box of a picture has the air of the document of boxes.
func TestBoxPictureIsTheBox(t *testing.T) {
	w := demoOnce(t, "generator-box")
	for i := range w.Predictions {
		all := w.Pictures(i, form.Units{}).Boxes
		require.Len(t, all, 1)
		air := w.Predictions[i].Exhausts[0].Box.Running
		assert.Equal(t, fmt.Sprintf("%.0f °C", air.Outside+air.Rise-273.15), all[0].Inside)
		assert.Equal(t, air.Rise > air.AllowedRise, all[0].TooHot)
		assert.Equal(t, "1500 rpm and 6.1 kW", all[0].Duty, "what the foot of the page says of the set")
		assert.Len(t, all[0].Openings, len(w.Predictions[i].Layout.Enclosures[0].Openings))
		for _, r := range all[0].Ways {
			assert.NotContains(t, []picture.Way{picture.Outlet, picture.LineWall, picture.Background}, r.Way)
		}
	}
}

// A box whose air is too hot at rated alone is marked so, with that figure; as hot as it runs, it keeps the running one.
func TestBoxTooHotAtRatedIsMarked(t *testing.T) {
	w := demoOnce(t, "generator-box")
	boxed, enc := *w.Predictions[0].Exhausts[0].Box, &w.Predictions[0].Layout.Enclosures[0]
	boxed.Running.Outside, boxed.Running.Rise, boxed.Running.AllowedRise = 300.15, 9, 15
	boxed.Air.Outside, boxed.Air.Rise, boxed.Air.Verdicts = 300.15, 44, []room.Verdict{{Code: "cooked"}}
	b := w.boxPicture(0, &boxed, enc, form.Units{})
	assert.True(t, b.TooHot)
	assert.Equal(t, []string{"36 °C", "71 °C"}, []string{b.Inside, b.Rated}, "27 and 9, 27 and 44")
	assert.Contains(t, b.Title, "at rated it is at 71 °C")
	drawn, err := b.SVG("b", picture.Narrow)
	require.NoError(t, err)
	assert.Regexp(t, `pf-alarm[^>]*>rated: 71 °C<`, drawn)
	boxed.Running.Rise = 40
	assert.Empty(t, w.boxPicture(0, &boxed, enc, form.Units{}).Rated)
	boxed.Air.Verdicts, boxed.Running.Rise = nil, 9
	assert.False(t, w.boxPicture(0, &boxed, enc, form.Units{}).TooHot)
}

// The arrows to the seat are its ways within 15 dB of the loudest, each from where it begins.
func TestArrowsBeginAtTheirSource(t *testing.T) {
	w := demoOnce(t, "dry-stack")
	for i := range w.Predictions {
		l, b := w.Predictions[i].Layout, w.Pictures(i, form.Units{}).Boat
		top, want := -100.0, 0
		for _, r := range w.Pictures(i, form.Units{}).Ladders[w.Listener].Rungs {
			top = math.Max(top, r.Level)
			if r.Level >= top-15 && r.Way != picture.Together {
				want++
			}
		}
		assert.Len(t, b.Ways, want)
		for _, a := range b.Ways {
			engine, outlet := picture.Point(l.Engines[0].At), picture.Point(l.Exhausts[0].Line.Outlet.At)
			switch a.Way {
			case picture.Outlet:
				assert.Equal(t, outlet, a.From)
			case picture.Air, picture.Structure:
				assert.Equal(t, engine, a.From)
			case picture.LineWall:
				assert.Contains(t, b.Runs[0].Points, a.From)
				assert.NotEqual(t, outlet, a.From)
			case picture.Background:
				assert.True(t, a.Nowhere)
			}
		}
		run := b.Runs[0].Points
		assert.Equal(t, picture.Point(l.Engines[0].At), run[0])
		assert.Equal(t, picture.Point(l.Exhausts[0].Line.Outlet.At), run[len(run)-1])
	}
	assert.Equal(t, "as found", w.Pictures(len(w.Predictions)-1, form.Units{}).Boat.Now, "the ghost")
	assert.Empty(t, w.Pictures(1, form.Units{}).Boat.Now, "no ghost where the run is the same")
}

// Whatever gives nothing a place has no picture, and what has none is named.
func TestPlacesThatAreNotStated(t *testing.T) {
	text, err := os.ReadFile("../../../testdata/dry-stack.yaml")
	require.NoError(t, err)
	at := "in: engine space, at: [5.9 m, 0 m, -0.3 m]"
	require.Contains(t, string(text), at)
	b, err := boatfile.Load("dry-stack.yaml", bytes.ReplaceAll(text, []byte(at), []byte("in: engine space")))
	require.NoError(t, err)
	b.Layouts, b.Readings = b.Layouts[:1], nil
	w := drawn(t, b)
	pic := w.Pictures(0, form.Units{}).Boat
	require.NotNil(t, pic)
	assert.Equal(t, []string{"main"}, pic.Unplaced)
	assert.Empty(t, pic.Runs, "no run begins at an engine without a place")
	for _, a := range pic.Ways {
		assert.Equal(t, a.Way != picture.Outlet, a.Nowhere, a.Way)
	}
	for k := range w.Predictions[0].Layout.Spaces {
		w.Predictions[0].Layout.Spaces[k].AtStated = false
	}
	w.Predictions[0].Layout.Exhausts = nil
	assert.Nil(t, w.Pictures(0, form.Units{}).Boat)
}

// A page holds the pictures of its layouts in its own order, with its levels, and the waterfall of those it tells of.
func TestPageHoldsItsPictures(t *testing.T) {
	w := demoOnce(t, "generator-box")
	r, err := w.Page(form.Units{})
	require.NoError(t, err)
	w.AddTo(r, form.Units{})
	require.Len(t, r.Pictures, len(r.Layouts))
	for i, p := range r.Pictures {
		assert.Equal(t, r.Layouts[i].Name, p.Boat.Layout)
		for j, x := range p.Bands {
			if v := r.Layouts[i].Heard[j].LevelDBA; v != nil {
				assert.InDelta(t, *v, x.Level.DBA, 0.05)
			}
		}
	}
	require.NotEmpty(t, r.Fall.Cascades)
	for k, c := range r.Fall.Cascades {
		assert.Equal(t, r.Layouts[r.InDetail()[k]].Name, c.Layout)
	}
}

// Every way that the model knows is drawn as itself: the words are one list.
func TestWaysOfModelAndPictureAreOne(t *testing.T) {
	for _, x := range []struct {
		model path.Way
		drawn picture.Way
	}{{path.ByOutlet, picture.Outlet}, {path.ByLineWall, picture.LineWall}, {path.ByAir, picture.Air}, {path.ByStructure, picture.Structure},
		{path.ByBoxOpening, picture.BoxOpening}, {path.ByBackground, picture.Background}, {"", picture.Together}} {
		assert.Equal(t, string(x.model), string(x.drawn))
		assert.Equal(t, x.drawn, drawnAs(x.model))
	}
	assert.Equal(t, picture.BoxOpening, drawnAs(path.ByIntake), "not as many quiet ways together")
}
