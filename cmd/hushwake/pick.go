package main

import (
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
)

// pick names one element of one line and the seat it is judged at.
type pick struct {
	layout, engine, element, listener string
}

// flags adds the flags of a pick with a word on the element and on the listener.
func (p *pick) flags(f *pflag.FlagSet, element, listener string) {
	f.StringVar(&p.layout, "layout", "", "the layout, by name or 1-based place; default the first")
	f.StringVar(&p.engine, "engine", "", "the engine whose line it is")
	f.StringVar(&p.element, "element", "", element+", by name or 1-based place")
	f.StringVar(&p.listener, "listener", "", listener+"; default the first")
}

// picked is a pick found in a file.
type picked struct {
	boat     *path.Boat
	at       parts.Chosen
	listener int
}

// load reads the file and finds what was picked.
func (p *pick) load(c *common, file string) (out picked, err error) {
	if out.boat, err = c.load(file); err != nil {
		return out, err
	}
	l, err := chooseLayout(out.boat, p.layout)
	if err != nil {
		return out, err
	}
	if out.at, err = chooseElement(l, p.engine, p.element); err != nil {
		return out, err
	}
	out.listener, err = listenerIndex(out.boat, p.listener)
	return out, err
}

// chooseElement finds an element of a layout by name, kind (where only one is of it) or 1-based place.
func chooseElement(l *path.Layout, engine, name string) (parts.Chosen, error) {
	if len(l.Exhausts) == 0 {
		return parts.Chosen{}, badInput("layout %s has no exhaust line", l.Name)
	}
	if name == "" {
		return parts.Chosen{}, badInput("--element is missing\nhint: a name or a 1-based place of layout %s: %s", l.Name, elementList(l))
	}
	var found []parts.Chosen
	for i := range l.Exhausts {
		if engine != "" && l.Exhausts[i].Engine != engine {
			continue
		}
		elements := l.Exhausts[i].Line.Elements
		if k, ok := index(name, len(elements)); ok && (engine != "" || i == 0) {
			return parts.Chosen{Layout: l, Exhaust: i, At: k, Element: elements[k]}, nil
		}
		for k, e := range elements {
			if e.Base().Name == name || (e.Base().Name == "" && e.Kind() == name) {
				found = append(found, parts.Chosen{Layout: l, Exhaust: i, At: k, Element: e})
			}
		}
	}
	switch len(found) {
	case 0:
		return parts.Chosen{}, form.Unknown("element of layout "+l.Name, name, elementNames(l))
	case 1:
		return found[0], nil
	}
	return parts.Chosen{}, badInput("%q may be any of %d elements\nhint: take its 1-based place: %s", name, len(found), elementList(l))
}

func elementNames(l *path.Layout) (names []string) {
	for i := range l.Exhausts {
		for _, e := range l.Exhausts[i].Line.Elements {
			names = append(names, parts.NameOf(e))
		}
	}
	return names
}

func elementList(l *path.Layout) string {
	names := elementNames(l)
	for k, n := range names {
		names[k] = strconv.Itoa(k+1) + " " + n
	}
	return strings.Join(names, "; ")
}
