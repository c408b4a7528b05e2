package boatfile

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/overlay"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
)

// maxLayouts is how many alternatives a file may unfold to.
const maxLayouts = 200

// layouts decodes the alternatives; a one_of makes one of each offer.
func (r *reader) layouts(root *decode.Object, b *path.Boat, offers map[string]lines.Offer) {
	names := map[string]int{}
	for i, item := range r.List(root.Get("layouts"), "layouts", 0, decode.Most) {
		before := len(b.Layouts)
		r.layout(i, item, root, b, offers)
		for _, l := range b.Layouts[before:] {
			_, at := item.Find("name")
			if at == nil {
				at = item
			}
			if line, twice := names[l.Name]; twice {
				r.Wrong(at, "give each layout a name of its own", "duplicate layout name %q: line %d has it already", spelling.Clip(l.Name), line)
			}
			names[l.Name] = at.Line
		}
	}
}

// layout decodes one entry once for each choice of its offers.
func (r *reader) layout(i int, n *decode.Node, root *decode.Object, b *path.Boat, offers map[string]lines.Offer) {
	if n.Kind != decode.Mapping {
		r.Wrong(n, "such as - name: dry stack", "layouts[%d] must be a mapping, not %s", i+1, n.Kind)
		return
	}
	n, open := r.slotted(n, offers)
	_, exhausts := n.Find("exhausts")
	for _, chosen := range choices(findOneOf(exhausts)) {
		if len(b.Layouts) >= maxLayouts {
			r.Wrong(n, "", "the file unfolds to more than %d layouts", maxLayouts)
			return
		}
		l := r.oneLayout(i, n, root, b, offers, chosen)
		r.leaveOpen(l, open, b, offers, chosen)
		b.Layouts = append(b.Layouts, l)
	}
}

// findOneOf collects the one_of entries below a node.
func findOneOf(n *decode.Node) []*decode.Node {
	if n == nil {
		return nil
	}
	var out []*decode.Node
	for i, v := range n.Values {
		if n.Keys[i].Text == "one_of" && (v.Kind == decode.Sequence || v.Kind == decode.Mapping) {
			out = append(out, v)
			continue
		}
		out = append(out, findOneOf(v)...)
	}
	for _, v := range n.Items {
		out = append(out, findOneOf(v)...)
	}
	return out
}

// choices multiplies the offers of every one_of out; one empty choice when there is none.
func choices(nodes []*decode.Node) []map[*decode.Node]string {
	all := []map[*decode.Node]string{{}}
	for _, n := range nodes {
		list := n
		if n.Kind == decode.Mapping {
			_, list = n.Find("offers")
		}
		if list == nil || len(list.Items) == 0 {
			continue
		}
		var next []map[*decode.Node]string
		for _, c := range all {
			for _, item := range list.Items {
				if len(next) > maxLayouts {
					break
				}
				m := map[*decode.Node]string{n: item.Text}
				for k, v := range c {
					m[k] = v
				}
				next = append(next, m)
			}
		}
		all = next
	}
	return all
}

func (r *reader) oneLayout(i int, n *decode.Node, root *decode.Object, b *path.Boat, offers map[string]lines.Offer, chosen map[*decode.Node]string) *path.Layout {
	o := r.Object(n, fmt.Sprintf("layouts[%d]", i+1))
	l := &path.Layout{Name: o.Text("name")}
	if l.Name == "" {
		l.Name = fmt.Sprintf("layout %d", i+1)
		if !o.Has("name") && b.Bench == nil {
			r.Assume(o.Path+" name", l.Name, "its place in the file", 0)
		}
	}
	l.Base = l.Name
	_, exhausts := n.Find("exhausts")
	for _, f := range findOneOf(exhausts) {
		if c := chosen[f]; c != "" {
			l.Name += " + " + c
		}
	}
	o.Path = "layouts." + l.Base
	l.Price = o.Price("price")
	r.changed(o, root, l, l.Base)
	r.exhausts(o, n, b, l, offers, chosen)
	r.promisedPressure(o, l)
	o.Known = append(o.Known, overlay.Keys...)
	o.Done()
	return l
}

// promisedPressure reads what is promised for the whole line at the engine, at rated, hot.
func (r *reader) promisedPressure(o *decode.Object, l *path.Layout) {
	n := o.Get("promised")
	if n == nil {
		return
	}
	x := r.Object(n, o.Path+".promised")
	q, ok := x.Promise("back_pressure", decode.Positive, quantity.AtMost, quantity.Pressure)
	x.Done()
	for i := range l.Exhausts {
		if ok {
			l.Exhausts[i].Promised = &path.Promised{Low: math.Max(0, q.Low), High: q.High}
		}
	}
	if ok && len(l.Exhausts) > 1 {
		r.Assume(x.Path+" back_pressure", q.Text+" at each engine", "the promise names no engine", 0)
	}
}

// changed decodes spaces, partitions, enclosures and engines of a layout: those of the file with the
// layout's changes laid over them.
func (r *reader) changed(o *decode.Object, root *decode.Object, l *path.Layout, name string) {
	c := r.Object(o.Get("changes"), o.Path+".changes")
	spaces := overlay.Names(&r.Reader, root.Get("spaces"), c.Get("spaces"), "space")
	enclosures := overlay.Names(&r.Reader, root.Get("enclosures"), c.Get("enclosures"), "enclosure")
	engines := overlay.Names(&r.Reader, root.Get("engines"), c.Get("engines"), "engine")
	partitions := overlay.Partitions(&r.Reader, root.Get("partitions"), c.Get("partitions"))
	c.Done()
	l.Spaces = r.spaces(spaces)
	l.Enclosures = r.enclosures(enclosures)
	l.Engines = r.engines(engines)
	l.Partitions = r.partitions(partitions)
}
