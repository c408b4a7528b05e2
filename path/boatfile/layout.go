package boatfile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/overlay"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/silencer"
	"hushwake/silencer/wet"
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
			l.Exhausts[i].Promised = &path.Promised{BackPressure: q.Value, Low: math.Max(0, q.Low), High: q.High, Text: q.Text}
		}
	}
	if ok && len(l.Exhausts) > 1 {
		r.Assume(x.Path+" back_pressure", q.Text+" at each engine", "the promise names no engine", 0)
	}
}

// exhausts reads the lines, one for every running engine, or the one on the bench.
func (r *reader) exhausts(o *decode.Object, at *decode.Node, b *path.Boat, l *path.Layout, offers map[string]lines.Offer, chosen map[*decode.Node]string) {
	key, _ := at.Find("exhausts")
	n := r.Section(o.Get("exhausts"), o.Path+" exhausts")
	var engines []string
	for _, e := range l.Engines {
		engines = append(engines, e.Name)
	}
	found := map[string]path.Exhaust{}
	cost := lines.Cost{}
	for i, k := range n.Keys {
		bench := k.Text == "bench" && b.Bench != nil && !slices.Contains(engines, "bench")
		if !bench && len(engines) == 0 && b.Bench == nil {
			continue // that there is none is said already
		}
		if !bench && !slices.Contains(engines, k.Text) {
			r.noEngine(k, engines, b.Bench != nil)
			continue
		}
		found[k.Text] = path.Exhaust{Engine: k.Text, Line: r.exhaust(strings.TrimPrefix(o.Path, "layouts."), k.Text, n.Values[i], bench, l, offers, chosen, &cost)}
	}
	if key != nil || !o.Misspelt("exhausts") { // done says it
		r.inOrder(o, key, at, b, l, found)
	}
	l.Unpriced = cost.Open
	if o.Unstated("price") {
		l.Unpriced = append([]string{"what the layout costs beside its parts"}, l.Unpriced...)
	}
	if cost.Price > 0 {
		total := cost.Price
		if l.Price != nil {
			total += *l.Price
		}
		l.Price = &total
	}
}

// inOrder puts the exhausts in the order of the engines; every running engine needs one.
func (r *reader) inOrder(o *decode.Object, key, at *decode.Node, b *path.Boat, l *path.Layout, found map[string]path.Exhaust) {
	if key == nil {
		key = at
	}
	for _, e := range l.Engines {
		if x, ok := found[e.Name]; ok {
			l.Exhausts = append(l.Exhausts, x)
		} else if !e.Stopped && b.Bench == nil {
			r.Wrong(key, fmt.Sprintf("add %s: {line: [...], outlet: {...}}, or running: stopped in changes", e.Name), "%s names no exhaust for the running engine %q", o.Path, spelling.Clip(e.Name))
		}
	}
	if x, ok := found["bench"]; ok && b.Bench != nil {
		l.Exhausts = append(l.Exhausts, x)
	}
}

func (r *reader) noEngine(k *decode.Node, engines []string, bench bool) {
	if k.Text == "bench" {
		r.Wrong(k, "add bench: {gas: air, temperature: 20 °C, mass_flow: 0 kg/s} at the top level", "exhausts on the bench need a bench section")
		return
	}
	if bench {
		engines = append(engines, "bench")
	}
	r.Wrong(k, spelling.DidYouMean(k.Text, engines), "no engine %q; allowed: %s", spelling.Clip(k.Text), strings.Join(engines, ", "))
}

// exhaust reads {line, outlet} of one engine.
func (r *reader) exhaust(base, engine string, n *decode.Node, bench bool, l *path.Layout, offers map[string]lines.Offer, chosen map[*decode.Node]string, cost *lines.Cost) silencer.Line {
	what := "layouts." + base + "." + engine
	o := r.Object(n, what)
	lr := &lines.Reader{Common: &r.Common, Path: what + ".line", Layout: base, Engine: engine, Quotes: offers, Names: sortedNames(offers), Chosen: chosen, Filled: map[lines.Filled][]string{}, Cost: &lines.Cost{}}
	banks := 1
	for _, e := range l.Engines {
		if e.Name == engine {
			banks = max(e.Banks, 1)
			lr.Power = e.Rated.Power / float64(banks)
		}
	}
	var line silencer.Line
	if items := o.Must("line", "a list of elements"); items != nil {
		lr.Next = lines.FirstBore(items.Items)
		line.Elements = lr.Elements(items, lr.Path)
		if len(items.Items) == 0 && items.Kind == decode.Sequence {
			r.Wrong(items, "such as [pipe: {bore: 102 mm, length: 3 m}]", "%s has no elements", lr.Path)
		}
	}
	line.Outlet = r.outlet(o, lr, bench)
	lr.List()
	for _, f := range lr.Used {
		l.Quotes = append(l.Quotes, f.Quote.Name)
		c, open := f.Cost()
		lr.Cost.Price += c
		for _, what := range open {
			if !slices.Contains(lr.Cost.Open, what) {
				lr.Cost.Open = append(lr.Cost.Open, what)
			}
		}
	}
	cost.Open = append(cost.Open, lr.Cost.Open...)
	cost.Price += float64(banks) * lr.Cost.Price
	if banks > 1 {
		r.Assume(what+" lines", fmt.Sprint(banks), "one for each bank, alike: the file states one of them; price, mass, heat and walls count for all", 0)
	}
	o.Done()
	return line
}

