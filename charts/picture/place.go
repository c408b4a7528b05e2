package picture

import (
	"cmp"
	"math"
	"slices"
)

// label is a few lines of text that belong to something on the paper.
type label struct {
	lines []words
	home  rect    // what it names: inside is best, else near by
	kind  string  // class
	mark  Way     // tile before the first line
	tiled bool    // it has one
	frame string  // colour of its border; "" = none
	full  string  // for a pointer, where it was shortened
	gap   float64 // that a leader line begins at; 0 = a leader is never needed
	data  []string
	first bool // it is placed before others of its kind

	box rect // where it was put
}

// words are one line of a label.
type words struct {
	text string
	bold bool
	mute bool
}

const (
	padding = 4.0
	leading = 1.24 // of the size of the text
)

// measure sets the size of a label by its text.
func (l *label) measure(size float64) {
	for i, t := range l.lines {
		w := wide(t.text, size)
		if t.bold {
			w *= bolder
		}
		if i == 0 && l.tiled {
			w += size * 1.45
		}
		l.box.w = math.Max(l.box.w, w+2*padding)
	}
	l.box.h = float64(len(l.lines))*size*leading + 4
}

// board is paper on which labels find a place without touching one another.
type board struct {
	in    rect   // where labels may lie
	hard  []rect // that none may touch
	soft  []rect // better left free
	seats []rect // markers; a label may lie nearest to its own alone
	grown float64
}

// step of the lattice on which places are tried, units.
const lattice = 4.0

// clearance is what labels keep between one another, units.
const clearance = 2.0

// pull is what a unit of distance from its home costs a label.
const pull = 1.5

// put finds the place of least cost: near its home, off what is better left free. Where the paper is full the label goes
// under it and the paper grows. No label ever touches another.
func (b *board) put(l *label) (cost float64) {
	best, found := math.Inf(1), false
	all := math.Max(b.in.w, b.in.h)
	for _, around := range []float64{30, 90, all} { // what lies further off costs more than its distance
		if best, found = b.search(l, around, best, found); found && best <= pull*around {
			break
		}
	}
	if !found {
		l.box.x, l.box.y = b.in.x, b.in.bottom()+b.grown+2
		b.grown += l.box.h + 2
		best = full
	}
	b.hard = append(b.hard, l.box)
	return best
}

// full is the cost of a label under the paper.
const full = 1e4

// orders are those in which labels are tried: as they come, from either end, from above and from below.
var orders = []func(rect) float64{
	func(rect) float64 { return 0 },
	func(r rect) float64 { return r.x },
	func(r rect) float64 { return -r.x },
	func(r rect) float64 { return r.y },
	func(r rect) float64 { return -r.y },
}

// settle places labels in the best of a few orders, by what all of them cost together.
func (b *board) settle(labels []*label) {
	best, kept, tried := math.Inf(1), []rect(nil), [][]*label(nil)
	for _, by := range orders {
		order, cost := slices.Clone(labels), 0.0
		slices.SortStableFunc(order, func(x, y *label) int {
			if x.first != y.first {
				return map[bool]int{true: -1, false: 1}[x.first]
			}
			return cmp.Compare(by(x.home), by(y.home))
		})
		if slices.ContainsFunc(tried, func(was []*label) bool { return slices.Equal(was, order) }) {
			continue
		}
		tried = append(tried, order)
		try := board{in: b.in, hard: slices.Clone(b.hard), soft: b.soft, seats: b.seats}
		for _, l := range order {
			if cost += try.put(l); cost >= best {
				break
			}
		}
		if cost < best {
			best, kept = cost, kept[:0]
			for _, l := range labels {
				kept = append(kept, l.box)
			}
		}
	}
	for i, l := range labels {
		l.box = kept[i]
		b.hard = append(b.hard, l.box)
		b.grown = math.Max(b.grown, l.box.bottom()-b.in.bottom())
	}
}

