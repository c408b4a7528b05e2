package picture

import (
	"go/parser"
	"go/token"
	"hushwake/source/spectrum"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// spacesOf are the rooms in each view, by the length of their names, which no attribute changes.
func rectOf(t *testing.T, n *node, view, space string) rect {
	t.Helper()
	for _, v := range n.all("data-view", view) {
		if s := v.all("data-space", space); len(s) == 1 {
			return s[0].box(t)
		}
	}
	t.Fatalf("%s is not there once from %s", space, view)
	return rect{}
}

// A room twice as long, wide or high as another is drawn so, in both views, and the scale bar is as long as it says.
func TestBoatIsToScale(t *testing.T) {
	b := sampleBoat()
	b.Spaces[1].Name = "two"
	for _, w := range []Width{Wide, Narrow} {
		n := draw(t, b, w)
		for _, view := range []string{"side", "above"} {
			one, two := rectOf(t, n, view, "one"), rectOf(t, n, view, "two")
			assert.InDelta(t, 2, two.w/one.w, 0.004)
			assert.InDelta(t, 2, two.h/one.h, 0.004)
			assert.InDelta(t, 1, one.w/one.h, 0.004, "along as across")
			assert.InDelta(t, 2, (two.x-one.x)/one.w, 0.004, "forward is to the right")
		}
		assert.InDelta(t, rectOf(t, n, "side", "one").bottom(), rectOf(t, n, "side", "two").bottom(), 0.11)
		assert.Less(t, rectOf(t, n, "side", "two").y, rectOf(t, n, "side", "one").y, "higher is further up")
		bars := n.all("data-metres", "")
		require.Len(t, bars, 2)
		for _, bar := range bars {
			_, h, _ := strings.Cut(bar.attr("d"), "h")
			h, _, _ = strings.Cut(h, "v")
			long, err := strconv.ParseFloat(h, 64)
			require.NoError(t, err)
			assert.InDelta(t, rectOf(t, n, "side", "one").w, long/bar.num(t, "data-metres"), 0.11)
		}
	}
}

func TestScaleBarIsRound(t *testing.T) {
	m, text := scaleBar(40, 760, false)
	assert.Equal(t, 2.0, m)
	assert.Equal(t, "2 m", text)
	m, text = scaleBar(40, 760, true)
	assert.InDelta(t, 10*0.3048, m, 1e-12)
	assert.Equal(t, "10 ft", text)
}

// Every thing of the boat stands once in each view; a seat off the drawing is told with its distance.
func TestEverythingStandsOnceInEachView(t *testing.T) {
	b := sampleBoat()
	for _, w := range []Width{Wide, Narrow} {
		n := draw(t, b, w)
		for _, v := range n.all("class", "pic-view") {
			assert.Len(t, v.all("data-seat", ""), len(b.Seats))
			assert.Len(t, v.all("data-space", ""), len(b.Spaces))
			assert.Len(t, v.all("data-outlet", ""), 1)
			assert.Len(t, v.all("data-outlet-now", ""), 1, "the ghost of today's")
			assert.Len(t, v.all("data-engine", ""), 2)
			assert.Len(t, v.all("data-box", "box"), 1)
			assert.Len(t, v.all("data-way", ""), 2, "what comes from nowhere has no arrow")
		}
		var said string
		n.walk(func(x *node) { said += x.Text + "\n" })
		assert.Contains(t, said, "30\u00a0m astern")
		assert.Contains(t, said, "70 dB(A)")
		assert.Contains(t, said, "over 70")
		assert.Contains(t, said, "now 80")
		assert.Contains(t, said, "60 to 72 dB(A)", "a layout to be asked about has its span")
		assert.Contains(t, said, "Without a place in the file: locker.")
	}
}

func TestDistancesInFeet(t *testing.T) {
	b := sampleBoat()
	b.Feet = true
	var said string
	draw(t, b, Wide).walk(func(x *node) { said += x.Text + "\n" })
	assert.Contains(t, said, "98\u00a0ft astern") // 30 m
	assert.NotContains(t, said, " m\n")
}

// A line is as long and as thick as its elements, on one scale along and across.
func TestLineIsToScale(t *testing.T) {
	for _, w := range []Width{Wide, Narrow} {
		n := draw(t, sampleLine(), w)
		parts := n.all("data-part", "")
		require.Len(t, parts, 3)
		pipe, silencer := parts[0].Nodes[1].box(t), parts[2].Nodes[1].box(t)
		assert.InDelta(t, 2, silencer.w/pipe.w, 0.004)
		assert.InDelta(t, 3, silencer.h/pipe.h, 0.01)
		assert.InDelta(t, 0.11, pipe.h/pipe.w, 0.002, "across as along")
		assert.InDelta(t, pipe.right(), silencer.x, 0.11)
	}
}

// The numbers over a line never touch, however short its elements are.
func TestNumbersOverALineKeepApart(t *testing.T) {
	l := Line{}
	for i := range 14 {
		l.Parts = append(l.Parts, Part{Name: "p", Length: 0.01 + float64(i/13), Bore: 0.1})
	}
	many := Line{Parts: slices.Concat(l.Parts, l.Parts, l.Parts)}
	for _, w := range []Width{Wide, Narrow} { // in several rows
		var at [][2]float64
		draw(t, many, w).walk(func(x *node) {
			if v, err := strconv.Atoi(x.Text); err == nil && x.XMLName.Local == "text" && x.attr("text-anchor") == "middle" && v > 0 {
				at = append(at, [2]float64{x.num(t, "x"), x.num(t, "y")})
			}
		})
		require.Len(t, at, 42)
		for i, a := range at {
			assert.True(t, a[0] >= 8 && a[0] <= w.units()-8, "%v", a)
			for _, b := range at[i+1:] {
				assert.True(t, math.Abs(a[0]-b[0]) >= w.size()*1.5 || math.Abs(a[1]-b[1]) >= w.size(), "%v %v", a, b)
			}
		}
	}
	for _, w := range []Width{Wide, Narrow} {
		var at []float64
		draw(t, l, w).walk(func(x *node) {
			if v, err := strconv.Atoi(x.Text); err == nil && x.XMLName.Local == "text" && x.attr("text-anchor") == "middle" && v > 0 {
				at = append(at, x.num(t, "x"))
			}
		})
		require.Len(t, at, 14)
		for i := 1; i < len(at); i++ {
			assert.GreaterOrEqual(t, at[i]-at[i-1], w.size()*1.5)
		}
		assert.True(t, at[0] >= 0 && slices.Max(at) <= w.units())
	}
}

// The band is where it says on its axis; what lies off the axis is shown by an arrowhead, not clipped in silence.
func TestBandIsOnItsAxis(t *testing.T) {
	b := Band{Name: "helm", Level: Level{DBA: 65, Low: 60, High: 75}, Limit: ptr(70), From: 40, To: 90}
	n := draw(t, b, Wide)
	grey := n.all("class", "pf-grey")[0].box(t)
	assert.InDelta(t, 15.0/50*116, grey.w, 0.01)
	assert.InDelta(t, 2+20.0/50*116, grey.x, 0.01)
	assert.InDelta(t, 2+30.0/50*116, n.all("class", "ps-alarm")[0].num(t, "x1"), 0.01)
	heads := func(b Band) (k int) {
		draw(t, b, Wide).walk(func(x *node) {
			if x.XMLName.Local == "path" {
				k++
			}
		})
		return k
	}
	assert.Zero(t, heads(b))
	b.From = 62
	assert.Equal(t, 1, heads(b), "its lower end")
	b.To = 64
	assert.Equal(t, 3, heads(b))
	b.Level.Unjudged = true
	assert.Equal(t, 2, heads(b))
}

// Holes are squares of their area and ducts as long as they are, on the scale of the box.
func TestBoxIsToScale(t *testing.T) {
	for _, w := range []Width{Wide, Narrow} {
		n := draw(t, sampleBox(), w)
		body := n.all("data-box", "")[0].box(t)
		assert.InDelta(t, 1.2/0.8, body.w/body.h, 0.004)
		perMetre := body.w / 1.2
		inlet := n.all("data-hole", "inlet")[0]
		duct, hole := inlet.Nodes[2].box(t), inlet.Nodes[3].box(t)
		assert.InDelta(t, 0.6*perMetre, duct.w, 0.11)
		assert.InDelta(t, math.Sqrt(0.04)*perMetre, hole.h, 0.11)
		assert.Less(t, duct.x, body.x, "in from the left")
		assert.GreaterOrEqual(t, duct.x, 0.0)
		said := ""
		n.walk(func(x *node) { said += x.Text + " " })
		assert.Contains(t, strings.ReplaceAll(said, "\u00a0", " "), "air at 1500 rpm and 6 kW: 0.1 m3/s at 27 °C", "a temperature is of a duty")
	}
}

func TestWordsAreBrokenAndCut(t *testing.T) {
	assert.Equal(t, []string{"one two", "three"}, wrapped("one two three", 10, wide("one two", 10)+1, 3))
	assert.Equal(t, []string{"one", "two…"}, wrapped("one two three", 10, wide("two …", 10), 2))
	assert.Equal(t, []string{"a", "b\u00a0c", "5\u00a0m"}, wrapped("a b\u00a0c 5 m", 10, wide("5 m", 10)+1, 5), "figure and unit stay together")
	assert.Empty(t, wrapped("", 10, 100, 2))
	assert.Equal(t, "…", short("ab", 10, 1)[len("a"):])
	assert.Equal(t, "−0.1", signed(-0.05001))
	assert.Equal(t, "0.0", signed(-0.04))
	assert.Equal(t, "+2.5", signed(2.5))
	for i := range 20000 {
		db := float64(i)*0.00537 - 3
		require.Equal(t, strconv.FormatFloat(spectrum.Whole(db), 'f', 0, 64), whole(db))
	}
	assert.Equal(t, "silent", Level{DBA: Silent}.Said())
	assert.Equal(t, "a, b and c", Listed([]string{"a", "b", "c"}))
}

// The package stays fit for a small WebAssembly: nothing in it reflects.
func TestNothingReflects(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	require.Greater(t, len(files), 10)
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		require.NoError(t, err)
		for _, i := range f.Imports {
			assert.Contains(t, []string{`"cmp"`, `"errors"`, `"math"`, `"slices"`, `"strconv"`, `"strings"`, `"unicode"`}, i.Path.Value, name)
		}
	}
}

