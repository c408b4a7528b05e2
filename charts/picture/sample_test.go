package picture

import (
	"encoding/xml"
	"io"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// node is one element as it was read back.
type node struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Text    string     `xml:",chardata"`
	Nodes   []node     `xml:",any"`
}

func (n *node) attr(name string) string {
	for _, a := range n.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func (n *node) num(t *testing.T, name string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(n.attr(name), 64)
	require.NoError(t, err, "%s of <%s>", name, n.XMLName.Local)
	return v
}

func (n *node) box(t *testing.T) rect {
	t.Helper()
	return rect{n.num(t, "x"), n.num(t, "y"), n.num(t, "width"), n.num(t, "height")}
}

// walk visits all elements.
func (n *node) walk(visit func(*node)) {
	visit(n)
	for i := range n.Nodes {
		n.Nodes[i].walk(visit)
	}
}

// all are the elements that carry an attribute, or a class.
func (n *node) all(name, value string) (out []*node) {
	n.walk(func(x *node) {
		for _, a := range x.Attrs {
			if a.Name.Local == name && (value == "" || a.Value == value || name == "class" && strings.Contains(" "+a.Value+" ", " "+value+" ")) {
				out = append(out, x)
			}
		}
	})
	return out
}

func read(t *testing.T, svg string) *node {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(svg))
	var n node
	require.NoError(t, d.Decode(&n))
	_, err := d.Token()
	require.Equal(t, io.EOF, err, "one element and nothing behind it")
	return &n
}

func draw(t *testing.T, d Drawing, w Width) *node {
	t.Helper()
	svg, err := d.SVG("x", w)
	require.NoError(t, err)
	return read(t, svg)
}

func ptr(v float64) *float64 { return &v }

const hostile = `</text><script>alert("x")</script>` + "\u202e\u2066\x00\x1b[31m & 'é'"

func sampleBoat() Boat {
	return Boat{
		Title: "found", Layout: "as found " + hostile, Now: "now", Chosen: "helm",
		Spaces:  []Space{{"one", Point{1, -1, -1}, Point{1, 1, 1}}, {"two " + hostile, Point{3, -1, -1}, Point{2, 2, 2}}},
		Engines: []Engine{{Name: "main", At: Point{1.5, 0, -0.5}}, {Name: "set", At: Point{4, 0.5, 0}, Box: "box", Size: Point{1, 0.6, 0.7}}},
		Outlets: []Mouth{{Name: "main outlet", At: Point{0, 0.5, 0.1}, Pointing: Point{-1, 0, 0}}, {Name: "main outlet", At: Point{2, 0, 3}, Pointing: Point{0, 0, 1}, Was: true}},
		Runs:    []Run{{Engine: "main", Points: []Point{{1.5, 0, -0.5}, {0, 0.5, -0.5}, {0, 0.5, 0.1}}, Bore: 0.1}},
		Seats: []Seat{
			{Name: "helm", At: Point{4, 0, 0.5}, Level: Level{DBA: 70.4, Low: 65, High: 75}, Limit: ptr(70), Now: ptr(80), Rules: Outlet},
			{Name: "far " + hostile, At: Point{-30, 12, 1}, Level: Level{DBA: 40, Low: 35, High: 45}, Rules: Background},
			{Name: "asked", At: Point{2, -0.5, 0}, Level: Level{Low: 60, High: 72, Unjudged: true}},
		},
		Ways:     []Arrow{{Way: Outlet, Source: "main exhaust", Level: 69, From: Point{0, 0.5, 0.1}}, {Way: Air, Source: "main casing", Level: 64, From: Point{1.5, 0, -0.5}}, {Way: Background, Level: 55, Nowhere: true}},
		Unplaced: []string{"locker"},
	}
}

func sampleLadder() Ladder {
	return Ladder{Title: "ladder", Seat: "helm " + hostile, Layout: "as found", Total: Level{DBA: 70.4, Low: 65, High: 76}, Limit: ptr(68), Now: ptr(79), Rungs: []Rung{
		{Way: Air, Source: "main casing", Level: 60, Routes: []Route{{"casing > door " + hostile, 58}, {"casing > wall", 55.7}}},
		{Way: Outlet, Source: "main exhaust", Level: 70, Routes: []Route{{"outlet > open air", 70}}},
		{Way: Background, Source: "background", Level: 25},
	}}
}

func sampleFall() Waterfall {
	falls := []Fall{{"power " + hostile, 120}, {"line", 100}, {"nothing", 100.1}, {"spreading", 80}, {"little", 79.9}, {"flow noise", 82}}
	return Waterfall{Title: "fall", Seat: "helm", Cascades: []Cascade{{"as found " + hostile, "main exhaust", "outlet", Outlet, falls, 80}, {"new", "main casing", "door", Air, falls[:2], 80}}}
}

