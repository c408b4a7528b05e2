package silencer

import (
	"fmt"

	"hushwake/silencer/chain"
	"hushwake/silencer/fourpole"
	"hushwake/source/spectrum"
)

// layout lays the elements of a line out as a chain.
type layout struct {
	*chain.Chain
	course *course // in work
	plain  standIn // elements that a plain pipe of the same length and bore stands for
	spots  []spot  // by place
}

// spot is where an element lies.
type spot struct {
	course       *course
	element, row int
}

func (s spot) of() Element { return s.course.line.Elements[s.element] }

// elementAt is that of a place.
func (a *layout) elementAt(place int) Element { return a.spots[place-1].of() }

// standIn says whether a plain pipe stands for the element at a place, and with which loss, dB.
type standIn func(place int, e Element) (ceiling float64, plain bool)

// chainOf lays the four-poles of the line out. plain may be nil.
func (c *course) chainOf(plain standIn, hot bool) (*layout, error) {
	a := &layout{Chain: chain.NewChain(c.setting(plain != nil), &c.Conduit, hot, 2*len(c.owner)), course: c, plain: plain}
	err := a.build()
	if c.line.Outlet.Present {
		a.Finish(c.outletBore())
	}
	if err == nil {
		err = a.Err
	}
	if err != nil { // a neighbour complains too, in words of waves
		if choked := c.choked(); choked != nil {
			err = choked
		}
	}
	return a, err
}

// setting is that of the feed and the options.
func (c *course) setting(standIns bool) chain.Setting {
	if c.memo == nil {
		c.memo = map[chain.OneMoreHose]*chain.HoseWalls{}
	}
	s := chain.Setting{WallLoss: fourpole.ViscoThermal, Corrected: c.opts.Corrections != "none", Method: c.opts.Method, Isothermal: c.feed.Isothermal, Memo: c.memo, StandIns: standIns,
		Source: func() (duty, rated float64) { return c.feed.source().Level().DBA(), c.feed.RatedDBA }}
	if c.opts.Walls == "lossless" {
		s.WallLoss = fourpole.Lossless
	}
	return s
}

func (a *layout) build() error {
	c := a.course
	for row, owner := range c.owner {
		if owner < 0 {
			continue
		}
		e := c.line.Elements[owner]
		a.Begin(c.rows[row].Name, row, c.ports[owner].in)
		a.spots = append(a.spots, spot{c, owner, row})
		if w := e.Injects(); w != nil && w.Flow > 0 {
			a.KeepDry()
		}
		a.lay(e, owner)
		if a.Err != nil {
			return fmt.Errorf("element %d (%s): %w", owner+1, e.Kind(), a.Err)
		}
	}
	return nil
}

// lay adds an element: as it is, by its branches, or a pipe in its place.
func (a *layout) lay(e Element, index int) {
	if a.plain != nil {
		if ceiling, plain := a.plain(a.Places, e); plain {
			a.asPipe(e, ceiling)
			return
		}
	}
	if lines := a.course.inside[a.Row]; lines != nil {
		a.parallel(lines, index)
		return
	}
	e.sound(a.Chain)
}

// asPipe stands in for a silencing element: same length, main bore, and a loss of its own.
func (a *layout) asPipe(e Element, loss float64) {
	if !e.instead(a.Chain) {
		a.Stretch(a.Bore, e.Form().Length, 0, 1)
	}
	if loss > 0 {
		a.TakeOut(spectrum.Fill(loss))
	}
}

// parallel lays branches side by side: equal pressures at fork and joint, mass velocities add. Each branch is a chain of
// its own; a branch on its own is the line itself.
func (a *layout) parallel(lines []*course, index int) {
	if len(lines) == 1 {
		a.onward(lines[0])
		return
	}
	shares := a.Gas.Stream.Parts[a.Parts[0]].State.Share
	head, tail := a.End(a.Bore, 0), a.End(a.course.ports[index].out, 1)
	a.Join(head)
	var list []fourpole.Piece
	for i, l := range lines {
		sub := a.branch(l, portion(head, l.ports[0].in, shares[i]), shares[i])
		sub.Join(portion(tail, l.ports[len(l.ports)-1].out, shares[i]))
		sub.Marks = append(sub.Marks, chain.Mark{Pieces: len(sub.Pieces), End: sub.Last}) // its end
		if sub.Err != nil {
			a.Err = sub.Err
			return
		}
		list = append(list, sub.Pieces)
	}
	f, err := fourpole.NewParallel(list...)
	a.Add(f, err, tail)
}

// portion is the end of one branch: its own bore with its share of the flow.
func portion(e fourpole.End, bore, share float64) fourpole.End {
	area := circle(bore)
	return fourpole.End{Medium: e.Medium, Area: area, Mach: e.Mach * e.Area * share / area}
}

// onward goes on with the elements of another course.
func (a *layout) onward(l *course) {
	c, gas, row, parts := a.course, a.Gas, a.Row, a.Parts
	a.course, a.Gas, a.Parts = l, &l.Conduit, nil
	if err := a.build(); err != nil {
		a.Err = err
	}
	a.course, a.Gas, a.Row, a.Parts = c, gas, row, parts
}

// branch chains one of several branches from its share of the fork.
func (a *layout) branch(l *course, head fourpole.End, share float64) *chain.Chain {
	sub := &layout{Chain: a.Fork(&l.Conduit, head, share), plain: a.plain, spots: a.spots}
	sub.onward(l)
	a.spots = sub.spots
	a.Gather(sub.Chain)
	return sub.Chain
}
