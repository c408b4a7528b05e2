package picture

import "math"

// Box is the enclosure round an engine: what goes in, what comes out.
type Box struct {
	Title    string // states the finding
	Name     string
	Engine   string
	Duty     string // at which its air is told
	Size     Point  // m inside: length, width, height
	Openings []Hole
	Fan      string   // what it does, in words; "" = none
	Fresh    string   // temperature of the air that comes in
	Inside   string   // of the air in it, as it runs
	Allowed  string   // what it may reach
	TooHot   bool     // it is over that, as it runs or at rated
	Rated    string   // of the air in it at rated, where it is too hot only there; else ""
	Flow     string   // of air through it
	Verdicts []string // in words
	Ways     []Rung   // what comes out of it to the seat, any order
	Seat     string
	Feet     bool // scale in feet
}

// Hole is an opening.
type Hole struct {
	Role string  // inlet | outlet | leak
	Area float64 // m2
	Duct float64 // m of lined duct before it; 0 = bare
	Text string  // "600 cm2, 600 mm of lined duct, 1 bend"
}

// crate is a box on the paper.
type crate struct {
	*pen
	box   *Box
	scale float64 // units for a metre
	body  rect
}

// SVG draws the box from its side, to scale: holes as squares of their area, lined ducts as long as they are. Where the
// holes lie in its walls is schematic: inlets left and low, outlets right and high, as air rises.
func (b Box) SVG(id string, w Width) (string, error) {
	p := newPen(id, w)
	p.check(b.Size[:]...)
	ducts := [2]float64{}
	for _, h := range b.Openings {
		p.check(h.Area, h.Duct)
		ducts[h.side()] = math.Max(ducts[h.side()], h.Duct)
	}
	if p.bad || b.Size[0] <= 0 || b.Size[2] <= 0 {
		return "", errNumber
	}
	c := &crate{pen: p, box: &b}
	margin := w.pick(40, 16)
	c.scale = math.Min((w.units()-2*margin)/(b.Size[0]+ducts[0]+ducts[1]+0.3), w.pick(200, 150)/b.Size[2])
	wide := b.Size[0] * c.scale
	c.body = rect{(w.units()-wide)/2 + (ducts[0]-ducts[1])/2*c.scale, w.size() * 1.8, wide, b.Size[2] * c.scale}
	c.shell()
	c.holes()
	y := c.ruler(c.body.bottom())
	y = c.facts(y + 4)
	y = c.out(y)
	return p.picture("box", b.Title, b.said(), y+8, b.ways())
}

// side is 0 for what lets air in and 1 for what lets it out.
func (h Hole) side() int {
	if h.Role == "outlet" {
		return 1
	}
	return 0
}

func (b Box) ways() (out []Way) {
	for _, r := range b.Ways {
		out = append(out, r.Way)
	}
	return out
}

// said is the box in words.
func (b Box) said() string {
	var holes []string
	for _, h := range b.Openings {
		holes = append(holes, h.Role+" "+h.Text)
	}
	out := b.Name + " round " + b.Engine + ". Openings: " + Listed(holes) + "."
	if len(holes) == 0 {
		out = b.Name + " round " + b.Engine + ", without openings."
	}
	return out + " At " + b.Duty + " air inside " + b.Inside + ", may reach " + b.Allowed + "."
}

// shell is the box with the engine in it.
func (c *crate) shell() {
	c.text(2, c.size()*1.1, short(c.box.Name+", to scale", c.size()*bolder, c.width.units()-4), "font-weight", "700")
	c.rect(c.body, "class", "pf-water ps-ink", "fill", water, "stroke", ink, "stroke-width", "3", "data-box", c.box.Name)
	e := rect{c.body.x + c.body.w*0.2, c.body.bottom() - c.body.h*0.62, c.body.w * 0.6, c.body.h * 0.55}
	c.rect(e, append(themeFill("ink"), "rx", "4")...)
	c.text(e.x+e.w/2, e.y+e.h/2+c.size()*0.36, short(c.box.Engine, c.size(), e.w-8), append(themeFill("card"), "text-anchor", "middle")...)
	how := themeFill("ink")
	if c.box.TooHot {
		how = themeFill("alarm")
	}
	air := "air " + c.box.Inside
	if c.box.Rated != "" {
		air = "rated: " + c.box.Rated
	}
	c.text(c.body.x+c.body.w/2, c.body.y+c.size()*1.3, short(air, c.size()*bolder, c.body.w-6), append(how, "text-anchor", "middle", "font-weight", "700")...)
}