func sampleLine() Line {
	return Line{Title: "line", Engine: "main " + hostile, GasC: 420, Gas: "420 °C", Parts: []Part{
		{Name: "pipe", Length: 1, Bore: 0.1, Outer: 0.11, GasC: 400, Pressure: 4000, Size: "1000 mm, bore 100 mm", Gauge: "4 kPa", Gas: "400 °C", Skin: "60 °C", Growth: "5 mm"},
		{Name: "injection", GasC: 50, Pressure: 3000, Bore: 0.1, Gauge: "3 kPa", Gas: "50 °C"},
		{Name: "silencer " + hostile, Length: 2, Bore: 0.1, Outer: 0.33, GasC: 49, Pressure: 2000, Gauge: "2 kPa", Gas: "49 °C"},
	}}
}

func sampleBox() Box {
	return Box{Title: "box", Name: "sound box " + hostile, Engine: "set", Duty: "1500 rpm and 6 kW", Size: Point{1.2, 0.8, 0.8}, Fresh: "27 °C", Inside: "48 °C", Allowed: "42 °C", TooHot: true, Flow: "0.1 m3/s",
		Openings: []Hole{{"inlet", 0.04, 0.6, "400 cm2, lined duct of 600 mm"}, {"outlet", 0.04, 0, "400 cm2, bare"}, {"leak", 0.0005, 0, "5 cm2"}},
		Fan:      "0.1 m3/s at 60 Pa", Verdicts: []string{"Cooked: " + hostile}, Ways: sampleLadder().Rungs, Seat: "pillow"}
}

func samples() map[string]Drawing {
	return map[string]Drawing{"boat": sampleBoat(), "ladder": sampleLadder(), "waterfall": sampleFall(), "line": sampleLine(), "box": sampleBox(),
		"band": Band{Name: "helm " + hostile, Level: Level{DBA: 70, Low: 65, High: 76}, Limit: ptr(68), From: 40, To: 90}}
}

