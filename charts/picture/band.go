package picture

// Level is a sound level with the band that eight of ten such boats keep to, dB(A).
type Level struct {
	DBA, Low, High float64
	Unjudged       bool // only Low and High hold: what its sheet allows
}

// Said is the level as it is written at a seat.
func (l Level) Said() string {
	if l.Unjudged {
		return whole(l.Low) + " to " + whole(l.High) + " dB(A)"
	}
	if l.DBA < 0 {
		return "silent"
	}
	return whole(l.DBA) + " dB(A)"
}

// band is the spread in words.
func (l Level) band() string {
	switch {
	case l.Unjudged:
		return "not to be judged"
	case l.High < 0:
		return ""
	}
	return decibels(l.Low) + " to " + decibels(l.High)
}

// shown are the levels that a drawing of it has to hold.
func (l Level) shown() []float64 {
	if l.Unjudged {
		return []float64{l.Low, l.High}
	}
	return []float64{l.DBA, l.Low, l.High}
}

// Band is one level with its band and its limit on a stated axis, small enough for a table cell. It has no text of its own:
// the figure stands beside it.
type Band struct {
	Name     string // "helm, as found"
	Level    Level
	Limit    *float64 // dB(A)
	From, To float64  // dB(A) of the axis, one for all bands that are compared
}

// SVG draws the band 120 by 18 units at either width.
func (b Band) SVG(id string, w Width) (string, error) {
	p := newPen(id, w)
	p.check(b.Level.shown()...)
	if !(b.To > b.From) {
		return "", errAxis
	}
	a := axis{b.From, b.To, 2, 116}
	if low, high := max(0, min(120, a.place(b.Level.Low))), max(0, min(120, a.place(b.Level.High))); high > low {
		p.rect(rect{low, 5, high - low, 8}, append(themeFill("grey"), "rx", "1.5")...)
	}
	desc := b.Level.Said()
	if band := b.Level.band(); band != "" {
		desc += ", " + band
	}
	if b.Limit != nil {
		x := a.place(*b.Limit)
		p.check(x)
		if x >= 0 && x <= 120 {
			p.line(x, 0, x, 18, themeStroke("alarm", "2", "stroke-dasharray", "3 2")...)
		}
		desc += "; limit " + whole(*b.Limit)
	}
	if v := a.place(b.Level.DBA); !b.Level.Unjudged && v >= 0 && v <= 120 {
		p.rect(rect{v - 2.5, 1, 5, 16}, themeFill("card")...)
		p.rect(rect{v - 1.5, 1, 3, 16}, themeFill("ink")...)
	}
	for _, v := range b.Level.shown() {
		p.beyond(a.place(v))
	}
	return p.small("band", b.Name, desc, 120, 18)
}

// beyond says by an arrowhead that something lies off the axis.
func (p *pen) beyond(x float64) {
	switch {
	case x < 0:
		p.empty("path", append([]string{"d", "M0 9L7 4V14Z"}, themeFill("ink")...)...)
	case x > 120:
		p.empty("path", append([]string{"d", "M120 9L113 4V14Z"}, themeFill("ink")...)...)
	}
}

// Silent is the level that stands for silence in an input, dB(A).
const Silent = -60
