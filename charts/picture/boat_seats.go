package picture

import (
	"math"
	"slices"
	"strconv"
)

// seats draws where people hear; one that lies off the drawing stands at its edge with an arrow outward and its distance.
func (d *sketch) seats() {
	for _, s := range d.boat.Seats {
		x, y := d.at(s.At)
		cx, cy := d.clip(x, y)
		d.open("g", "data-seat", s.Name)
		if math.Hypot(x-cx, y-cy) > 1 {
			d.pointer(cx, cy, x-cx, y-cy)
		} else {
			d.circle(cx, cy, 4.5, "class", "pf-ink ps-card", "fill", ink, "stroke", card, "stroke-width", "1.5")
		}
		d.shut("g")
		mark := rect{cx - 6, cy - 6, 12, 12}
		d.board.hard, d.board.seats = append(d.board.hard, mark), append(d.board.seats, mark)
		d.labels = append(d.labels, d.seat(s, mark))
	}
}

// clip moves a point into the drawing.
func (d *sketch) clip(x, y float64) (float64, float64) {
	r := d.board.in
	return rect{r.x + 9, r.y + 9, r.w - 18, r.h - 18}.nearest(x, y)
}

// pointer is an arrowhead at the edge towards something outside the drawing.
func (d *sketch) pointer(x, y, dx, dy float64) {
	n := math.Hypot(dx, dy)
	dx, dy = dx/n*7, dy/n*7
	d.empty("path", append([]string{"d", "M" + d.num(x+dx) + " " + d.num(y+dy) + "L" + d.num(x-dx-dy*0.8) + " " + d.num(y-dy+dx*0.8) + "L" + d.num(x-dx+dy*0.8) + " " + d.num(y-dy-dx*0.8) + "Z"}, themeFill("ink")...)...)
}

// seat is the label of a place: in the side view with its level, from above with its name.
func (d *sketch) seat(s Seat, mark rect) *label {
	l := &label{kind: "pic-seat", home: mark, gap: 9, data: []string{"data-label", s.Name}}
	room := d.width.pick(220, 150)
	if d.v.name == above.name {
		l.lines = []words{{text: short(s.Name, d.size(), room)}}
	} else {
		l.lines = []words{{text: s.Level.Said(), bold: true}, {text: short(s.Name, d.size(), room), bold: s.Name == d.boat.Chosen}}
		l.mark, l.tiled = s.Rules, !s.Level.Unjudged
		l.data = append(l.data, "data-level", s.Level.Said())
		if t := s.beside(d.width); t != "" {
			l.lines = append(l.lines, words{text: t, mute: true})
		}
		if l.frame = "muted"; s.over() {
			l.frame = "alarm"
		}
	}
	l.first = !d.board.in.holds(d.at(s.At))
	for _, t := range wrapped(d.away(s.At), d.size(), d.width.pick(300, 110), 2) {
		l.lines = append(l.lines, words{text: t, mute: true})
	}
	if l.lines[0].text != s.Name && wide(s.Name, d.size()) > room {
		l.full = s.Name
	}
	return l
}

// beside is what stands under a level: its limit and what it is now; on a wide picture its band too.
func (s Seat) beside(w Width) string {
	var parts []string
	if band := s.Level.band(); band != "" && w == Wide {
		parts = append(parts, band)
	}
	if s.Limit != nil {
		if word := "limit "; s.over() {
			parts = append(parts, "over "+whole(*s.Limit))
		} else {
			parts = append(parts, word+whole(*s.Limit))
		}
	}
	if s.Now != nil {
		parts = append(parts, "now "+decibels(*s.Now))
	}
	out := ""
	for i, t := range parts {
		if i > 0 {
			out += ", "
		}
		out += t
	}
	return out
}

// away says how far off the boat a seat lies, "" on it or near by.
func (d *sketch) away(at Point) string {
	var parts []string
	for i, names := range [2][2]string{{" astern", " ahead"}, {" to port", " to starboard"}} {
		off, name := 0.0, ""
		if at[i] < d.low[i] {
			off, name = d.low[i]-at[i], names[0]
		} else if at[i] > d.top[i] {
			off, name = at[i]-d.top[i], names[1]
		}
		if off > 1 {
			parts = append(parts, d.metres(off)+name)
		}
	}
	return Listed(parts)
}

// metres is a distance in the reader's units.
func (d *sketch) metres(v float64) string {
	if d.boat.Feet {
		return strconv.FormatFloat(v/foot, 'f', 0, 64) + " ft"
	}
	return strconv.FormatFloat(v, 'f', 0, 64) + " m"
}

