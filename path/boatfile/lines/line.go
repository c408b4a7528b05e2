package lines

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/path/panel"
	"hushwake/silencer"
	"hushwake/source/said"
)

// Common is what all lines of a file are read with.
type Common struct {
	decode.Reader
	Materials *panel.Materials
	Sea       float64 // K
	Shared    []*shared
}

// Reader decodes one line; it remembers the bore of the last pipe so that parts that don't state
// theirs take their neighbour's.
type Reader struct {
	Common         *Common
	Path           string // how the line is spoken of in messages
	Layout, Engine string
	bore           float64                 // of the part before, m; 0 = none yet
	Next           float64                 // the first bore stated in the line, m
	Quotes         map[string]Offer        // by name
	Names          []string                // of the quotes, in file order
	Chosen         map[*decode.Node]string // what one_of stands for in this layout
	Filled         map[Filled][]string
	order          []Filled
	Used           []Offer
	Cost           *Cost
	branch         string  // of a parallel, in front of the names of its parts
	Power          float64 // W rated that blows into this line, for the default water flow
}

// Filled groups defaults that several elements share, so that the list stays short.
type Filled struct {
	key, value, source string
	plusMinus          float64
}

// Cost adds up what the parts and offers of a layout cost, and lists those of which nobody says.
type Cost struct {
	Price float64
	Open  []string
}

// Elements decodes a list of elements.
func (l *Reader) Elements(n *decode.Node, what string) []silencer.Element {
	var out []silencer.Element
	var before silencer.Element
	for i, item := range l.Common.List(n, what, 0, 200) {
		e := l.element(item, i)
		if e != nil && before != nil && e.WaterSide().Riser != nil && before.WaterSide().Chamber != nil {
			l.Common.Wrong(item, "take this entry out and state the riser in the lift chamber", "a %s right after a %s: the chamber's own riser is the riser", e.Kind(), before.Kind())
		}
		if before = e; e != nil {
			out = append(out, e)
		}
	}
	return out
}

// element decodes one entry: a mapping with one key, the kind.
func (l *Reader) element(n *decode.Node, i int) silencer.Element {
	if n.Kind == decode.Scalar && slices.Contains(Kinds(), n.Text) {
		l.Common.Wrong(n, fmt.Sprintf("write %s: {...}", n.Text), "element %d has no fields", i+1)
		return nil
	}
	if m := decode.GluedKey.FindStringSubmatch(n.Text); n.Kind == decode.Scalar && m != nil {
		l.Common.Wrong(n, "write "+m[1]+": "+m[2], "no blank behind the colon of %q", spelling.Clip(n.Text))
		return nil
	}
	if n.Kind != decode.Mapping || len(n.Keys) != 1 {
		l.Common.Wrong(n, "such as - pipe: {bore: 102 mm, length: 1.2 m}", "element %d must be a mapping with one key, its kind, not %s", i+1, describe(n))
		return nil
	}
	kind, body := n.Keys[0].Text, n.Values[0]
	row, ok := kindOf(kind)
	if !ok {
		l.Common.Wrong(n.Keys[0], decode.Meant(kind, Kinds()), "unknown element %q; allowed: %s", spelling.Clip(kind), strings.Join(Kinds(), ", "))
		return nil
	}
	e := &element{l: l, kind: kind, index: i + 1, key: n.Keys[0]}
	x := row.decode(e, body)
	if x != nil && row.read == nil {
		x.Base().Unstated = math.Sqrt(e.unstated)
	}
	if x != nil && l.branch == "" && x.Base().In == "" && silencer.Length(x) > 0 {
		e.fill("in", "the space of the nearest part that states its own, before it and behind it, and a trunk or locker between these, or between the last and the open; else the engine's", "judgement: heard in each", 3)
	}
	return x
}

func describe(n *decode.Node) string {
	if n.Kind == decode.Mapping {
		return fmt.Sprintf("%d keys", len(n.Keys))
	}
	return n.Kind.String()
}

// element is one entry while it is decoded.
type element struct {
	l     *Reader
	o     *decode.Object
	kind  string
	index int
	key   *decode.Node
	name  string

	unstated float64 // dB squared, of sizes not stated
}

