package picture

import (
	"cmp"
	"slices"
	"strings"
)

// Ladder is what one hears at a seat in a layout, by how it gets there.
type Ladder struct {
	Title  string // states the finding
	Seat   string
	Layout string
	Rungs  []Rung // any order
	Total  Level
	Limit  *float64 // dB(A)
	Now    *float64 // dB(A) of today's layout; nil = this is it or there is none
}

// Rung is one way from one source, dB(A), with the single routes in it.
type Rung struct {
	Way    Way
	Source string // "main exhaust"
	Level  float64
	Routes []Route // any order
}

// Route is one route of a way, dB(A).
type Route struct {
	Name  string
	Level float64
}

// What a ladder shows: ways down to so far under the total, and of a way its loudest routes, dB.
const (
	deepest     = 30.0
	routeWithin = 10.0
	mostRoutes  = 3
)

// step is one row of a ladder.
type step struct {
	way    Way
	tiled  bool
	text   string
	value  string
	level  float64
	thin   bool
	hollow bool   // drawn as an outline
	band   *Level // drawn behind it
}

// SVG draws the ways as bars on an axis of dB(A), loudest first, each with its loudest routes, then all together.
func (l Ladder) SVG(id string, w Width) (string, error) {
	p := newPen(id, w)
	rows, quiet := l.rows()
	levels := l.levels(rows)
	if p.check(levels...); p.bad {
		return "", errNumber
	}
	size := w.size()
	a := ladderAxis(levels, w)
	p.figures(a, 0, p.width.size(), p.width.units())
	y := size * 1.4
	if l.Limit != nil {
		x := a.place(*l.Limit)
		p.text(x, size*2.5, "limit "+whole(*l.Limit), append(themeFill("alarm"), "text-anchor", anchor(x, w.units(), wide("limit 100", size)), "font-weight", "700")...)
		y += size * 1.3
	}
	for _, r := range rows {
		y = p.step(a, r, l.Limit, y)
	}
	for _, t := range wrapped(quiet, size, w.units()-4, 3) {
		y += size * 1.4
		p.text(2, y, t, themeFill("muted")...)
	}
	return p.picture("ladder", l.Title, l.said(rows, quiet), y+8, l.ways())
}

// ladderAxis lies right of the names, on a narrow picture under them.
func ladderAxis(levels []float64, w Width) axis {
	return decibelAxis(audible(levels), w.pick(310, 4), w.pick(390, 286))
}

// levels are all that the axis has to hold.
func (l Ladder) levels(rows []step) (out []float64) {
	for _, r := range rows {
		out = append(out, r.level)
		if r.band != nil {
			out = append(out, r.band.shown()...)
		}
	}
	if l.Limit != nil {
		out = append(out, *l.Limit)
	}
	return out
}

// rows are the bars from above, and what is too quiet for one in words.
func (l Ladder) rows() (rows []step, quiet string) {
	if l.Total.Unjudged {
		return []step{{text: "what its sheet allows: " + l.Total.Said(), level: l.Total.High, hollow: true, band: &l.Total}}, ""
	}
	rungs := slices.Clone(l.Rungs)
	slices.SortStableFunc(rungs, func(a, b Rung) int { return cmp.Compare(b.Level, a.Level) })
	many := l.manySources()
	var left []string
	for _, r := range rungs {
		name := paintOf(r.Way).words
		if many && r.Source != "" && r.Way != Together && r.Way != Background {
			name += ", " + r.Source
		}
		if r.Level < l.Total.DBA-deepest || r.Level < 0 {
			left = append(left, name+" "+decibels(r.Level))
			continue
		}
		rows = append(rows, step{way: r.Way, tiled: true, text: name, value: whole(r.Level), level: r.Level})
		rows = append(rows, r.routes()...)
	}
	if len(left) > 0 {
		quiet = "Too quiet to draw: " + Listed(left) + " dB(A)."
	}
	value := decibels(l.Total.DBA)
	rows = append(rows, step{text: "all together at " + l.Seat, value: value, level: l.Total.DBA, band: &l.Total})
	if l.Now != nil {
		rows = append(rows, step{text: "as it is now", value: decibels(*l.Now), level: *l.Now, hollow: true})
	}
	return rows, quiet
}

// routes are the loudest routes of a way, where it has several.
func (r Rung) routes() (rows []step) {
	if len(r.Routes) < 2 {
		return nil
	}
	all := slices.Clone(r.Routes)
	slices.SortStableFunc(all, func(a, b Route) int { return cmp.Compare(b.Level, a.Level) })
	for i, x := range all {
		if i == mostRoutes || x.Level < all[0].Level-routeWithin {
			break
		}
		rows = append(rows, step{way: r.Way, text: x.Name, value: whole(x.Level), level: x.Level, thin: true})
	}
	return rows
}

// manySources tells whether a way is used by more than one source.
func (l Ladder) manySources() bool {
	seen := map[Way]bool{}
	for _, r := range l.Rungs {
		if seen[r.Way] {
			return true
		}
		seen[r.Way] = true
	}
	return false
}