func (c *crate) size() float64 { return c.width.size() }

// holes are the openings with their ducts and arrows of air.
func (c *crate) holes() {
	taken := [2]float64{6, 6} // of either side
	for _, h := range c.box.Openings {
		k := h.side()
		edge := math.Max(math.Sqrt(h.Area)*c.scale, 2)
		y := c.body.bottom() - taken[0] - edge
		x, way := c.body.x, -1.0
		if k == 1 {
			y, x, way = c.body.y+taken[1], c.body.right(), 1
		}
		taken[k] += edge + 12
		c.open("g", "data-hole", h.Role)
		c.hover(h.Role + " " + h.Text)
		if long := h.Duct * c.scale; long > 0 {
			left := x
			if way < 0 {
				left -= long
			}
			c.rect(rect{left, y - 3, long, edge + 6}, themeFill("grey")...)
			c.rect(rect{left, y, long, edge}, themeFill("card")...)
			x += way * long
		}
		c.rect(rect{x - 2, y, 4, edge}, themeFill("card")...)
		from, to := x+way*26, x+way*8
		if k == 1 {
			from, to = to, from
		}
		c.airArrow(from, to, y+edge/2)
		c.shut("g")
	}
}

// airArrow is air on its way.
func (c *crate) airArrow(from, to, y float64) {
	d := math.Copysign(6, to-from)
	c.pen.line(from, y, to-d, y, themeStroke("ink", "2")...)
	c.empty("path", append([]string{"d", "M" + c.num(to) + " " + c.num(y) + "l" + c.num(-d) + " -4v8Z"}, themeFill("ink")...)...)
}

// ruler is the scale bar.
func (c *crate) ruler(y float64) float64 {
	metres, text := scaleBar(c.scale, c.width.units(), c.box.Feet)
	y += 16
	x := c.body.x
	c.empty("path", append([]string{"data-metres", c.num(metres), "d", "M" + c.num(x) + " " + c.num(y-5) + "v5h" + c.num(metres*c.scale) + "v-5"}, themeStroke("ink", "1.5")...)...)
	c.text(x+metres*c.scale+6, y, text, themeFill("muted")...)
	return y
}

// facts are the figures of its air in words.
func (c *crate) facts(y float64) float64 {
	b, size := c.box, c.size()
	lines := []string{}
	for _, h := range b.Openings {
		lines = append(lines, h.Role+": "+h.Text)
	}
	if len(b.Openings) == 0 {
		lines = append(lines, "no openings")
	}
	if b.Fan != "" {
		lines = append(lines, "fan: "+b.Fan)
	}
	lines = append(lines, "air at "+b.Duty+": "+b.Flow+" at "+b.Fresh+" comes in; "+b.Inside+" inside, may reach "+b.Allowed)
	lines = append(lines, b.Verdicts...)
	for _, l := range lines {
		for _, t := range wrapped(l, size, c.width.units()-4, 16) {
			y += size * 1.35
			c.text(2, y, t)
		}
	}
	return y
}

// out are the ways by which it is heard at the seat, as bars.
func (c *crate) out(y float64) float64 {
	if len(c.box.Ways) == 0 {
		return y
	}
	size := c.size()
	y += size * 1.7
	c.text(2, y, short("What comes of it to "+c.box.Seat+", dB(A)", size*bolder, c.width.units()-4), "font-weight", "700")
	rows, _ := Ladder{Rungs: c.box.Ways, Total: Level{DBA: loudest(c.box.Ways)}}.rows()
	rows = rows[:len(rows)-1]
	var levels []float64
	for _, r := range rows {
		levels = append(levels, r.level)
	}
	c.check(levels...)
	a := ladderAxis(levels, c.width)
	y += 4
	c.open("g", "transform", "translate(0 "+c.num(y)+")")
	c.figures(a, 0, c.width.size(), c.width.units())
	c.shut("g")
	y += size * 1.4
	for _, r := range rows {
		y = c.step(a, r, nil, y)
	}
	return y
}

func loudest(all []Rung) float64 {
	out := math.Inf(-1)
	for _, r := range all {
		out = math.Max(out, r.Level)
	}
	return out
}
