package boatfile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/silencer"
	"hushwake/silencer/wet"
)

// maxLayouts is how many alternatives a file may unfold to.
const maxLayouts = 200

// layouts decodes the alternatives; a one_of makes one of each offer.
func (r *reader) layouts(root *object, b *path.Boat, offers map[string]offer) {
	names := map[string]int{}
	for i, item := range r.list(root.get("layouts"), "layouts", 0, many) {
		before := len(b.Layouts)
		r.layout(i, item, root, b, offers)
		for _, l := range b.Layouts[before:] {
			_, at := item.find("name")
			if at == nil {
				at = item
			}
			if line, twice := names[l.Name]; twice {
				r.wrong(at, "give each layout a name of its own", "duplicate layout name %q: line %d has it already", spelling.Clip(l.Name), line)
			}
			names[l.Name] = at.line
		}
	}
}

// layout decodes one entry once for each choice of its offers.
func (r *reader) layout(i int, n *node, root *object, b *path.Boat, offers map[string]offer) {
	if n.kind != mapping {
		r.wrong(n, "such as - name: dry stack", "layouts[%d] must be a mapping, not %s", i+1, n.kind)
		return
	}
	n, open := r.slotted(n, offers)
	_, exhausts := n.find("exhausts")
	for _, chosen := range choices(findOneOf(exhausts)) {
		if len(b.Layouts) >= maxLayouts {
			r.wrong(n, "", "the file unfolds to more than %d layouts", maxLayouts)
			return
		}
		l := r.oneLayout(i, n, root, b, offers, chosen)
		r.leaveOpen(l, open, b, offers, chosen)
		b.Layouts = append(b.Layouts, l)
	}
}

// findOneOf collects the one_of entries below a node.
func findOneOf(n *node) []*node {
	if n == nil {
		return nil
	}
	var out []*node
	for i, v := range n.values {
		if n.keys[i].text == "one_of" && (v.kind == sequence || v.kind == mapping) {
			out = append(out, v)
			continue
		}
		out = append(out, findOneOf(v)...)
	}
	for _, v := range n.items {
		out = append(out, findOneOf(v)...)
	}
	return out
}