func (l Ladder) ways() (out []Way) {
	for _, t := range paints {
		if slices.ContainsFunc(l.Rungs, func(r Rung) bool { return r.Way == t.way }) {
			out = append(out, t.way)
		}
	}
	return append(out, Together)
}

// said is the ladder in words.
func (l Ladder) said(rows []step, quiet string) string {
	var all []string
	for _, r := range rows {
		if !r.thin && r.band == nil && !r.hollow {
			all = append(all, r.text+" "+r.value)
		}
	}
	out := "All together " + l.Total.Said()
	if band := l.Total.band(); band != "" {
		out += ", " + band
	}
	if l.Limit != nil {
		out += ", limit " + whole(*l.Limit)
	}
	if len(all) > 0 {
		out += ". By way: " + Listed(all)
	}
	return out + ". " + quiet
}

// audible leaves out what is silence.
func audible(levels []float64) []float64 {
	return slices.DeleteFunc(slices.Clone(levels), func(v float64) bool { return v < 0 })
}

// step draws one row from y on and returns where the next begins. The limit is drawn across bars alone, never across text.
func (p *pen) step(a axis, r step, limit *float64, y float64) float64 {
	size := p.width.size()
	high, weight := size*1.15, "700"
	if r.thin {
		high, weight = size*0.5, "400"
	}
	row := size * 1.6
	bar := rect{y: y + (row-high)/2 - size*0.05, h: high}
	if p.width == Narrow {
		bar.y, row = y+size*1.5, size*1.5+high+5
	}
	lines := p.nameOf(a, r)
	more := size * 1.25 * float64(len(lines)-1)
	if p.width == Narrow {
		bar.y += more
	}
	p.open("g", "class", "pic-row")
	p.rowName(r, lines, y+size*1.15)
	p.marks(a, bar)
	p.levelBar(a, r, bar.y, high)
	if limit != nil {
		p.empty("path", append([]string{"d", p.upright(a.place(*limit), bar)}, themeStroke("alarm", "2", "stroke-dasharray", "4 2")...)...)
	}
	p.text(p.width.units()-2, bar.y+high/2+size*0.36, r.value, "text-anchor", "end", "font-weight", weight)
	p.shut("g")
	return y + row + more
}

// nameOf is the name of a row in the room left of its bar, or above it: two lines at most.
func (p *pen) nameOf(a axis, r step) []string {
	size := p.width.size()
	room := p.width.pick(a.at-14, p.width.units()-40)
	if r.tiled || r.thin {
		room -= size * 1.6
	}
	return wrapped(r.text, size*boldness(r.band != nil), room, 2)
}

// rowName writes the name of a row, with the tile of its way.
func (p *pen) rowName(r step, lines []string, base float64) {
	size, x := p.width.size(), 4.0
	if r.tiled || r.thin {
		x += size * 1.6
	}
	if r.tiled {
		p.tile(4, base-size*0.95, size*1.15, r.way)
	}
	var how []string
	if r.thin {
		how = themeFill("muted")
	} else if r.band != nil {
		how = []string{"font-weight", "700"}
	}
	if strings.Join(lines, " ") != glued(r.text) {
		p.hover(r.text)
	}
	for i, t := range lines {
		p.text(x, base+size*1.25*float64(i), t, how...)
	}
}

func boldness(bold bool) float64 {
	if bold {
		return bolder
	}
	return 1
}

// levelBar is the bar of a row, with its band behind.
func (p *pen) levelBar(a axis, r step, y, high float64) {
	if r.level < a.from && r.band == nil {
		return
	}
	long := max(a.place(r.level)-a.at, 0)
	box := rect{a.at, y, long, high}
	switch {
	case r.band != nil:
		low, top := max(a.place(r.band.Low), a.at), a.place(r.band.High)
		if top > low {
			p.rect(rect{low, y + high*0.15, top - low, high * 0.7}, themeFill("grey")...)
		}
		if !r.band.Unjudged {
			p.rect(rect{a.at + long - 3, y - 2, 6, high + 4}, themeFill("card")...)
			p.rect(rect{a.at + long - 2, y - 2, 4, high + 4}, themeFill("ink")...)
		}
	case r.hollow:
		p.rect(box, themeStroke("muted", "1.5", "stroke-dasharray", "4 3")...)
	default:
		p.bar(box, r.way)
	}
}

// figures are those of an axis in a column of the paper; the last of them has the unit.
func (p *pen) figures(a axis, left, y, column float64) {
	all, size := a.ticks(40), p.width.size()
	for i, v := range all {
		x, t := a.place(v), whole(v)
		if i < len(all)-1 {
			p.text(x, y, t, append(themeFill("muted"), "text-anchor", anchor(x-left, column, wide(t, size)))...)
			continue
		}
		long := wide(t+" dB(A)", size)
		p.text(min(x-wide(t, size)/2, left+column-long), y, t+" dB(A)", themeFill("muted")...)
	}
}

// anchor keeps a centred text on the paper.
func anchor(x, units, long float64) string {
	switch {
	case x+long/2 > units:
		return "end"
	case x-long/2 < 0:
		return "start"
	}
	return "middle"
}
