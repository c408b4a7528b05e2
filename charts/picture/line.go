package picture

import (
	"math"
	"slices"
	"strconv"
)

// Line is an exhaust line to scale, manifold first.
type Line struct {
	Title  string // states the finding
	Engine string
	GasC   float64 // °C at the manifold
	Gas    string
	Parts  []Part
	Feet   bool // scale in feet
}

// Part is one element. Texts are in the reader's units; "" = does not exist.
type Part struct {
	Name      string
	Length    float64 // m along the line; 0 = a point
	Bore      float64 // m
	Outer     float64 // m, over its lagging
	GasC      float64 // °C where it ends
	Pressure  float64 // Pa, gauge, where it begins
	Size      string  // "1200 mm, bore 128 mm"
	Gauge     string  // pressure where it begins
	Gas, Skin string  // temperatures, of the gas where it ends
	Growth    string
}

// strip is a line laid out on the paper.
type strip struct {
	*pen
	line  *Line
	scale float64 // units for a metre, along and across
	left  float64
	axis  float64 // on the paper of the line's own axis
}

// SVG draws the line laid out straight, its pressure and temperature along it, and a row for each element.
func (l Line) SVG(id string, w Width) (string, error) {
	p := newPen(id, w)
	p.check(l.GasC)
	long, thick := 0.0, 0.0
	for _, x := range l.Parts {
		p.check(x.Length, x.Bore, x.Outer, x.GasC, x.Pressure)
		long += x.Length
		thick = max(thick, x.Outer, x.Bore)
	}
	if p.bad {
		return "", errNumber
	}
	s := &strip{pen: p, line: &l, left: 8}
	s.scale = (w.units() - 2*s.left) / max(long, 0.1)
	if tall := w.pick(150, 120); s.scale*thick > tall {
		s.scale = tall / thick
	}
	y := s.numbers() + 6
	s.axis = y + s.scale*thick/2
	s.parts()
	y = s.axis + s.scale*thick/2 + 10
	y = s.profiles(y, long)
	y = s.table(y + w.size())
	return p.picture("line", l.Title, l.said(), y+6, nil)
}

// said is the line in words.
func (l Line) said() string {
	var all []string
	for _, x := range l.Parts {
		t := x.Name
		if x.Size != "" {
			t += " (" + x.Size + ")"
		}
		all = append(all, t)
	}
	return "From the manifold of " + l.Engine + " on, laid out straight and to scale: " + Listed(all) + "."
}

// middles are where the elements lie along the paper.
func (s *strip) middles() (out []float64) {
	x := s.left
	for _, t := range s.line.Parts {
		out = append(out, x+t.Length*s.scale/2)
		x += t.Length * s.scale
	}
	return out
}

// numbers writes the number of each element over it, pushed apart where they are close and, where they are too many for one
// row, in several; it returns the lower edge.
func (s *strip) numbers() float64 {
	size, at := s.width.size(), s.middles()
	if len(at) == 0 {
		return size
	}
	wide := size * 1.55
	if len(at) > 9 { // of two digits
		wide = size * 2
	}
	rows := math.Max(1, math.Ceil(float64(len(at)-1)*wide/(s.width.units()-wide)))
	apart := wide / rows
	put := make([]float64, len(at))
	last := math.Inf(-1)
	for i, x := range at {
		put[i] = math.Max(math.Max(x, last+apart), wide/2)
		last = put[i]
	}
	next := s.width.units() - wide/2
	for i := len(put) - 1; i >= 0; i-- {
		put[i] = math.Min(put[i], next)
		next = put[i] - apart
	}
	floor := size * 1.2 * (rows + 1)
	for i, x := range put {
		y := size * (1 + 1.2*float64(i%int(rows)))
		s.text(x, y, strconv.Itoa(i+1), "text-anchor", "middle", "font-weight", "700")
		s.line2(x, y+3, at[i], floor)
	}
	return floor
}

func (s *strip) line2(x1, y1, x2, y2 float64) {
	s.pen.line(x1, y1, x2, y2, themeStroke("muted", "1")...)
}

// parts draws each element as long and as thick as it is, its bore inside.
func (s *strip) parts() {
	x := s.left
	for i, t := range s.line.Parts {
		w, out := t.Length*s.scale, max(t.Outer, t.Bore)*s.scale
		s.open("g", "data-part", strconv.Itoa(i+1))
		s.hover(t.Name + ": " + t.Size)
		if w > 0 {
			s.rect(rect{x, s.axis - out/2, w, out}, "class", "pf-water ps-ink", "fill", water, "stroke", ink, "stroke-width", "1.2")
			if bore := t.Bore * s.scale; bore > 0 && bore < out*0.8 {
				s.pen.line(x, s.axis-bore/2, x+w, s.axis-bore/2, themeStroke("muted", "1", "stroke-dasharray", "4 3")...)
				s.pen.line(x, s.axis+bore/2, x+w, s.axis+bore/2, themeStroke("muted", "1", "stroke-dasharray", "4 3")...)
			}
		} else {
			s.empty("path", append([]string{"d", "M" + s.num(x-5) + " " + s.num(s.axis-14) + "h10l-5 9Z"}, themeFill("ink")...)...)
		}
		s.shut("g")
		x += w
	}
}

