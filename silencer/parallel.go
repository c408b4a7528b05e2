package silencer

import (
	"errors"
	"math"

	"hushwake/silencer/fourpole"
)

// Parallel is several lines side by side, kind "parallel".
type Parallel struct {
	Common
	Branches [][]Element
}

// Kind names the element.
func (*Parallel) Kind() string { return "parallel" }

// form: as long as its longest branch; a branch without length of its own counts as nothing.
func (e *Parallel) form() (f form) {
	for _, b := range e.Branches {
		length := 0.0
		for _, x := range b {
			g := x.form()
			length += g.length
			f.mass += g.mass
			f.outer = math.Max(f.outer, g.outer)
		}
		f.length = math.Max(f.length, length)
	}
	return f
}

// flow splits the gas between the branches so that all lose the same pressure.
func (e *Parallel) flow(s *stream) {
	p := part{kind: branchPart, bore: s.bore, text: "equal loss in every branch", from: "derived"}
	for _, b := range e.Branches {
		p.lines = append(p.lines, branch(b, s))
	}
	s.add(p)
}

// branch lays out one branch: its neighbours are the fork and the joint, whose edges cost what steps do.
func branch(elements []Element, s *stream) *stream {
	r := &stream{row: s.row, options: s.options}
	io := ports(elements, s.bore)
	for i, x := range elements {
		r.row = i
		if i > 0 && !same(io[i-1].out, io[i].in) {
			r.step(io[i-1].out, io[i].in)
		}
		if i == 0 {
			r.step(math.Max(s.bore, io[0].in), io[0].in)
		}
		r.bore = io[i].in
		r.stuff = wallOf(x.Base().Material, x.Kind())
		x.flow(r)
	}
	if n := len(io); n > 0 {
		r.step(io[n-1].out, math.Max(s.bore, io[n-1].out))
		r.bore = io[0].in
	}
	return r
}

// sound: equal pressures at fork and joint, mass velocities add. Each branch is a chain of its own.
func (e *Parallel) sound(c *chain) {
	if len(c.parts) == 0 {
		c.err = errors.New("a parallel part needs branches")
		return
	}
	p := &c.course.stream.parts[c.parts[0]]
	head, tail := c.end(c.bore, 0), c.end(c.bore, 1)
	c.join(head)
	var list []fourpole.Piece
	for i, b := range e.Branches {
		sub, err := c.branch(b, p.lines[i])
		if err != nil {
			c.err = err
			return
		}
		list = append(list, sub.pieces)
		c.notes, c.doubts = append(c.notes, sub.notes...), append(c.doubts, sub.doubts...)
		c.warnings = append(c.warnings, sub.warnings...)
		for _, t := range sub.trusts {
			c.trusted(t)
		}
		if len(sub.stated) > 0 {
			c.warn("a stated loss inside a branch has no phase and is left out")
		}
	}
	f, err := fourpole.NewParallel(list...)
	c.add(f, err, tail)
}

// branch chains one branch; its gas is that of its own stream.
func (c *chain) branch(elements []Element, s *stream) (*chain, error) {
	sub := &course{line: &Line{Elements: elements}, feed: c.course.feed, opts: c.opts, ports: ports(elements, c.bore)}
	sub.stream = *s
	sub.last = *c.behind()
	for i, e := range elements {
		sub.rows = append(sub.rows, Row{Name: c.name() + ", " + e.Kind(), Kind: e.Kind()})
		sub.owner = append(sub.owner, i)
	}
	a := &chain{course: sub, opts: c.opts, hot: c.hot, before: c.before, inBranch: true}
	return a, a.build()
}
