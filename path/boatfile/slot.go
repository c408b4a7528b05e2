package boatfile

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/overlay"
	"hushwake/path/boatfile/spelling"
)

// slotted is a layout with places that are left open.
type slotted struct {
	layout *decode.Node // as it stands in the file
	slots  []slot
	// read decodes the layout of a choice.
	read func(choice []int) (*reader, *path.Layout)
}

// slot is one of its places.
type slot struct {
	at      *decode.Node
	name    string
	engine  string
	options []option
	left    []string // which sizes were left out
}

// option is what may stand there, of one set of sizes.
type option struct {
	at     *decode.Node // as it is written, for all of its sizes
	sizes  []*decode.Node
	parts  []*decode.Node
	text   string
	priced bool
}

// slotted gives a layout with the first option in each of its slots, and what else may stand there; nil where it has none.
func (r *reader) slotted(n *decode.Node, offers map[string]lines.Offer) (*decode.Node, *slotted) {
	s := &slotted{layout: n}
	_, exhausts := n.Find("exhausts")
	for i, k := range exhausts.OrEmpty().Keys {
		for _, item := range slotsIn(exhausts.Values[i]) {
			s.slots = append(s.slots, r.slot(item, k.Text, offers))
		}
	}
	if len(s.slots) == 0 {
		return n, nil
	}
	for i := range s.slots {
		for _, other := range s.slots[:i] {
			if other.name == s.slots[i].name && other.name != "" {
				r.Wrong(s.slots[i].at, "give each slot of a layout a name of its own", "two slots are called %q: line %d has it already", spelling.Clip(other.name), other.at.Line)
			}
		}
	}
	r.Warn(n, "layout %q leaves %s open: the first option of each is taken here, 'hushwake choose' searches them", spelling.Clip(n.NameOf()), strings.Join(s.names(), ", "))
	return s.with(make([]int, len(s.slots))), s
}

func (s *slotted) names() (all []string) {
	for _, x := range s.slots {
		all = append(all, x.name)
	}
	return all
}

// slotsIn finds the slots below a node, in order.
func slotsIn(n *decode.Node) (all []*decode.Node) {
	if n.Kind == decode.Mapping && len(n.Keys) == 1 && n.Keys[0].Text == "slot" {
		return []*decode.Node{n}
	}
	for _, v := range append(slices.Clone(n.Values), n.Items...) {
		all = append(all, slotsIn(v)...)
	}
	return all
}

// slot reads name and options; one of which nothing can be read stands empty.
func (r *reader) slot(item *decode.Node, engine string, offers map[string]lines.Offer) slot {
	o := r.Object(item.Values[0], "slot")
	s := slot{at: item, engine: engine}
	if n := o.Must("name", "first"); n != nil {
		s.name = r.TextOf(n, "slot name")
	}
	if s.name != "" {
		o.Path += " " + s.name
	}
	list := o.Must("options", "[none, {chamber: {bore: [250 mm, 300 mm], length: 600 mm}}]")
	if list != nil && list.Kind == decode.Sequence && len(list.Items) == 0 {
		r.Wrong(list, "write options: [none, {chamber: {bore: [250 mm, 300 mm], length: 600 mm}}]", "%s has no options", o.Path)
	}
	for _, n := range r.List(list, o.Path+" options", 0, decode.Most) {
		s.options = append(s.options, r.option(n, offers)...)
	}
	o.Done()
	if len(s.options) == 0 {
		s.options = []option{{at: item, text: "none", priced: true}}
	}
	s.options = r.once(s.options, s.name)
	tell(s.options)
	return s
}

// once leaves out options that stand there twice, and warns of each that is written so.
func (r *reader) once(all []option, slot string) (kept []option) {
	var said *decode.Node
	for _, x := range all {
		first := slices.IndexFunc(kept, func(y option) bool { return slices.EqualFunc(x.parts, y.parts, (*decode.Node).Equal) })
		if first < 0 {
			kept = append(kept, x)
			continue
		}
		if said == x.at {
			continue
		}
		said = x.at
		r.Warn(x.at, "slot %s: %q stands there twice and counts once: line %d has it already", slot, x.text, kept[first].at.Line)
	}
	return kept
}