// arrows leads the ways to the chosen seat, each from where it begins.
func (d *sketch) arrows() {
	i := slices.IndexFunc(d.boat.Seats, func(s Seat) bool { return s.Name == d.boat.Chosen })
	if i < 0 {
		return
	}
	x, y := d.at(d.boat.Seats[i].At)
	x, y = d.clip(x, y)
	for k, a := range d.boat.Ways {
		d.check(a.Level)
		if !a.Nowhere {
			fx, fy := d.at(a.From)
			d.arrow(a, fx, fy, x, y, k)
		}
	}
}

// arrow is a bent line from one place to another, its letter a third of the way.
func (d *sketch) arrow(a Arrow, x1, y1, x2, y2 float64, k int) {
	dx, dy := x2-x1, y2-y1
	long := math.Hypot(dx, dy)
	if long < 14 {
		return
	}
	bend := 0.12 + 0.07*float64(k/2)
	if k%2 == 1 {
		bend = -bend
	}
	mx, my := (x1+x2)/2-dy*bend, (y1+y2)/2+dx*bend
	at := func(t float64) (float64, float64) {
		u := 1 - t
		return u*u*x1 + 2*u*t*mx + t*t*x2, u*u*y1 + 2*u*t*my + t*t*y2
	}
	end := 1 - 9/long
	ex, ey := at(end)
	t := paintOf(a.Way)
	d.open("g", "data-way", string(a.Way))
	d.hover(t.words + ", " + decibels(a.Level) + " dB(A)")
	d.empty("path", append([]string{"d", "M" + d.num(x1) + " " + d.num(y1) + "Q" + d.num(mx) + " " + d.num(my) + " " + d.num(ex) + " " + d.num(ey)}, t.stroke("2.5")...)...)
	tx, ty := (ex-mx)/math.Hypot(ex-mx, ey-my)*4, (ey-my)/math.Hypot(ex-mx, ey-my)*4
	d.empty("path", append([]string{"d", "M" + d.num(ex+1.6*tx) + " " + d.num(ey+1.6*ty) + "L" + d.num(ex-tx-ty*1.1) + " " + d.num(ey-ty+tx*1.1) + "L" + d.num(ex-tx+ty*1.1) + " " + d.num(ey-ty-tx*1.1) + "Z"}, t.fill()...)...)
	d.letter(a.Way, at)
	d.shut("g")
	for s := 0.1; s < 1; s += 0.1 {
		px, py := at(s)
		d.board.soft = append(d.board.soft, rect{px - 2, py - 2, 4, 4})
	}
}

// letter puts the tile of a way on its arrow, where it meets no other thing; an arrow too short for it is told by its dashes.
func (d *sketch) letter(w Way, at func(float64) (float64, float64)) {
	side := d.size() * 1.15
	for _, t := range []float64{0.36, 0.46, 0.26, 0.56, 0.66, 0.16} {
		x, y := at(t)
		r := rect{x - side/2, y - side/2, side, side}
		if !slices.ContainsFunc(d.board.hard, func(h rect) bool { return r.meets(h, 1) }) {
			d.tile(r.x, r.y, side, w)
			d.board.hard = append(d.board.hard, r)
			return
		}
	}
}

// key says in words what the arrows are, and what the drawing leaves out.
func (d *sketch) key(y float64) float64 {
	b, size := d.boat, d.size()
	row := size * 1.5
	if len(b.Ways) > 0 {
		y += row
		d.text(2, y, short("How it comes to "+b.Chosen+":", size*bolder, d.width.units()-4), "font-weight", "700")
	}
	for _, a := range b.Ways {
		d.tile(4, y+row-size*0.95, size*1.15, a.Way)
		for _, t := range wrapped(paintOf(a.Way).words+": "+decibels(a.Level)+" dB(A)"+d.sourced(a), size, d.width.units()-size*2-4, 2) {
			y += row
			d.text(4+size*1.8, y, t)
		}
	}
	var notes []string
	if b.Now != "" {
		notes = append(notes, "Dashed: "+b.Now+", as it is now.")
	}
	if len(b.Runs) > 0 {
		notes = append(notes, "Engines are drawn as symbols; the run of a line from engine to outlet is schematic.")
	}
	if len(b.Unplaced) > 0 {
		notes = append(notes, "Without a place in the file: "+Listed(b.Unplaced)+".")
	}
	for _, n := range notes {
		for _, t := range wrapped(n, size, d.width.units()-4, 3) {
			y += row
			d.text(2, y, t, themeFill("muted")...)
		}
	}
	return y + 6
}

// sourced names the source where several come by the same way.
func (d *sketch) sourced(a Arrow) string {
	nowhere := ""
	if a.Nowhere && a.Way != Background {
		nowhere = " (its place is not in the file)"
	}
	for _, other := range d.boat.Ways {
		if other.Way == a.Way && other.Source != a.Source {
			return ", " + a.Source + nowhere
		}
	}
	return nowhere
}
