package picture

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bars are the filled bars of the ways of a picture, in order.
func bars(t *testing.T, n *node) (out []rect) {
	n.walk(func(x *node) {
		if x.XMLName.Local == "rect" && strings.HasPrefix(x.attr("class"), "pf-") && x.attr("rx") == "" {
			for _, p := range paints {
				if x.attr("class") == "pf-"+p.name {
					out = append(out, x.box(t))
				}
			}
		}
	})
	return out
}

// The ladder falls, and 10 dB are the same length everywhere on it.
func TestLadderIsOnOneAxis(t *testing.T) {
	l := Ladder{Seat: "helm", Total: Level{DBA: 71, Low: 68, High: 74}, Rungs: []Rung{{Way: Air, Level: 50}, {Way: Outlet, Level: 70}, {Way: LineWall, Level: 60}, {Way: Structure, Level: 40}}}
	for _, w := range []Width{Wide, Narrow} {
		n := draw(t, l, w)
		b := bars(t, n)
		require.Len(t, b, 3, "31 dB under the total is too quiet to draw")
		assert.InDelta(t, b[0].w-b[1].w, b[1].w-b[2].w, 0.11)
		assert.Greater(t, b[0].w, b[1].w)
		var said string
		n.walk(func(x *node) { said += x.Text + "\n" })
		assert.Contains(t, said, "Too quiet to draw: through mounts and hull 40 dB(A).")
	}
}

// A name too long for one line beside its bar, or above it, stands in two, and the next row begins below it.
func TestLadderNamesAreWhole(t *testing.T) {
	long := "wall of lift chamber 4 > engine room - wheelhouse bulkhead"
	short := Ladder{Seat: "helm", Total: Level{DBA: 71, Low: 68, High: 74}, Rungs: []Rung{{Way: Air, Source: "set", Level: 70},
		{Way: Air, Source: "main", Level: 60, Routes: []Route{{"a", 59}, {"b", 55}}}}}
	wordy := short
	wordy.Rungs = []Rung{short.Rungs[0], {Way: Air, Source: "main alternator and its drive", Level: 60, Routes: []Route{{long, 59}, {"b", 55}}}}
	for _, w := range []Width{Wide, Narrow} {
		var said []string
		draw(t, wordy, w).walk(func(x *node) {
			if x.XMLName.Local == "text" {
				said = append(said, x.Text)
			}
		})
		all := strings.ReplaceAll(strings.Join(said, " "), "\u00a0", " ")
		assert.NotContains(t, all, "…")
		assert.Contains(t, all, long)
		assert.Contains(t, all, "main alternator and its drive")
		b, plain := bars(t, draw(t, wordy, w)), bars(t, draw(t, short, w))
		require.Len(t, b, len(plain))
		assert.Greater(t, b[len(b)-1].y, plain[len(b)-1].y)
	}
}

// The limit runs across bars alone: no line of it meets a line of text.
func TestLimitStrikesNoText(t *testing.T) {
	for _, w := range []Width{Wide, Narrow} {
		for limit := 31.0; limit < 80; limit += 3.7 {
			l := sampleLadder()
			l.Limit = &limit
			n := draw(t, l, w)
			lines, strokes := n.all("class", "ps-alarm"), 0
			require.NotEmpty(t, lines)
			n.walk(func(x *node) {
				if x.XMLName.Local != "text" || strings.HasPrefix(x.Text, "limit") {
					return
				}
				long, size := wide(x.Text, w.size()), w.size()
				r := rect{x.num(t, "x"), x.num(t, "y") - size*0.75, long, size * 0.8}
				if x.attr("text-anchor") == "end" {
					r.x -= long
				}
				if x.attr("text-anchor") == "middle" {
					r.x -= long / 2
				}
				for _, s := range lines {
					if s.XMLName.Local != "path" {
						continue
					}
					var at rect
					f := strings.FieldsFunc(s.attr("d"), func(r rune) bool { return r == 'M' || r == ' ' || r == 'v' })
					for i, v := range []*float64{&at.x, &at.y, &at.h} {
						*v, _ = strconv.ParseFloat(f[i], 64)
					}
					strokes++
					assert.False(t, r.meets(at, 0), "width %d, limit %v through %q", w, limit, x.Text)
				}
			})
			assert.Positive(t, strokes)
		}
	}
}

// The rows of a waterfall add up to what arrives, slight steps told together.
func TestWaterfallAddsUp(t *testing.T) {
	c := sampleFall().Cascades[0]
	rows := c.rows()
	require.Len(t, rows, 5)
	sum := rows[0].After
	for i := 1; i < len(rows); i++ {
		sum += rows[i].After - rows[i-1].After
	}
	assert.InDelta(t, 82, sum, 1e-9)
	assert.InDelta(t, 82, rows[4].After, 1e-9)
	assert.Equal(t, "two slight steps: nothing and little", rows[4].Name)
	assert.InDelta(t, -20.1, rows[2].After-rows[1].After, 1e-9, "a step keeps its own size")
	n := draw(t, Waterfall{Cascades: []Cascade{{Way: Outlet, Falls: []Fall{{"a", 100}, {"b", 80}, {"c", 60}}}}}, Wide)
	b := n.all("class", "pf-grey")
	require.Len(t, b, 2)
	assert.InDelta(t, b[0].num(t, "width"), b[1].num(t, "width"), 0.11)
	assert.InDelta(t, b[0].num(t, "x"), b[1].box(t).right(), 0.11, "the next begins where the last ended")
}