// profiles are pressure (full) and temperature of the gas (dashed) along the line, with their ends in figures.
func (s *strip) profiles(y, long float64) float64 {
	parts := s.line.Parts
	if len(parts) == 0 || long == 0 {
		return y
	}
	size, high := s.width.size(), s.width.pick(46, 40)
	top := y + size*s.width.pick(1.6, 2.9)
	at, gauge, gas := []float64{s.left}, []float64{}, []float64{s.line.GasC}
	for _, t := range parts {
		at = append(at, at[len(at)-1]+t.Length*s.scale)
		gauge, gas = append(gauge, t.Pressure), append(gas, t.GasC)
	}
	s.pen.line(s.left, top+high, at[len(parts)], top+high, themeStroke("rule", "1")...)
	s.curve(at, append(gauge, 0), top, high, themeStroke("ink", "2"))
	s.curve(at, gas, top, high, themeStroke("alarm", "2", "stroke-dasharray", "6 4"))
	first, last := parts[0], parts[len(parts)-1]
	room := s.width.pick(s.width.units()*0.48, s.width.units()-4)
	s.text(2, y+size, short("full: pressure, "+first.Gauge+" to 0", size*bolder, room), "font-weight", "700")
	x, how := s.width.units()-2, append(themeFill("alarm"), "text-anchor", "end")
	if s.width == Narrow {
		x, how = 2, themeFill("alarm")
	}
	s.text(x, top-size*0.5, short("dashed: gas, "+s.line.Gas+" to "+last.Gas, size, room), how...)
	return s.bar(top + high)
}

// curve draws values from the lowest at the foot to the highest at the top; one that never changes runs along the foot.
func (s *strip) curve(at, v []float64, top, high float64, how []string) {
	low, span := slices.Min(v), math.Max(slices.Max(v)-slices.Min(v), 1e-9)
	d := ""
	for i, x := range at {
		d += map[bool]string{true: "M", false: "L"}[i == 0] + s.num(x) + " " + s.num(top+high*(1-(v[i]-low)/span))
	}
	s.empty("path", append([]string{"d", d}, how...)...)
}

// bar is the scale under the strip.
func (s *strip) bar(y float64) float64 {
	metres, text := scaleBar(s.scale, s.width.units(), s.line.Feet)
	size := s.width.size()
	y += size * 1.2
	s.empty("path", append([]string{"data-metres", s.num(metres), "d", "M" + s.num(s.left) + " " + s.num(y-5) + "v5h" + s.num(metres*s.scale) + "v-5"}, themeStroke("ink", "1.5")...)...)
	s.text(s.left+metres*s.scale+6, y, text+", along and across alike", themeFill("muted")...)
	return y + 4
}

// columns of the table on a wide picture: where each ends, and its head.
var columns = []struct {
	x, room float64
	head    string
	end     bool
	text    func(Part) string
}{
	{26, 220, "element", false, func(t Part) string { return t.Name }},
	{252, 200, "length, bore", false, func(t Part) string { return t.Size }},
	{546, 90, "pressure", true, func(t Part) string { return t.Gauge }},
	{612, 62, "gas out", true, func(t Part) string { return t.Gas }},
	{684, 68, "outside", true, func(t Part) string { return t.Skin }},
	{758, 70, "grows", true, func(t Part) string { return t.Growth }},
}

// table has a row for each element; on a narrow picture two lines.
func (s *strip) table(y float64) float64 {
	size := s.width.size()
	if s.width == Wide {
		y += size * 1.3
		for _, c := range columns {
			s.cell(c.x, y, c.head, c.room, c.end, themeFill("muted"))
		}
	}
	for i, t := range s.line.Parts {
		y += size * s.width.pick(1.55, 1.8)
		s.text(20, y, strconv.Itoa(i+1), "text-anchor", "end", "font-weight", "700")
		if s.width == Narrow {
			s.cell(26, y, t.Name, s.width.units()-30, false, []string{"font-weight", "700"})
			for _, line := range wrapped(t.facts(), size, s.width.units()-30, 2) {
				y += size * 1.3
				s.cell(26, y, line, s.width.units()-30, false, themeFill("muted"))
			}
			continue
		}
		for _, c := range columns {
			s.cell(c.x, y, c.text(t), c.room, c.end, nil)
		}
	}
	return y
}

func (s *strip) cell(x, y float64, t string, room float64, end bool, how []string) {
	if t == "" {
		return
	}
	if end {
		how = append(how[:len(how):len(how)], "text-anchor", "end")
	}
	s.text(x, y, short(t, s.width.size()*boldness(slices.Contains(how, "700")), room), how...)
}

// facts are the figures of an element in a line.
func (t Part) facts() string {
	out := ""
	for _, f := range [][2]string{{"", t.Size}, {"begins at ", t.Gauge}, {"gas out ", t.Gas}, {"outside ", t.Skin}, {"grows ", t.Growth}} {
		if f[1] != "" {
			if out != "" {
				out += "; "
			}
			out += f[0] + f[1]
		}
	}
	return out
}