// Every picture is well-formed, tells a reader of the screen what it is, and is inert whatever names it is given.
func TestPicturesAreWellFormedAndInert(t *testing.T) {
	for name, d := range samples() {
		for _, w := range []Width{Wide, Narrow} {
			svg, err := d.SVG("x1", w)
			require.NoError(t, err, name)
			n := read(t, svg)
			assert.Equal(t, "img", n.attr("role"), name)
			assert.NotContains(t, svg, "<script", name)
			for _, r := range svg {
				assert.False(t, r == 0 || r == '\x1b' || r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069', "%s holds %U", name, r)
			}
			ids := map[string]bool{}
			n.walk(func(x *node) {
				if id := x.attr("id"); id != "" {
					assert.False(t, ids[id], "%s: %s twice", name, id)
					assert.True(t, strings.HasPrefix(id, "x1-"), id)
					ids[id] = true
				}
				assert.NotContains(t, []string{"script", "a", "image", "use", "style", "foreignObject"}, x.XMLName.Local)
				for _, a := range x.Attrs {
					assert.False(t, strings.HasPrefix(a.Name.Local, "on"), a.Name.Local)
					if _, ref, ok := strings.Cut(a.Value, "url(#"); ok {
						assert.Contains(t, svg, `id="`+strings.TrimSuffix(ref, ")")+`"`, "%s: a texture that isn't there", name)
					}
				}
			})
			for _, id := range strings.Fields(n.attr("aria-labelledby") + " " + n.attr("aria-describedby")) {
				assert.True(t, ids[id], "%s: %s", name, id)
			}
			again, _ := d.SVG("x1", w)
			assert.Equal(t, svg, again, "same input, same bytes")
		}
	}
}

// What is shown of a hostile name is that name, but for what turns the writing or is no text.
func TestNamesAreShownAsText(t *testing.T) {
	b := sampleBoat()
	b.Seats[0].Name, b.Chosen = `<b> & "q"`, ""
	n := draw(t, b, Wide)
	var found bool
	n.walk(func(x *node) { found = found || x.XMLName.Local == "text" && x.Text == b.Seats[0].Name })
	assert.True(t, found)
	assert.Equal(t, "a\ufffdb c&amp;&lt;&gt;&#34;&#39;", Escape("a\u202eb\x07c&<>\"'"))
	assert.Equal(t, "été 船 می\u200cخواهم", Escape("été 船 می\u200cخواهم"), "joiners belong to words")
}

// A number that isn't finite gives an error with its remedy, never a picture with NaN.
func TestNoPictureOfWhatDoesNotExist(t *testing.T) {
	boat, ladder, fall, line, box := sampleBoat(), sampleLadder(), sampleFall(), sampleLine(), sampleBox()
	boat.Seats[1].At[2] = math.NaN()
	ladder.Rungs[0].Level = math.Inf(1)
	fall.Cascades[0].Falls[2].After = math.NaN()
	line.Parts[1].Pressure = math.NaN()
	box.Openings[0].Area = math.Inf(1)
	nobox := sampleBox()
	nobox.Size = Point{}
	for name, d := range map[string]Drawing{"boat": boat, "ladder": ladder, "fall": fall, "line": line, "box": box, "no size": nobox,
		"band": Band{Level: Level{DBA: math.NaN()}, From: 40, To: 90}, "axis": Band{From: 90, To: 90}} {
		for _, w := range []Width{Wide, Narrow} {
			svg, err := d.SVG("x", w)
			require.Error(t, err, name)
			assert.Contains(t, err.Error(), "\nhint: ", name)
			assert.Empty(t, svg, name)
		}
		_, err := Fit("x", d)
		assert.Error(t, err, name)
	}
}

// Empty inputs are drawn empty.
func TestNothingIsDrawnOfNothing(t *testing.T) {
	for name, d := range map[string]Drawing{"boat": Boat{}, "ladder": Ladder{}, "fall": Waterfall{}, "line": Line{}} {
		for _, w := range []Width{Wide, Narrow} {
			_, err := d.SVG("x", w)
			assert.NoError(t, err, name)
		}
	}
}

// Narrow text is no smaller than 11 px on a screen of 390 px, wide text none from where it is shown on, 36 px of the page
// on either side being margins.
func TestTextIsLargeEnough(t *testing.T) {
	assert.GreaterOrEqual(t, Narrow.size()*(390-2*36)/Narrow.units(), 11.0)
	assert.GreaterOrEqual(t, Wide.size()*(700-2*20)/Wide.units(), 11.0)
	for name, d := range samples() {
		for _, w := range []Width{Wide, Narrow} {
			draw(t, d, w).walk(func(x *node) {
				if s := x.attr("font-size"); x.XMLName.Local == "text" && s != "" {
					assert.GreaterOrEqual(t, x.num(t, "font-size"), w.size(), "%s: %q", name, x.Text)
				}
			})
		}
	}
}

// plates are the boxes of the labels in each view.
func plates(t *testing.T, n *node) (views [][]rect) {
	for _, v := range n.all("class", "pic-view") {
		var all []rect
		for _, p := range v.all("class", "pic-plate") {
			all = append(all, p.box(t))
		}
		views = append(views, all)
	}
	return views
}

func apart(t *testing.T, name string, n *node) {
	t.Helper()
	box := strings.Fields(n.attr("viewBox"))
	high, err := strconv.ParseFloat(box[3], 64)
	require.NoError(t, err)
	wide, err := strconv.ParseFloat(box[2], 64)
	require.NoError(t, err)
	for _, all := range plates(t, n) {
		for i, a := range all {
			assert.True(t, a.within(rect{0, 0, wide, high}), "%s: a label lies off the paper: %v in %v x %v", name, a, wide, high)
			for _, b := range all[i+1:] {
				assert.False(t, a.meets(b, 0), "%s: two labels overlap: %v and %v", name, a, b)
			}
		}
	}
}

// Labels never touch, however many seats sit in one place and however long they are called.
func TestLabelsNeverOverlap(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, seats := range []int{3, 12, 25} {
		b := sampleBoat()
		for i := range seats {
			b.Seats = append(b.Seats, Seat{Name: strings.Repeat("seat ", 1+i%6) + strconv.Itoa(i), At: Point{3 + r.Float64(), r.Float64(), r.Float64()},
				Level: Level{DBA: 70, Low: 60, High: 80}, Limit: ptr(60), Now: ptr(90)})
		}
		for _, w := range []Width{Wide, Narrow} {
			n := draw(t, b, w)
			apart(t, strconv.Itoa(seats), n)
			assert.Len(t, n.all("data-label", ""), 2*len(b.Seats))
		}
	}
}

// Every text stays on the paper: as wide as it may be drawn, it begins and ends inside.
func TestTextStaysOnThePaper(t *testing.T) {
	for name, d := range samples() {
		if name == "band" {
			continue
		}
		for _, w := range []Width{Wide, Narrow} {
			draw(t, d, w).walk(func(x *node) {
				if x.XMLName.Local != "text" {
					return
				}
				size := w.size()
				if x.attr("font-size") != "" {
					size = x.num(t, "font-size")
				}
				long, at := wide(x.Text, size), x.num(t, "x")
				if x.attr("font-weight") == "700" {
					long *= bolder
				}
				switch x.attr("text-anchor") {
				case "middle":
					at -= long / 2
				case "end":
					at -= long
				}
				assert.True(t, at >= -1 && at+long <= w.units()+1, "%s, width %d: %q from %.0f to %.0f", name, w, x.Text, at, at+long)
			})
		}
	}
}

// On paper a picture that is too tall for its letters is shown in its narrow form.
func TestTallPicturesAreMarked(t *testing.T) {
	assert.Equal(t, " pic-tall", tall(`<svg viewBox="0 0 760 1058">`))
	assert.Empty(t, tall(`<svg viewBox="0 0 760 819.4">`))
	s, err := Fit("f", sampleLadder())
	require.NoError(t, err)
	assert.NotContains(t, s, "pic-tall")
}

func TestFitHoldsBothWidths(t *testing.T) {
	s, err := Fit("f", sampleLadder())
	require.NoError(t, err)
	n := read(t, s)
	assert.Len(t, n.all("role", "img"), 2)
	ids := n.all("id", "")
	seen := map[string]bool{}
	for _, x := range ids {
		assert.False(t, seen[x.attr("id")])
		seen[x.attr("id")] = true
	}
}
