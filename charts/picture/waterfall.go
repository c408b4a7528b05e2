package picture

import (
	"math"
	"strings"
)

// Waterfall follows one or two routes from source to seat.
type Waterfall struct {
	Title    string // states the finding
	Seat     string
	Cascades []Cascade // one or two, side by side
}

// Cascade is one route of one layout.
type Cascade struct {
	Layout string
	Source string
	Route  string
	Way    Way
	Falls  []Fall  // from the source on; the first is its level
	All    float64 // dB(A) of all routes to the seat together
}

// Fall is what is left after a step, A-weighted, dB(A).
type Fall struct {
	Name  string
	After float64
}

// slight is a step so small that those like it share a row, dB.
const slight = 0.3

// SVG draws the cascades side by side, on a narrow picture one under the other, on one axis.
func (f Waterfall) SVG(id string, w Width) (string, error) {
	p := newPen(id, w)
	var levels []float64
	var ways []Way
	for _, c := range f.Cascades {
		for _, s := range c.Falls {
			levels = append(levels, s.After)
		}
		ways = append(ways, c.Way)
	}
	p.check(levels...)
	if p.bad {
		return "", errNumber
	}
	gap := 24.0
	column := w.units()
	if w == Wide && len(f.Cascades) > 1 {
		column = (w.units() - gap) / 2
	}
	x, y, bottom, said := 0.0, 0.0, 0.0, ""
	for _, c := range f.Cascades {
		a := decibelAxis(audible(levels), x+4, column-58)
		end := p.cascade(c, a, x, y, column)
		bottom = math.Max(bottom, end)
		if w == Narrow {
			y = end + gap
		} else {
			x += column + gap
		}
		said += c.said()
	}
	return p.picture("waterfall", f.Title, said, bottom+4, ways)
}

// said is a cascade in words.
func (c Cascade) said() string {
	out := c.Layout + ", " + c.Source + ", " + c.Route + ": "
	for i, s := range c.rows() {
		if i > 0 {
			out += ", "
		}
		out += s.Name + " " + decibels(s.After)
	}
	return out + ". "
}

// rows are the steps; slight ones share a row at the end, so that all still add up.
func (c Cascade) rows() (out []Fall) {
	var names []string
	last, rest := 0.0, 0.0
	for i, s := range c.Falls {
		by := s.After - last
		last = s.After
		switch {
		case i == 0:
			out = append(out, s)
		case math.Abs(by) < slight:
			names, rest = append(names, s.Name), rest+by
		default:
			out = append(out, Fall{s.Name, out[len(out)-1].After + by})
		}
	}
	switch len(names) {
	case 0:
	case 1:
		out = append(out, Fall{names[0], last})
	default:
		out = append(out, Fall{counted(len(names)) + " slight steps: " + Listed(names), last})
	}
	return out
}

// cascade draws one column and returns its lower edge.
func (p *pen) cascade(c Cascade, a axis, x, y, column float64) float64 {
	size := p.width.size()
	for _, t := range wrapped(c.Layout, size*bolder, column-size*1.8, 2) {
		y += size * 1.35
		p.text(x+size*1.7, y, t, "font-weight", "700")
	}
	p.tile(x+2, y-size*0.95, size*1.15, c.Way)
	for _, t := range wrapped(c.Source+": "+c.Route, size, column-4, 2) {
		y += size * 1.35
		p.text(x+2, y, t, themeFill("muted")...)
	}
	y += 6
	rows := c.rows()
	last := a.from
	for i, s := range rows {
		y = p.fall(c, a, s, last, i == 0, x, y, column)
		last = s.After
	}
	if len(rows) > 0 {
		p.ear(c, a, last, x, y, column)
		y += size*1.35 + 15
	}
	p.figures(a, x, y+size, column)
	return y + size*1.3
}

// fall is one step: a bar from what was there to what is left. It returns its lower edge.
func (p *pen) fall(c Cascade, a axis, s Fall, before float64, source bool, x, y, column float64) float64 {
	size := p.width.size()
	base := y + size*1.1
	plain, _, more := strings.Cut(s.Name, ": ") // what a step rests on is told on pointing at it
	p.open("g", "class", "pic-row")
	if more {
		p.hover(s.Name)
	}
	for i, t := range wrapped(plain, size, column-6, 3) {
		base = y + size*(1.1+1.2*float64(i))
		p.text(x+4, base, t)
	}
	from, to := a.place(max(before, a.from)), a.place(max(s.After, a.from))
	bar := rect{min(from, to), base + 5, max(math.Abs(to-from), 1.5), 9}
	value := signed(s.After - before)
	p.marks(a, bar)
	switch {
	case source:
		p.bar(bar, c.Way)
		value = whole(s.After)
	case s.After > before:
		p.rect(bar, themeFill("alarm")...)
	default:
		p.rect(bar, themeFill("grey")...)
	}
	p.text(x+column-2, bar.y+9.5, value, "text-anchor", "end", "font-weight", "700")
	p.shut("g")
	return base + size*0.25 + 15
}

// ear is what arrives.
func (p *pen) ear(c Cascade, a axis, level, x, y, column float64) {
	size := p.width.size()
	base := y + size*1.1
	p.text(x+4, base, "at the ear, "+whole(c.All)+" by all ways", "font-weight", "700")
	p.marks(a, rect{y: base + 5, h: 9})
	if level > a.from {
		p.bar(rect{a.at, base + 5, a.place(level) - a.at, 9}, c.Way)
	}
	p.text(x+column-2, base+14.5, decibels(level), "text-anchor", "end", "font-weight", "700")
}

// marks are the grid at the height of one bar, so that it never runs through text.
func (p *pen) marks(a axis, bar rect) {
	d := ""
	for _, v := range a.ticks(40) {
		d += p.upright(a.place(v), bar)
	}
	p.empty("path", append([]string{"d", d}, themeStroke("grey", "1")...)...)
}

// upright is a stroke across a bar, a little beyond it.
func (p *pen) upright(x float64, bar rect) string {
	return "M" + p.num(x) + " " + p.num(bar.y-2) + "v" + p.num(bar.h+4)
}
