package boatfile

import (
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/silencer"
	"hushwake/source/said"
)

// checkPartition checks both sides of a partition.
func (r *reader) checkPartition(o *decode.Object, l *path.Layout, p *path.Partition, spaces []string) {
	at := r.partitionNode(o, l, p)
	if p.Between[0] == "" || p.Between[1] == "" {
		return
	}
	for j, s := range p.Between {
		name := at
		if at != nil && len(at.Items) == 2 {
			name = at.Items[j]
		}
		r.known(name, "partitions."+p.Name+" between", s, spaces)
	}
	if p.Between[0] == p.Between[1] {
		r.Wrong(at, "name two different spaces", "partitions.%s: a partition between %q and itself", p.Name, p.Between[0])
	}
	r.overstated(at, l, p)
	if gap := l.Apart(p); gap > 0 {
		r.Warn(at, "partitions.%s: %q and %q lie %s apart, too far for one wall: is an at or size wrong? Without this partition they would count as no neighbours, and quieter",
			p.Name, p.Between[0], p.Between[1], quantity.Said(gap, quantity.Length))
	}
	out := p.Between[0] == path.Outside || p.Between[1] == path.Outside
	if out && (!p.AtStated || p.Facing == "") {
		r.assumePlace(l, p)
	}
}

// assumePlace says where a partition to the open is taken to lie and what that costs.
func (r *reader) assumePlace(l *path.Layout, p *path.Partition) {
	inner := p.Between[0]
	if inner == path.Outside {
		inner = p.Between[1]
	}
	if s := findSpace(l.Spaces, inner); p.AtStated || s != nil && s.AtStated {
		why := practice + ": the distance is less sure"
		if !p.AtStated && p.Facing == "" {
			why = "judgement: at the nearest it is as loud as can be, but for 1.5 dB where it looks straight there; on the far side its own house may keep off 10 dB and more"
		}
		r.AssumeOf("partitions."+p.Name, "at, facing", "the middle of the stated face, else the nearest of its space", why, 2)
		return
	}
	// Its doubt by distance comes with the routes.
	r.Assume("partitions."+p.Name+" at", said.Textf("by an engine or listener in its space, else anywhere along a usual boat of {10 m}"),
		said.Textf("judgement: neither its place nor that of its space is stated; the price is at {4 m}, less farther off"), 6)
}

// partitionNode finds where a partition's between stands.
func (r *reader) partitionNode(o *decode.Object, l *path.Layout, p *path.Partition) *decode.Node {
	lists := []*decode.Node{}
	_, list := o.At.Find("partitions")
	lists = append(lists, list)
	if _, layouts := o.At.Find("layouts"); layouts != nil {
		for _, item := range layouts.Items {
			_, c := item.Find("changes")
			_, s := c.Find("partitions")
			lists = append(lists, s)
		}
	}
	for _, s := range lists {
		if s == nil {
			continue
		}
		for _, item := range s.Items {
			_, name := item.Find("name")
			if name != nil && strings.TrimSpace(name.Text) != p.Name {
				continue
			}
			if _, b := item.Find("between"); b != nil && len(b.Items) == 2 && b.Items[0].Text == p.Between[0] && b.Items[1].Text == p.Between[1] {
				return b
			}
		}
	}
	return list
}

// checkElements checks the spaces that the parts of a line stand in.
func (r *reader) checkElements(o *decode.Object, l *path.Layout, list []silencer.Element, spaces []string) {
	for _, e := range list {
		c := e.Base()
		if c.In != "" {
			r.known(r.elementNode(o, c.In), e.Kind()+" in", c.In, spaces)
		}
		for _, b := range e.Within() {
			r.checkElements(o, l, b, spaces)
		}
	}
}

// elementNode finds an "in: NAME" below the layouts.
func (r *reader) elementNode(o *decode.Object, space string) *decode.Node {
	_, layouts := o.At.Find("layouts")
	if found := findIn(layouts, space); found != nil {
		return found
	}
	return layouts
}

func findIn(n *decode.Node, space string) *decode.Node {
	if n == nil {
		return nil
	}
	for i, v := range n.Values {
		if n.Keys[i].Text == "in" && v.Kind == decode.Scalar && strings.TrimSpace(v.Text) == space {
			return v
		}
		if f := findIn(v, space); f != nil {
			return f
		}
	}
	for _, v := range n.Items {
		if f := findIn(v, space); f != nil {
			return f
		}
	}
	return nil
}