func sortedNames(m map[string]lines.Offer) []string {
	var names []string
	for k := range m {
		names = append(names, k)
	}
	slices.Sort(names)
	return names
}

var directions = map[string]silencer.Direction{"forward": {1, 0, 0}, "aft": {-1, 0, 0}, "starboard": {0, 1, 0}, "port": {0, -1, 0}, "up": {0, 0, 1}, "down": {0, 0, -1}}

// outlet reads where the line ends; on the bench there may be none.
func (r *reader) outlet(o *decode.Object, lr *lines.Reader, bench bool) silencer.Outlet {
	out := silencer.Outlet{Bore: lr.Bore()}
	n := o.Get("outlet")
	if n == nil && !bench {
		n = o.Must("outlet", "{at: [4.6 m, 0.3 m, 4.1 m], pointing: up}")
	}
	if n == nil {
		return out
	}
	x := r.Object(n, o.Path+".outlet")
	out.Present = true
	at := x.Get("at")
	if !bench {
		at = x.Must("at", "[4.6 m, 0.3 m, 4.1 m]")
	}
	out.At, _ = r.Vector(at, x.Path+" at", decode.AnyValue)
	out.Pointing = r.pointing(x, bench)
	if v, ok := x.Value("bore", decode.UpTo(3), quantity.Length); ok {
		out.Bore = v
	}
	out.BelowWater, _ = x.Value("below_waterline", decode.NotNegative, quantity.Length)
	if out.BelowWater > 0 && out.At[2] > 0.05 {
		r.Wrong(x.Get("below_waterline"), "z counts up from the waterline; below it is negative", "%s is below the waterline, but its z is %s above it", x.Path, quantity.Format(out.At[2], quantity.Length, quantity.Metric))
	}
	r.atWater(x, &out, bench)
	x.Done()
	return out
}

// atWater reads how the mouth lies in the water.
func (r *reader) atWater(x *decode.Object, out *silencer.Outlet, bench bool) {
	waves, stated := x.Value("waves", decode.Limits{Min: 0.005, Max: 1}, quantity.Length)
	out.Waves = waves
	switch z := out.At[2]; {
	case bench:
		return
	case out.BelowWater == 0 && z < 0 && !x.Has("below_waterline"):
		out.BelowWater = -z
		r.Assume(x.Path+" below_waterline", quantity.Format(-z, quantity.Length, quantity.Metric), "its place", 1)
	case out.BelowWater > 0 && math.Abs(z+out.BelowWater) > 0.05:
		r.Warn(x.Get("below_waterline"), "%s: below_waterline %s and z %s are not one depth; the first is taken", x.Path, quantity.Format(out.BelowWater, quantity.Length, quantity.Metric), quantity.Format(z, quantity.Length, quantity.Metric))
	}
	if low := out.Height() - out.Bore/2; !stated && !x.Has("waves") && low < 4*wet.UsualWaves {
		r.Assume(x.Path+" waves", quantity.Format(wet.UsualWaves, quantity.Length, quantity.Metric), "judgement: standard deviation of the level at the mouth", 1)
	}
}

// pointing reads which way the outlet points; aft when nobody says.
func (r *reader) pointing(x *decode.Object, bench bool) silencer.Direction {
	word := x.Word("pointing", "up", "aft", "forward", "port", "starboard", "down")
	if word == "" {
		word = "aft"
		if !x.Has("pointing") && !bench {
			r.AssumeOf(x.Path, "pointing", word, practice, 3)
		}
	}
	return directions[word]
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