func BenchmarkBoat(b *testing.B) {
	boat := sampleBoat()
	for b.Loop() {
		for _, w := range []Width{Wide, Narrow} {
			if _, err := boat.SVG("x", w); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// A seat a little off the boat stands in its place; one further off stands at the edge.
func TestSeatsNearTheBoatStandInTheirPlace(t *testing.T) {
	at := func(x float64) (kind string) {
		b := Boat{Spaces: []Space{{"one", Point{0, 0, 0}, Point{2, 2, 2}}}, Seats: []Seat{{Name: "deck", At: Point{x, 1, 1}, Level: Level{DBA: 60, Low: 50, High: 70}}}}
		return draw(t, b, Wide).all("data-seat", "deck")[0].Nodes[0].XMLName.Local
	}
	assert.Equal(t, "circle", at(1))
	assert.Equal(t, "circle", at(4.9))
	assert.Equal(t, "path", at(5.1), "an arrow outward")
	assert.Equal(t, "circle", at(-2.9))
	assert.Equal(t, "path", at(-3.1))
}

// points are the corners of the curve that is drawn in a colour, as wide as the curves of a line are.
func points(n *node, class string) (curve [][2]float64) {
	for _, c := range n.all("class", class) {
		if c.attr("stroke-width") != "2" {
			continue
		}
		for _, at := range strings.FieldsFunc(c.attr("d"), func(r rune) bool { return r == 'M' || r == 'L' }) {
			x, y, _ := strings.Cut(at, " ")
			var p [2]float64
			p[0], _ = strconv.ParseFloat(x, 64)
			p[1], _ = strconv.ParseFloat(y, 64)
			curve = append(curve, p)
		}
	}
	return curve
}

// The gas is as hot as the engine gives it at the manifold, where its curve begins, and each element ends where it ends.
func TestGasRunsFromTheManifold(t *testing.T) {
	for _, w := range []Width{Wide, Narrow} {
		l := sampleLine()
		n := draw(t, l, w)
		curve, parts := points(n, "ps-alarm"), n.all("data-part", "")
		require.Len(t, curve, 4, "420, 400, 50 and 49 °C")
		assert.InDelta(t, parts[0].Nodes[1].box(t).x, curve[0][0], 0.11)
		assert.InDelta(t, parts[0].Nodes[1].box(t).right(), curve[1][0], 0.11)
		assert.InDelta(t, curve[1][0], curve[2][0], 0.11, "an injection is a point")
		degree := (curve[3][1] - curve[0][1]) / 371
		assert.Positive(t, degree)
		assert.InDelta(t, 20*degree, curve[1][1]-curve[0][1], 0.11)
		assert.InDelta(t, 350*degree, curve[2][1]-curve[1][1], 0.11)
		said := ""
		n.walk(func(x *node) { said += x.Text + "|" })
		assert.Contains(t, strings.ReplaceAll(said, "\u00a0", " "), "dashed: gas, 420 °C to 49 °C")
		l.GasC = math.NaN()
		_, err := l.SVG("x", w)
		assert.Error(t, err)
	}
}

// The pressure falls from its highest at the manifold to none behind the outlet, where the elements lie.
func TestPressureRunsAlongTheLine(t *testing.T) {
	for _, w := range []Width{Wide, Narrow} {
		n := draw(t, sampleLine(), w)
		curve := points(n, "ps-ink")
		require.Len(t, curve, 4, "4, 3, 2 kPa and none")
		for i := 1; i < 3; i++ {
			assert.InDelta(t, curve[1][1]-curve[0][1], curve[i][1]-curve[i-1][1], 0.11, "1 kPa each")
		}
		assert.InDelta(t, 2*(curve[1][1]-curve[0][1]), curve[3][1]-curve[2][1], 0.21)
		assert.Greater(t, curve[3][1], curve[0][1], "down is less")
		parts := n.all("data-part", "")
		assert.InDelta(t, parts[0].Nodes[1].box(t).right(), curve[1][0], 0.11)
		assert.InDelta(t, parts[2].Nodes[1].box(t).right(), curve[3][0], 0.11)
	}
}

// A seat that bears the name of the room it lies in is named once in a view; a room elsewhere keeps its name.
func TestRoomAndItsSeatAreNamedOnce(t *testing.T) {
	b := sampleBoat()
	b.Spaces = append(b.Spaces, Space{"asked", Point{1.5, -1, -0.5}, Point{1, 1, 1}}, Space{"helm", Point{0, 0, 0}, Point{1, 1, 1}})
	for _, w := range []Width{Wide, Narrow} {
		for _, v := range draw(t, b, w).all("class", "pic-view") {
			said := map[string]int{}
			v.walk(func(x *node) { said[x.Text]++ })
			assert.Equal(t, 1, said["asked"])
			assert.Equal(t, 2, said["helm"], "the seat lies in another room")
			assert.Len(t, v.all("data-space", ""), len(b.Spaces), "drawn all the same")
		}
	}
}

// Figures of two digits over a line don't run together.
func TestTwoDigitsOverALineKeepApart(t *testing.T) {
	l := Line{Parts: slices.Repeat([]Part{{Name: "p", Length: 0.01, Bore: 0.1}}, 16)}
	last := map[string]float64{}
	draw(t, l, Narrow).walk(func(x *node) {
		if _, err := strconv.Atoi(x.Text); err == nil && x.XMLName.Local == "text" && x.attr("text-anchor") == "middle" {
			if was, ok := last[x.attr("y")]; ok {
				assert.GreaterOrEqual(t, x.num(t, "x")-was, wide("00", Narrow.size()*bolder)+5, x.Text)
			}
			last[x.attr("y")] = x.num(t, "x")
		}
	})
	assert.NotEmpty(t, last)
}

// What a box does is said to its end.
func TestVerdictsOfABoxAreWhole(t *testing.T) {
	b := sampleBox()
	b.Verdicts = []string{strings.Repeat("the air in it warms, ", 25) + "and the end."}
	for _, w := range []Width{Wide, Narrow} {
		said := ""
		draw(t, b, w).walk(func(x *node) { said += x.Text + " " })
		assert.Contains(t, strings.Join(strings.Fields(said), " "), "and the end.")
	}
}
