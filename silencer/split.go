package silencer

import (
	"fmt"

	"hushwake/silencer/march"
	"hushwake/source/published"
)

// branch is where a line lies that is part of another one.
type branch struct {
	name    string // in front of the names of its elements
	number  int    // 1-based branch; 0 = none
	index   int    // 1-based place of the parallel part in the whole line
	in      string
	lagging Lagging
}

// split parts the gas between branches so that all lose the same pressure. Fork and joint cost what the step between
// the line and one tube of the branches' area costs.
func (c *course) split(branches [][]Element, around Lagging) {
	s, r := &c.Stream, c.rows[c.Stream.Row]
	p := march.Part{Kind: march.BranchPart, Bore: s.Bore, Cited: published.By("equal loss in every branch", "derived", "derived")}
	lines := make([]*course, len(branches))
	for i, b := range branches {
		l := &course{line: &Line{Elements: b}, feed: c.feed, opts: c.opts, branch: branch{
			fmt.Sprintf("%s, branch %d: ", r.Name, i+1), i + 1, r.Index, r.In, s.Wrapped(around)}}
		before := 0.0
		if len(branches) == 1 {
			before = s.Bore
		}
		l.ports = ports(b, before, 0)
		l.run()
		lines[i], p.Lines = l, append(p.Lines, &l.Conduit)
	}
	if c.inside == nil {
		c.inside = map[int][]*course{}
	}
	c.inside[s.Row] = lines
	s.Add(p)
}
