package silencer

import (
	"errors"
	"fmt"
	"math"

	"hushwake/silencer/fourpole"
)

// Parallel is several lines side by side, kind "parallel". What its elements do not state of lagging and
// space is that of the parallel part.
type Parallel struct {
	Common
	Branches [][]Element
}

// Kind names the element.
func (*Parallel) Kind() string { return "parallel" }

// Within are its branches.
func (e *Parallel) Within() [][]Element { return e.Branches }

// form: as long as its longest branch; its ports have the area of all branches' together.
func (e *Parallel) form() (f form) {
	known := true
	for _, b := range e.Branches {
		length := 0.0
		for _, x := range b {
			g := x.form()
			length += g.length
			f.outer = math.Max(f.outer, g.outer)
			m := massOf(x.Base(), g)
			if known = known && (m != nil || massless(x)); m != nil {
				f.mass += *m
			}
		}
		f.length = math.Max(f.length, length)
	}
	if !known {
		f.mass = 0
	}
	f.in, f.out = e.ports()
	return f
}

// ports are the bores of one tube with the area of all branches. A branch on its own is the line itself: a
// bore that it does not state is that of the line, 0.
func (e *Parallel) ports() (in, out float64) {
	if len(e.Branches) == 1 && len(e.Branches[0]) > 0 {
		b := e.Branches[0]
		for _, x := range b {
			f := x.form()
			out = orDefault(f.out, orDefault(f.in, out))
		}
		return b[0].form().in, out
	}
	for _, b := range e.Branches {
		if p := ports(b, 0, 0); len(p) > 0 {
			in, out = math.Hypot(in, p[0].in), math.Hypot(out, p[len(p)-1].out)
		}
	}
	return in, out
}

// flow: its branches are laid side by side, see course.split.
func (e *Parallel) flow(*stream) {}

// sound: equal pressures at fork and joint, mass velocities add. Each branch is a chain of its own; a
// branch on its own is the line itself.
func (e *Parallel) sound(c *chain) {
	p, lines := &c.course.stream.parts[c.parts[0]], c.course.inside[c.row]
	if len(lines) == 1 {
		c.onward(lines[0])
		return
	}
	head, tail := c.end(c.bore, 0), c.end(c.course.ports[c.element].out, 1)
	c.join(head)
	var list []fourpole.Piece
	for i, l := range lines {
		share, last := p.state.share[i], len(l.ports)-1
		sub := c.branch(l, portion(head, l.ports[0].in, share), share)
		sub.join(portion(tail, l.ports[last].out, share))
		sub.marks = append(sub.marks, mark{pieces: len(sub.pieces), end: sub.last}) // its end
		if sub.err != nil {
			c.err = sub.err
			return
		}
		list = append(list, sub.pieces)
	}
	f, err := fourpole.NewParallel(list...)
	c.add(f, err, tail)
}

// portion is the end of one branch: its own bore with its share of the flow.
func portion(e fourpole.End, bore, share float64) fourpole.End {
	area := circle(bore)
	return fourpole.End{Medium: e.Medium, Area: area, Mach: e.Mach * e.Area * share / area}
}

// onward goes on with the elements of another course.
func (a *chain) onward(l *course) {
	c, element, row, parts := a.course, a.element, a.row, a.parts
	a.course, a.parts = l, nil
	if err := a.build(); err != nil {
		a.err = err
	}
	a.course, a.element, a.row, a.parts = c, element, row, parts
}

// branch chains one of several branches from its share of the fork.
func (a *chain) branch(l *course, head fourpole.End, share float64) *chain {
	sub := &chain{course: a.course, opts: a.opts, plain: a.plain, hot: a.hot, places: a.places, beside: true,
		weight: a.weight * head.Area / a.last.Area, first: head, last: head, begun: true}
	if a.dry != nil {
		s := a.dry.shared(share)
		sub.dry = &s
	}
	sub.onward(l)
	a.places, a.trusts = sub.places, append(a.trusts, sub.trusts...)
	a.quotes = append(a.quotes, sub.quotes...)
	sub.closeWalls()
	for _, d := range sub.doubts {
		a.doubt(d.Term, d.Key, scaled(d.SD, 1/a.weight), d.Source) // the branch's share is in it
	}
	a.notes, a.warnings = append(a.notes, sub.notes...), append(a.warnings, sub.warnings...)
	m := &a.marks[len(a.marks)-1]
	m.branches = append(m.branches, sub)
	return sub
}

func (e *Parallel) check() error {
	if len(e.Branches) == 0 {
		return errors.New("a parallel part needs branches")
	}
	for i, b := range e.Branches {
		if len(b) == 0 {
			return fmt.Errorf("branch %d has no element", i+1)
		}
		if err := checkElements(b); err != nil {
			return fmt.Errorf("branch %d: %w", i+1, err)
		}
		if len(e.Branches) > 1 && !(ports(b, 0, 0)[0].in > 0) {
			return fmt.Errorf("branch %d has no bore\nhint: give its pipe a bore", i+1)
		}
	}
	return nil
}