// search tries the places of the lattice that lie so far round the home of a label.
func (b *board) search(l *label, around, best float64, found bool) (float64, bool) {
	w, h := l.box.w, l.box.h
	snap := func(v, from float64) float64 { return from + math.Max(0, math.Ceil((v-from)/lattice))*lattice }
	for y := snap(l.home.y-h-around, b.in.y); y+h <= b.in.bottom()+1e-9 && y <= l.home.bottom()+around; y += lattice {
		for x := snap(l.home.x-w-around, b.in.x); x+w <= b.in.right()+1e-9 && x <= l.home.right()+around; x += lattice {
			r := rect{x, y, w, h}
			if nearer(r, l.home) >= best {
				continue
			}
			c := distant(r, l.home)
			if c >= best {
				continue
			}
			if over, ok := b.over(r); ok { // so is every place up to its far side
				x = math.Max(x, snap(over.right()+clearance, b.in.x)-lattice)
				continue
			}
			if c = b.crowded(c, r, l.home, best); c < best {
				best, found, l.box = c, true, r
			}
		}
	}
	return best, found
}

// distant is what the distance of a place from the home of its label costs.
func distant(r, home rect) float64 {
	hx, hy := home.nearest(r.x+r.w/2, r.y+r.h/2)
	px, py := r.nearest(hx, hy)
	c := math.Hypot(px-hx, py-hy)*pull + 0.02*math.Hypot(r.x-home.x, r.y-home.y)
	if !r.within(home) {
		c += 6
	}
	return c
}

// nearer is a bound under distant, by the larger of the gaps along and up.
func nearer(r, home rect) float64 {
	gap := max(home.x-r.right(), r.x-home.right(), home.y-r.bottom(), r.y-home.bottom())
	if gap <= 0 {
		return 0
	}
	return gap*pull + 6
}

// over is one of the boxes that no label may touch, where a place does.
func (b *board) over(r rect) (rect, bool) {
	for _, h := range b.hard {
		if r.meets(h, clearance) {
			return h, true
		}
	}
	return rect{}, false
}

// crowded adds to a cost what lies under a place, given up at the best so far.
func (b *board) crowded(c float64, r, home rect, best float64) float64 {
	for _, s := range b.soft {
		if r.meets(s, 0) {
			if c += 4; c >= best {
				return c
			}
		}
	}
	if b.misleads(r, home) {
		c += 12
	}
	return c
}

// misleads tells whether the marker of another seat lies as near to a label as what it names.
func (b *board) misleads(r, home rect) bool {
	own := r.gap(home)
	return slices.ContainsFunc(b.seats, func(s rect) bool { return s != home && r.gap(s) < own+6 })
}

// leader leads from a label that lies away from its home, or that could be taken for another's, to it.
func (p *pen) leader(l *label, b *board) {
	cx, cy := l.box.x+l.box.w/2, l.box.y+l.box.h/2
	hx, hy := l.home.nearest(cx, cy)
	x, y := l.box.nearest(hx, hy)
	if l.gap > 0 && (math.Hypot(x-hx, y-hy) > l.gap || l.kind == "pic-seat" && b.misleads(l.box, l.home)) {
		dot := 1.8
		if l.home.w <= 12 { // a marker: to its middle
			hx, hy, dot = l.home.x+l.home.w/2, l.home.y+l.home.h/2, 1
		}
		p.line(x, y, hx, hy, themeStroke("ink", "0.8")...)
		p.circle(hx, hy, dot, themeFill("ink")...)
	}
}

// label writes a label on its plate.
func (p *pen) label(l *label) {
	p.open("g", append([]string{"class", "pic-label " + l.kind}, l.data...)...)
	if l.full != "" {
		p.hover(l.full)
	}
	plate := append(themeFill("card"), "fill-opacity", ".8", "rx", "4")
	if l.frame != "" {
		for _, t := range themed {
			if t[0] == l.frame {
				plate = []string{"class", "pf-card ps-" + l.frame, "fill", card, "fill-opacity", ".92", "stroke", t[1], "stroke-width", "1.2", "rx", "4"}
			}
		}
	}
	plate[1] = "pic-plate " + plate[1]
	p.rect(l.box, plate...)
	size := p.width.size()
	for i, t := range l.lines {
		x, y := l.box.x+padding, l.box.y+2+size*(leading*float64(i)+0.96)
		if i == 0 && l.tiled {
			p.tile(x, y-size*0.95, size*1.15, l.mark)
			x += size * 1.45
		}
		var how []string
		if t.bold {
			how = append(how, "font-weight", "700")
		}
		if t.mute {
			how = append(how, themeFill("muted")...)
		}
		p.text(x, y, t.text, how...)
	}
	p.shut("g")
}