// option unfolds what is written to one for each set of its sizes.
func (r *reader) option(n *decode.Node, offers map[string]lines.Offer) (all []option) {
	parts := overlay.Elements(n)
	for _, list := range findOneOf(&decode.Node{Kind: decode.Sequence, Items: parts}) {
		r.Wrong(list, "write each offer as an option of its own: {quote: NAME}", "one_of inside a slot")
		return nil
	}
	var open []sizes
	before := len(r.Problems)
	for _, p := range parts {
		for i, k := range p.Keys {
			open = append(open, r.sizesIn(k.Text, p.Values[i], elementSchemas().Properties[k.Text])...)
		}
	}
	if len(r.Problems) > before {
		return nil // one cause, one message
	}
	for _, list := range combinations(open) {
		if len(all) >= mostSizes {
			r.Wrong(n, "write fewer sizes, or two slots", "an option unfolds to more than %d sizes", mostSizes)
			return nil
		}
		put, words := map[*decode.Node][]*decode.Node{}, []string{}
		for i, v := range list {
			put[open[i].list] = []*decode.Node{v}
			words = append(words, open[i].key+" "+strings.TrimSpace(v.Text))
		}
		x := option{at: n, sizes: list, priced: true, text: strings.Join(append(labels(parts), words...), ", ")}
		for _, p := range parts {
			x.parts, x.priced = append(x.parts, p.Putting(put)), x.priced && priced(p, offers)
		}
		all = append(all, x)
	}
	return all
}

// labels are what parts are called.
func labels(parts []*decode.Node) []string {
	var names []string
	for _, p := range parts {
		name := overlay.NameOf(p)
		if name == "" {
			name = strings.ReplaceAll(overlay.KindOf(p), "_", " ")
		}
		names = append(names, name)
	}
	if len(names) == 0 {
		return []string{"none"}
	}
	return []string{strings.Join(names, " + ")}
}

// tell gives options that read alike a number.
func tell(all []option) {
	count := map[string]int{}
	for _, x := range all {
		count[x.text]++
	}
	for i := range all {
		if count[all[i].text] > 1 {
			all[i].text = fmt.Sprintf("%s (option %d)", all[i].text, i+1)
		}
	}
}

// priced tells whether the whole price of a part is stated.
func priced(p *decode.Node, offers map[string]lines.Offer) bool {
	if p.Kind != decode.Mapping || len(p.Values) != 1 {
		return false
	}
	body := p.Values[0]
	if _, price := body.Find("price"); !price.Unknown() {
		return true
	}
	name := body.Text
	if _, of := body.Find("offer"); of != nil {
		name = of.Text
	}
	f, ok := offers[strings.TrimSpace(name)]
	_, open := f.Cost()
	return ok && overlay.KindOf(p) == "quote" && len(open) == 0
}

// with is the layout with an option in each slot.
func (s *slotted) with(choice []int) *decode.Node {
	put := map[*decode.Node][]*decode.Node{}
	for i, k := range choice {
		put[s.slots[i].at] = s.slots[i].options[k].parts
	}
	return s.layout.Putting(put)
}

// leaveOpen gives a layout its slots.
func (r *reader) leaveOpen(l *path.Layout, s *slotted, b *path.Boat, offers map[string]lines.Offer, chosen map[*decode.Node]string) {
	if s == nil {
		return
	}
	own := *s // one_of makes several layouts of one entry
	own.read = func(choice []int) (*reader, *path.Layout) {
		fresh, x := newReader(nil), *l
		fresh.Materials, fresh.Sea = r.Materials, r.Sea
		n := own.with(choice)
		o := fresh.Object(n, "layouts."+l.Base)
		x.Exhausts, x.Quotes, x.Unpriced, x.Slots = nil, nil, nil, nil
		x.Price = o.Price("price")
		fresh.exhausts(o, n, b, &x, offers, chosen)
		fresh.promisedPressure(o, &x)
		return fresh, &x
	}
	if r.open == nil {
		r.open = map[*path.Layout]*slotted{}
	}
	r.open[l] = &own
}

// build is the layout of a choice.
func (s *slotted) build(choice []int) (*path.Layout, error) {
	r, l := s.read(choice)
	if len(r.Problems) > 0 {
		return nil, errors.New(r.Problems[0].Message)
	}
	return l, nil
}

// public is what others see of the slots.
func (s *slotted) public() *path.Slots {
	out := &path.Slots{Build: s.build}
	for _, x := range s.slots {
		out.Left = append(out.Left, x.left...)
		p := path.Slot{Name: x.name, Engine: x.engine}
		for _, o := range x.options {
			p.Options = append(p.Options, path.Option{Text: o.text, Priced: o.priced})
		}
		out.Slots = append(out.Slots, p)
	}
	return out
}
