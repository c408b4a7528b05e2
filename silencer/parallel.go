package silencer

import "math"

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
		if i > 0 && !same(io[i-1].out, io[i].in) {
			r.step(io[i-1].out, io[i].in)
		}
		if i == 0 {
			r.step(math.Max(s.bore, io[0].in), io[0].in)
		}
		r.bore = io[i].in
		r.stuff = wallOf(x.Base().Material, defaultStuff(x.Kind()))
		x.flow(r)
	}
	if n := len(io); n > 0 {
		r.step(io[n-1].out, math.Max(s.bore, io[n-1].out))
		r.bore = io[0].in
	}
	return r
}