// choices multiplies the offers of every one_of out; one empty choice when there is none.
func choices(nodes []*node) []map[*node]string {
	all := []map[*node]string{{}}
	for _, n := range nodes {
		list := n
		if n.kind == mapping {
			_, list = n.find("offers")
		}
		if list == nil || len(list.items) == 0 {
			continue
		}
		var next []map[*node]string
		for _, c := range all {
			for _, item := range list.items {
				if len(next) > maxLayouts {
					break
				}
				m := map[*node]string{n: item.text}
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

func (r *reader) oneLayout(i int, n *node, root *object, b *path.Boat, offers map[string]offer, chosen map[*node]string) *path.Layout {
	o := r.object(n, fmt.Sprintf("layouts[%d]", i+1))
	l := &path.Layout{Name: o.text("name")}
	if l.Name == "" {
		l.Name = fmt.Sprintf("layout %d", i+1)
		if !o.has("name") && b.Bench == nil {
			r.assume(o.path+" name", l.Name, "its place in the file", 0)
		}
	}
	l.Base = l.Name
	_, exhausts := n.find("exhausts")
	for _, f := range findOneOf(exhausts) {
		if c := chosen[f]; c != "" {
			l.Name += " + " + c
		}
	}
	o.path = "layouts." + l.Base
	l.Price = o.price("price")
	r.changed(o, root, l, l.Base)
	r.exhausts(o, n, b, l, offers, chosen)
	r.promisedPressure(o, l)
	o.known = append(o.known, likeKeys...)
	o.done()
	return l
}

// promisedPressure reads what is promised for the whole line at the engine, at rated, hot.
func (r *reader) promisedPressure(o *object, l *path.Layout) {
	n := o.get("promised")
	if n == nil {
		return
	}
	x := r.object(n, o.path+".promised")
	q, ok := x.promise("back_pressure", positive, quantity.AtMost, quantity.Pressure)
	x.done()
	for i := range l.Exhausts {
		if ok {
			l.Exhausts[i].Promised = &path.Promised{BackPressure: q.Value, Low: math.Max(0, q.Low), High: q.High, Text: q.Text}
		}
	}
	if ok && len(l.Exhausts) > 1 {
		r.assume(x.path+" back_pressure", q.Text+" at each engine", "the promise names no engine", 0)
	}
}

// exhausts reads the lines, one for every running engine, or the one on the bench.
func (r *reader) exhausts(o *object, at *node, b *path.Boat, l *path.Layout, offers map[string]offer, chosen map[*node]string) {
	key, _ := at.find("exhausts")
	n := r.section(o.get("exhausts"), o.path+" exhausts")
	var engines []string
	for _, e := range l.Engines {
		engines = append(engines, e.Name)
	}
	found := map[string]path.Exhaust{}
	cost := lineCost{}
	for i, k := range n.keys {
		bench := k.text == "bench" && b.Bench != nil && !slices.Contains(engines, "bench")
		if !bench && len(engines) == 0 && b.Bench == nil {
			continue // that there is none is said already
		}
		if !bench && !slices.Contains(engines, k.text) {
			r.noEngine(k, engines, b.Bench != nil)
			continue
		}
		found[k.text] = path.Exhaust{Engine: k.text, Line: r.exhaust(strings.TrimPrefix(o.path, "layouts."), k.text, n.values[i], bench, l, offers, chosen, &cost)}
	}
	if key != nil || !o.misspelt("exhausts") { // done says it
		r.inOrder(o, key, at, b, l, found)
	}
	l.Unpriced = cost.open
	if o.unstated("price") {
		l.Unpriced = append([]string{"what the layout costs beside its parts"}, l.Unpriced...)
	}
	if cost.price > 0 {
		total := cost.price
		if l.Price != nil {
			total += *l.Price
		}
		l.Price = &total
	}
}

// inOrder puts the exhausts in the order of the engines; every running engine needs one.
func (r *reader) inOrder(o *object, key, at *node, b *path.Boat, l *path.Layout, found map[string]path.Exhaust) {
	if key == nil {
		key = at
	}
	for _, e := range l.Engines {
		if x, ok := found[e.Name]; ok {
			l.Exhausts = append(l.Exhausts, x)
		} else if !e.Stopped && b.Bench == nil {
			r.wrong(key, fmt.Sprintf("add %s: {line: [...], outlet: {...}}, or running: stopped in changes", e.Name), "%s names no exhaust for the running engine %q", o.path, spelling.Clip(e.Name))
		}
	}
	if x, ok := found["bench"]; ok && b.Bench != nil {
		l.Exhausts = append(l.Exhausts, x)
	}
}

func (r *reader) noEngine(k *node, engines []string, bench bool) {
	if k.text == "bench" {
		r.wrong(k, "add bench: {gas: air, temperature: 20 °C, mass_flow: 0 kg/s} at the top level", "exhausts on the bench need a bench section")
		return
	}
	if bench {
		engines = append(engines, "bench")
	}
	r.wrong(k, spelling.DidYouMean(k.text, engines), "no engine %q; allowed: %s", spelling.Clip(k.text), strings.Join(engines, ", "))
}

// exhaust reads {line, outlet} of one engine.
func (r *reader) exhaust(base, engine string, n *node, bench bool, l *path.Layout, offers map[string]offer, chosen map[*node]string, cost *lineCost) silencer.Line {
	what := "layouts." + base + "." + engine
	o := r.object(n, what)
	lr := &lineReader{r: r, path: what + ".line", layout: base, engine: engine, quotes: offers, names: sortedNames(offers), chosen: chosen, filled: map[filled][]string{}, cost: &lineCost{}}
	lines := 1
	for _, e := range l.Engines {
		if e.Name == engine {
			lines = max(e.Banks, 1)
			lr.power = e.Rated.Power / float64(lines)
		}
	}
	var line silencer.Line
	if items := o.must("line", "a list of elements"); items != nil {
		lr.next = firstBore(items.items)
		line.Elements = lr.elements(items, lr.path)
		if len(items.items) == 0 && items.kind == sequence {
			r.wrong(items, "such as [pipe: {bore: 102 mm, length: 3 m}]", "%s has no elements", lr.path)
		}
	}
	line.Outlet = r.outlet(o, lr, bench)
	lr.list()
	for _, f := range lr.used {
		l.Quotes = append(l.Quotes, f.quote.Name)
		c, open := f.cost()
		lr.cost.price += c
		for _, what := range open {
			if !slices.Contains(lr.cost.open, what) {
				lr.cost.open = append(lr.cost.open, what)
			}
		}
	}
	cost.open = append(cost.open, lr.cost.open...)
	cost.price += float64(lines) * lr.cost.price
	if lines > 1 {
		r.assume(what+" lines", fmt.Sprint(lines), "one for each bank, alike: the file states one of them; price, mass, heat and walls count for all", 0)
	}
	o.done()
	return line
}

func sortedNames(m map[string]offer) []string {
	var names []string
	for k := range m {
		names = append(names, k)
	}
	slices.Sort(names)
	return names
}

var directions = map[string]silencer.Direction{"forward": {1, 0, 0}, "aft": {-1, 0, 0}, "starboard": {0, 1, 0}, "port": {0, -1, 0}, "up": {0, 0, 1}, "down": {0, 0, -1}}

// outlet reads where the line ends; on the bench there may be none.
func (r *reader) outlet(o *object, lr *lineReader, bench bool) silencer.Outlet {
	out := silencer.Outlet{Bore: lr.neighbourBore()}
	n := o.get("outlet")
	if n == nil && !bench {
		n = o.must("outlet", "{at: [4.6 m, 0.3 m, 4.1 m], pointing: up}")
	}
	if n == nil {
		return out
	}
	x := r.object(n, o.path+".outlet")
	out.Present = true
	at := x.get("at")
	if !bench {
		at = x.must("at", "[4.6 m, 0.3 m, 4.1 m]")
	}
	out.At, _ = r.vector(at, x.path+" at", anyValue)
	out.Pointing = r.pointing(x, bench)
	if v, ok := x.value("bore", upTo(3), quantity.Length); ok {
		out.Bore = v
	}
	out.BelowWater, _ = x.value("below_waterline", notNegative, quantity.Length)
	if out.BelowWater > 0 && out.At[2] > 0.05 {
		r.wrong(x.get("below_waterline"), "z counts up from the waterline; below it is negative", "%s is below the waterline, but its z is %s above it", x.path, quantity.Format(out.At[2], quantity.Length, quantity.Metric))
	}
	r.atWater(x, &out, bench)
	x.done()
	return out
}

// atWater reads how the mouth lies in the water.
func (r *reader) atWater(x *object, out *silencer.Outlet, bench bool) {
	waves, stated := x.value("waves", limits{min: 0.005, max: 1}, quantity.Length)
	out.Waves = waves
	switch z := out.At[2]; {
	case bench:
		return
	case out.BelowWater == 0 && z < 0 && !x.has("below_waterline"):
		out.BelowWater = -z
		r.assume(x.path+" below_waterline", quantity.Format(-z, quantity.Length, quantity.Metric), "its place", 1)
	case out.BelowWater > 0 && math.Abs(z+out.BelowWater) > 0.05:
		r.warn(x.get("below_waterline"), "%s: below_waterline %s and z %s are not one depth; the first is taken", x.path, quantity.Format(out.BelowWater, quantity.Length, quantity.Metric), quantity.Format(z, quantity.Length, quantity.Metric))
	}
	if low := out.Height() - out.Bore/2; !stated && !x.has("waves") && low < 4*wet.UsualWaves {
		r.assume(x.path+" waves", quantity.Format(wet.UsualWaves, quantity.Length, quantity.Metric), "judgement: standard deviation of the level at the mouth", 1)
	}
}

// pointing reads which way the outlet points; aft when nobody says.
func (r *reader) pointing(x *object, bench bool) silencer.Direction {
	word := x.word("pointing", "up", "aft", "forward", "port", "starboard", "down")
	if word == "" {
		word = "aft"
		if !x.has("pointing") && !bench {
			r.assumeOf(x.path, "pointing", word, practice, 3)
		}
	}
	return directions[word]
}

func (l *lineReader) neighbourBore() float64 {
	if l.bore > 0 {
		return l.bore
	}
	return math.Max(l.next, 0)
}
