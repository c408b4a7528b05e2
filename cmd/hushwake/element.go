package main

import (
	"strconv"

	"hushwake/path"
	"hushwake/silencer"
)

// chosen is one element of one line of a layout.
type chosen struct {
	layout  *path.Layout
	exhaust int // in layout.Exhausts
	at      int // in the line's elements
	element silencer.Element
}

// chooseElement finds an element of a layout by name, kind (where only one is of it) or 1-based place.
func chooseElement(l *path.Layout, engine, name string) (chosen, error) {
	if len(l.Exhausts) == 0 {
		return chosen{}, badInput("layout %s has no exhaust line", l.Name)
	}
	if name == "" {
		return chosen{}, badInput("--element is missing\nhint: a name or a 1-based place of layout %s: %s", l.Name, elementList(l))
	}
	var found []chosen
	for i := range l.Exhausts {
		if engine != "" && l.Exhausts[i].Engine != engine {
			continue
		}
		elements := l.Exhausts[i].Line.Elements
		if k, ok := index(name, len(elements)); ok && (engine != "" || i == 0) {
			return chosen{l, i, k, elements[k]}, nil
		}
		for k, e := range elements {
			if e.Base().Name == name || (e.Base().Name == "" && e.Kind() == name) {
				found = append(found, chosen{l, i, k, e})
			}
		}
	}
	switch len(found) {
	case 0:
		return chosen{}, unknown("element of layout "+l.Name, name, elementNames(l))
	case 1:
		return found[0], nil
	}
	return chosen{}, badInput("%q may be any of %d elements\nhint: take its 1-based place: %s", name, len(found), elementList(l))
}

func elementNames(l *path.Layout) (names []string) {
	for i := range l.Exhausts {
		for _, e := range l.Exhausts[i].Line.Elements {
			names = append(names, nameOf(e))
		}
	}
	return names
}

func nameOf(e silencer.Element) string {
	if n := e.Base().Name; n != "" {
		return n
	}
	return e.Kind()
}

func elementList(l *path.Layout) string {
	text := ""
	for k, n := range elementNames(l) {
		if k > 0 {
			text += "; "
		}
		text += strconv.Itoa(k+1) + " " + n
	}
	return text
}

// with is the layout with another element in that place.
func (c chosen) with(e silencer.Element) *path.Layout {
	l := *c.layout
	l.Exhausts = append([]path.Exhaust(nil), l.Exhausts...)
	x := &l.Exhausts[c.exhaust]
	x.Line.Elements = append([]silencer.Element(nil), x.Line.Elements...)
	x.Line.Elements[c.at] = e
	return &l
}

// bore is that of the pipe before the element.
func (c chosen) bore() float64 {
	if b := silencer.BoreBefore(c.layout.Exhausts[c.exhaust].Line.Elements, c.at); b > 0 {
		return b
	}
	return 0.1
}