// open starts reading the fields and the ones every kind has.
func (e *element) open(n *decode.Node) (c silencer.Common) {
	e.o = e.l.Common.Object(n, fmt.Sprintf("%s[%d].%s", e.l.Path, e.index, e.kind))
	for _, f := range e.common(&c) {
		f.read(e)
	}
	return c
}

// lagging reads {thickness, material}, or none.
func (e *element) lagging(n *decode.Node) silencer.Lagging {
	if n == nil || n.None() {
		return silencer.Lagging{}
	}
	o := e.l.Common.Object(n, e.o.Path+".lagging")
	g := silencer.Lagging{Material: o.Text("material")}
	if o.Has("thickness") {
		g.Thickness, _ = o.Value("thickness", decode.UpTo(0.5), quantity.Length)
	} else {
		o.Raw("thickness")
		g.Thickness = 0.05
		e.fill("lagging thickness", said.Textf("{50 mm}"), decode.Practice, 0)
	}
	if g.Material == "" {
		g.Material = "mineral wool"
		e.fill("lagging material", g.Material, decode.Practice, 0)
	}
	if m, ok := e.l.Common.Materials.Find(g.Material); ok && m.User && m.Conductivity > 0 {
		g.Conductivity, g.MaxTemperature, g.Source = m.Conductivity, m.MaxTemperature, m.Source
	}
	o.Done()
	return g
}

// fill notes a default of this element; the line's reader lists equal ones together.
func (e *element) fill(key, value, src string, plusMinus float64) {
	f := Filled{key, value, src, plusMinus}
	e.unstated += plusMinus * plusMinus
	if e.l.Filled[f] == nil {
		e.l.order = append(e.l.order, f)
	}
	who := e.l.branch + e.kind + " " + e.name
	if !slices.Contains(e.l.Filled[f], who) {
		e.l.Filled[f] = append(e.l.Filled[f], who)
	}
}

// List turns the noted defaults into assumptions; those that several layouts share are listed once.
func (l *Reader) List() {
	for _, f := range l.order {
		l.Common.Share(l.Layout, fmt.Sprintf("%s.line: %s of %s", l.Engine, f.key, strings.Join(l.Filled[f], ", ")), f)
	}
}

// shared is a default of a line with the layouts that take it.
type shared struct {
	What    string
	Filled  Filled
	Layouts []string
}

// Share adds a layout to a default of a line.
func (r *Common) Share(layout, what string, f Filled) {
	for _, s := range r.Shared {
		if s.What == what && s.Filled == f {
			if !slices.Contains(s.Layouts, layout) {
				s.Layouts = append(s.Layouts, layout)
			}
			return
		}
	}
	r.Shared = append(r.Shared, &shared{what, f, []string{layout}})
}

// ListShared turns the shared defaults into assumptions.
func (r *Common) ListShared() {
	for _, s := range r.Shared {
		where := s.Layouts[0]
		if n := len(s.Layouts); n > 1 {
			where = fmt.Sprintf("%s and %d more", where, n-1)
		}
		r.Assume(fmt.Sprintf("layouts.%s.%s", where, s.What), s.Filled.value, s.Filled.source, s.Filled.plusMinus)
	}
}

// neighbour is the bore of the part before, or of the first part that states one.
func (e *element) neighbour() float64 {
	if e.l.bore > 0 {
		return e.l.bore
	}
	if e.l.Next > 0 {
		return e.l.Next
	}
	return 0.1
}

// FirstBore looks ahead for the first bore of a tube that a line states.
func FirstBore(items []*decode.Node) float64 {
	for _, item := range items {
		if item.Kind != decode.Mapping || len(item.Values) != 1 {
			continue
		}
		row, _ := kindOf(item.Keys[0].Text)
		if row.fields == nil {
			continue
		}
		i := slices.IndexFunc(row.blank(), func(f field) bool { return f.port })
		if i < 0 {
			continue
		}
		_, b := item.Values[0].Find(row.blank()[i].key)
		if b != nil && b.Kind == decode.Sequence && len(b.Items) > 0 {
			b = b.Items[0]
		}
		if b != nil && b.Kind == decode.Scalar {
			if q, err := quantity.Parse(b.Text, quantity.Length); err == nil && q.Value > 0 {
				return q.Value
			}
		}
	}
	return 0
}

// Bore is that of the part before, m.
func (l *Reader) Bore() float64 {
	if l.bore > 0 {
		return l.bore
	}
	return math.Max(l.Next, 0)
}
