package picture

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Width is for how wide a place a picture is drawn.
type Width int

// Widths.
const (
	Wide   Width = iota // 760 units, text of 13
	Narrow              // 340 units, text of 12: a telephone
)

// units is how wide the picture is drawn, and size that of its text.
func (w Width) units() float64 {
	if w == Narrow {
		return 340
	}
	return 760
}

func (w Width) size() float64 {
	if w == Narrow {
		return 12
	}
	return 13
}

func (w Width) pick(wide, narrow float64) float64 {
	if w == Narrow {
		return narrow
	}
	return wide
}

// Drawing is a picture that can be drawn for a wide and a narrow place.
type Drawing interface {
	SVG(id string, w Width) (string, error)
}

// errNumber is given for an input with a number that does not exist.
var errNumber = errors.New("a picture needs numbers that exist\nhint: leave out what has no place or no level")

// errAxis is given for an axis without a length.
var errAxis = errors.New("the axis of a band has to run from a lower to a higher level\nhint: take From and To over all bands that are compared")

// pen writes elements. The first number that isn't finite spoils the whole picture.
type pen struct {
	strings.Builder
	id    string
	width Width
	bad   bool
}

func newPen(id string, w Width) *pen { return &pen{id: id, width: w} }

// num prints a coordinate to a tenth.
func (p *pen) num(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		p.bad = true
		return "0"
	}
	v = math.Round(v*10) / 10
	if v == 0 {
		v = 0 // no minus zero
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// check spoils the picture if one of its numbers isn't finite.
func (p *pen) check(vs ...float64) {
	for _, v := range vs {
		p.num(v)
	}
}

// attrs writes names and values in turn.
func (p *pen) attrs(pairs []string) {
	for i := 0; i+1 < len(pairs); i += 2 {
		p.WriteString(" " + pairs[i] + `="` + Escape(pairs[i+1]) + `"`)
	}
}

func (p *pen) open(tag string, pairs ...string) {
	p.WriteString("<" + tag)
	p.attrs(pairs)
	p.WriteString(">")
}

func (p *pen) shut(tag string) { p.WriteString("</" + tag + ">") }

func (p *pen) empty(tag string, pairs ...string) {
	p.WriteString("<" + tag)
	p.attrs(pairs)
	p.WriteString("/>")
}

func (p *pen) rect(r rect, paint ...string) {
	p.empty("rect", append([]string{"x", p.num(r.x), "y", p.num(r.y), "width", p.num(r.w), "height", p.num(r.h)}, paint...)...)
}

func (p *pen) line(x1, y1, x2, y2 float64, paint ...string) {
	if i := slices.Index(paint, "fill"); i >= 0 {
		paint = slices.Delete(slices.Clone(paint), i, i+2) // a line has no inside
	}
	p.empty("line", append([]string{"x1", p.num(x1), "y1", p.num(y1), "x2", p.num(x2), "y2", p.num(y2)}, paint...)...)
}

func (p *pen) circle(x, y, r float64, paint ...string) {
	p.empty("circle", append([]string{"cx", p.num(x), "cy", p.num(y), "r", p.num(r)}, paint...)...)
}

// text writes one line with its baseline at y; the whole name is there for a pointer where it was shortened.
func (p *pen) text(x, y float64, s string, how ...string) {
	p.open("text", append([]string{"x", p.num(x), "y", p.num(y)}, how...)...)
	p.WriteString(Escape(s))
	p.shut("text")
}

// hover is the whole text of a thing for a pointer.
func (p *pen) hover(s string) { p.WriteString("<title>" + Escape(s) + "</title>") }

// picture puts title, description and textures round what was drawn, as high as it became.
func (p *pen) picture(kind, title, desc string, height float64, ways []Way) (string, error) {
	body := p.String()
	p.Reset()
	p.open("svg", "xmlns", "http://www.w3.org/2000/svg", "class", "pic-svg pic-"+kind, "role", "img", "aria-labelledby", p.id+"-t", "aria-describedby", p.id+"-d",
		"viewBox", "0 0 "+p.num(p.width.units())+" "+p.num(height), "width", "100%", "font-size", p.num(p.width.size()), "font-family", "sans-serif", "fill", "currentColor")
	p.WriteString(`<title id="` + Escape(p.id) + `-t">` + Escape(title) + `</title><desc id="` + Escape(p.id) + `-d">` + Escape(desc) + "</desc>")
	p.textures(ways)
	p.WriteString(body)
	p.shut("svg")
	if p.bad {
		return "", errNumber
	}
	return p.String(), nil
}

// small puts title and description round a picture of a fixed size.
func (p *pen) small(kind, title, desc string, wide, high float64) (string, error) {
	body := p.String()
	p.Reset()
	p.open("svg", "xmlns", "http://www.w3.org/2000/svg", "class", "pic-"+kind, "role", "img", "aria-labelledby", p.id+"-t "+p.id+"-d",
		"viewBox", "0 0 "+p.num(wide)+" "+p.num(high), "width", p.num(wide), "height", p.num(high), "fill", "currentColor")
	p.WriteString(`<title id="` + Escape(p.id) + `-t">` + Escape(title) + `</title><desc id="` + Escape(p.id) + `-d">` + Escape(desc) + "</desc>" + body)
	p.shut("svg")
	if p.bad {
		return "", errNumber
	}
	return p.String(), nil
}

// onPaper is the greatest height of a wide picture whose letters a sheet that gives it 128 mm still shows in 5 points (judgement).
const onPaper = 940

// tall is the class of a picture that is printed in its narrow form, whose letters are larger.
func tall(wide string) string {
	_, box, _ := strings.Cut(wide, `viewBox="0 0 `)
	_, box, _ = strings.Cut(box, " ")
	box, _, _ = strings.Cut(box, `"`)
	if high, err := strconv.ParseFloat(box, 64); err == nil && high > onPaper {
		return " pic-tall"
	}
	return ""
}

// Fit draws both widths of a picture; the style sheet shows the one that suits the page.
func Fit(id string, d Drawing) (string, error) {
	wide, err := d.SVG(id+"-w", Wide)
	if err != nil {
		return "", err
	}
	narrow, err := d.SVG(id+"-n", Narrow)
	return `<div class="pic` + tall(wide) + `"><div class="pic-wide">` + wide + `</div><div class="pic-narrow">` + narrow + "</div></div>", err
}