// Beside what arrives by the route that is followed stands what is heard in all.
func TestWaterfallTellsTheWhole(t *testing.T) {
	n := draw(t, Waterfall{Cascades: []Cascade{{Way: Outlet, Falls: []Fall{{"a", 100}, {"b", 72}}, All: 76.4}}}, Narrow)
	text := ""
	n.walk(func(x *node) { text += x.Text + "|" })
	assert.Contains(t, text, "|at the ear, 76 by all ways|||72|")
}

// A step with a long name has it whole, and the next step lies below it.
func TestWaterfallNamesAreWhole(t *testing.T) {
	long := "power on 4.38 m² of wheelhouse forward face, by the way the wall of the engine room and its hatches face"
	fall := func(name string) Waterfall {
		return Waterfall{Cascades: []Cascade{{Way: Outlet, Falls: []Fall{{"a", 100}, {name, 80}, {"c", 60}}}, {Way: Air, Falls: []Fall{{"a", 100}}}}}
	}
	for _, w := range []Width{Wide, Narrow} {
		n := draw(t, fall(long), w)
		said := ""
		n.walk(func(x *node) {
			if x.XMLName.Local == "text" {
				said += x.Text + " "
			}
		})
		assert.Contains(t, strings.ReplaceAll(said, "\u00a0", " "), long)
		b, plain := n.all("class", "pf-grey"), draw(t, fall("b"), w).all("class", "pf-grey")
		require.Len(t, b, 2)
		more := b[0].num(t, "y") - plain[0].num(t, "y")
		assert.Greater(t, more, w.size(), "a line more")
		assert.InDelta(t, more, b[1].num(t, "y")-plain[1].num(t, "y"), 0.11, "the next below it")
	}
}

// Both cascades lie on one axis.
func TestCascadesShareTheirAxis(t *testing.T) {
	f := Waterfall{Cascades: []Cascade{{Way: Outlet, Falls: []Fall{{"a", 130}, {"b", 90}}}, {Way: Outlet, Falls: []Fall{{"a", 100}, {"b", 60}}}}}
	n := draw(t, f, Narrow)
	b := n.all("class", "pf-grey")
	require.Len(t, b, 2)
	assert.InDelta(t, b[0].num(t, "width"), b[1].num(t, "width"), 0.11, "40 dB each")
	assert.Greater(t, b[0].num(t, "x"), b[1].num(t, "x"), "30 dB apart")
}

// The last figure of an axis has the unit, however coarse the steps, and none of them covers another.
func TestAxisEndsInItsUnit(t *testing.T) {
	for name, d := range map[string]Drawing{
		"tens":     Ladder{Rungs: []Rung{{Way: Air, Level: 62}}, Total: Level{DBA: 62, Low: 41, High: 70}},
		"twenties": Waterfall{Cascades: []Cascade{{Way: Outlet, Falls: []Fall{{"a", 141}, {"b", 12}}}, {Way: Outlet, Falls: []Fall{{"a", 141}, {"b", 12}}}}},
	} {
		for _, w := range []Width{Wide, Narrow} {
			last, units := map[string]float64{}, 0
			draw(t, d, w).walk(func(x *node) {
				figure, unit := strings.CutSuffix(strings.ReplaceAll(x.Text, "\u00a0", " "), " dB(A)")
				if _, err := strconv.ParseFloat(figure, 64); err != nil || x.attr("font-weight") != "" || x.XMLName.Local != "text" {
					return
				}
				from := x.num(t, "x")
				if !unit {
					from -= wide(figure, w.size()) / 2
				} else {
					units++
				}
				if end, met := last[x.attr("y")]; met && from > 0 && units < 2 {
					assert.Greater(t, from, end, "%s, width %d: %q", name, w, x.Text)
				}
				last[x.attr("y")] = from + wide(figure, w.size())
			})
			assert.GreaterOrEqual(t, units, 1, "%s, width %d", name, w)
		}
	}
}

// A way shows its loudest routes, those within 10 dB, at most three, where it has several.
func TestLadderShowsTheLoudestRoutes(t *testing.T) {
	routes := func(levels ...float64) (n int) {
		r := Rung{Way: Air, Level: 70}
		for _, v := range levels {
			r.Routes = append(r.Routes, Route{"r", v})
		}
		return len(bars(t, draw(t, Ladder{Total: Level{DBA: 70}, Rungs: []Rung{r}}, Wide))) - 1
	}
	assert.Zero(t, routes(70))
	assert.Equal(t, 2, routes(60, 69, 58))
	assert.Equal(t, 3, routes(60, 69, 65, 66, 67))
	assert.Equal(t, 1, routes(50, 69))
}

// Two cascades, or two rungs, of one way share one texture.
func TestTexturesAreDefinedOnce(t *testing.T) {
	falls := []Fall{{"a", 100}, {"b", 60}}
	box := sampleBox()
	box.Ways = []Rung{{Way: Air, Source: "a", Level: 60}, {Way: Air, Source: "b", Level: 55}}
	for _, d := range []Drawing{Waterfall{Cascades: []Cascade{{Way: Air, Falls: falls}, {Way: Air, Falls: falls}}}, box, Ladder{Rungs: box.Ways, Total: Level{DBA: 61}}} {
		assert.Len(t, draw(t, d, Wide).all("id", "x-air"), 1)
	}
}
