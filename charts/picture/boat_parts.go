package picture

import (
	"math"
	"slices"
)

// heading says from where one looks and which way is which.
func (d *sketch) heading(v view, y float64) {
	d.text(2, y, v.title+", to scale", "font-weight", "700")
	d.text(d.width.units()-2, y, "bow →", append(themeFill("muted"), "text-anchor", "end")...)
}

// water is the sea under the waterline, or the centreline as seen from above.
func (d *sketch) water(bottom float64) {
	full := d.width.units()
	if d.v.name == above.name {
		d.line(0, d.origin, full, d.origin, themeStroke("rule", "1", "stroke-dasharray", "12 4 2 4")...)
		return
	}
	d.rect(rect{0, d.origin, full, bottom - d.origin}, themeFill("water")...)
	d.line(0, d.origin, full, d.origin, themeStroke("muted", "1.5")...)
}

// waterline is said at the left edge.
func (d *sketch) waterline() {
	if d.v.name == side.name {
		l := &label{kind: "pic-water", lines: []words{{text: "waterline", mute: true}}, home: rect{2, d.origin + 1, d.width.units() - 4, d.size() * 1.7}}
		d.labels = append(d.labels, l)
	}
}

// bar is the scale in the lower right corner.
func (d *sketch) bar(bottom float64) {
	metres, text := scaleBar(d.scale, d.width.units(), d.boat.Feet)
	long, size := metres*d.scale, d.size()
	x, y := d.width.units()-8-long, bottom-6
	d.empty("path", append([]string{"data-metres", d.num(metres), "d", "M" + d.num(x) + " " + d.num(y-5) + "v5h" + d.num(long) + "v-5"}, themeStroke("ink", "1.5")...)...)
	d.text(x+long/2, y-5, text, "text-anchor", "middle")
	w := math.Max(long, wide(text, size))
	d.board.hard = append(d.board.hard, rect{x + long/2 - w/2 - 2, y - 5 - size, w + 4, size + 8})
}

// spaces draws the rooms, the nearest last, and asks for their names.
func (d *sketch) spaces() {
	far := slices.Clone(d.boat.Spaces)
	slices.SortStableFunc(far, func(a, b Space) int {
		switch x, y := d.v.depth(a), d.v.depth(b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	for _, s := range far {
		r := d.box(s)
		d.rect(r, "class", "pf-card ps-muted", "fill", card, "fill-opacity", ".55", "stroke", muted, "data-space", s.Name)
		d.board.soft = append(d.board.soft, rect{r.x - 1, r.y, 2, r.h}, rect{r.right() - 1, r.y, 2, r.h}, rect{r.x, r.y - 1, r.w, 2}, rect{r.x, r.bottom() - 1, r.w, 2})
		if !d.seated(s) {
			d.labels = append(d.labels, d.name(s.Name, "pic-space", r, r.w-2*padding))
		}
	}
	for _, e := range d.boat.Engines {
		x, y := d.at(e.At)
		r := rect{x - 0.45*d.scale, y - 0.2*d.scale, 0.9 * d.scale, 0.4 * d.scale}
		name := e.Name
		if e.Box != "" {
			name += " in " + e.Box
			d.rect(d.box(Space{At: Point{e.At[0] - e.Size[0]/2, e.At[1] - e.Size[1]/2, e.At[2] - e.Size[2]/2}, Size: e.Size}),
				append(themeStroke("ink", "2.5"), "rx", "2", "data-box", e.Box)...)
		}
		d.rect(r, append(themeFill("ink"), "rx", "2", "data-engine", e.Name)...)
		d.board.hard = append(d.board.hard, r)
		l := d.name(name, "pic-engine", r, 120)
		l.gap = 9
		d.labels = append(d.labels, l)
	}
}

// seated tells whether a seat in the room bears its name: it is written once, at the seat.
func (d *sketch) seated(s Space) bool {
	return slices.ContainsFunc(d.boat.Seats, func(p Seat) bool {
		within := p.Name == s.Name
		for i, at := range p.At {
			within = within && at >= s.At[i] && at <= s.At[i]+s.Size[i]
		}
		return within
	})
}

// box is a room as it is seen.
func (d *sketch) box(s Space) rect {
	x1, y1 := d.at(s.At)
	x2, y2 := d.at(Point{s.At[0] + s.Size[0], s.At[1] + s.Size[1], s.At[2] + s.Size[2]})
	return rect{x1, math.Min(y1, y2), x2 - x1, math.Abs(y2 - y1)}
}

// name is the label of a thing; one that is too long for its place is broken into two lines, then cut short.
func (d *sketch) name(s, kind string, home rect, room float64) *label {
	l := &label{kind: kind, home: home, gap: 6}
	lines := []string{s}
	if size := d.size(); wide(s, size) > room {
		lines = wrapped(s, size, math.Max(room, 110), 2)
		l.full = s
	}
	for _, t := range lines {
		l.lines = append(l.lines, words{text: t, mute: true})
	}
	return l
}

// runs draws the lines, today's as a ghost under the new one.
func (d *sketch) runs() {
	for _, was := range []bool{true, false} {
		for _, r := range d.boat.Runs {
			if r.Was == was && len(r.Points) > 1 {
				d.run(r)
			}
		}
		for _, m := range d.boat.Outlets {
			if m.Was == was {
				d.mouth(m)
			}
		}
	}
}

func (d *sketch) run(r Run) {
	path := ""
	for i, pt := range r.Points {
		x, y := d.at(pt)
		path += map[bool]string{true: "M", false: "L"}[i == 0] + d.num(x) + " " + d.num(y)
		if i > 0 {
			px, py := d.at(r.Points[i-1])
			for k := 0.0; k <= 1; k += 0.1 {
				d.board.soft = append(d.board.soft, rect{px + (x-px)*k - 2, py + (y-py)*k - 2, 4, 4})
			}
		}
	}
	if r.Was {
		d.empty("path", append([]string{"d", path}, themeStroke("muted", "2", "stroke-dasharray", "4 4", "stroke-linejoin", "round")...)...)
		return
	}
	bore := math.Max(3, r.Bore*d.scale)
	d.empty("path", append([]string{"d", path}, themeStroke("ink", d.num(bore+2), "stroke-linejoin", "round")...)...)
	d.empty("path", append([]string{"d", path}, themeStroke("grey", d.num(bore), "stroke-linejoin", "round")...)...)
}

// mouth is the end of a line: a ring, with a stroke the way it points.
func (d *sketch) mouth(m Mouth) {
	d.check(m.Pointing[:]...)
	x, y := d.at(m.At)
	dx, dy := m.Pointing[0], d.v.down(m.Pointing)
	if m.Was {
		d.board.soft = append(d.board.soft, rect{x - 6, y - 6, 12, 12})
		d.circle(x, y, 4.5, append(themeStroke("muted", "1.5", "stroke-dasharray", "2 2"), "data-outlet-now", m.Name)...)
		return
	}
	d.board.hard = append(d.board.hard, rect{x - 6, y - 6, 12, 12})
	t := paintOf(Outlet)
	d.open("g", "data-outlet", m.Name)
	if dx != 0 || dy != 0 {
		d.line(x, y, x+13*dx, y+13*dy, "class", "ps-"+t.name, "stroke", t.light, "stroke-width", "2.5")
	}
	d.circle(x, y, 5, "class", "pf-card ps-"+t.name, "fill", card, "stroke", t.light, "stroke-width", "2.5")
	d.shut("g")
	l := d.name(m.Name, "pic-outlet", rect{x - 6, y - 6, 12, 12}, 130)
	d.labels = append(d.labels, l)
}
