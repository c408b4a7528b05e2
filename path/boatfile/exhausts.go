package boatfile

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/spelling"
	"hushwake/silencer"
)

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
