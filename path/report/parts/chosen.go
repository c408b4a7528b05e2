package parts

import (
	"strings"

	"hushwake/path"
	"hushwake/silencer"
)

// Chosen is one element of one line of a layout.
type Chosen struct {
	Layout  *path.Layout
	Exhaust int // in Layout.Exhausts
	At      int // in the line's elements
	Element silencer.Element
}

// NameOf is the name of an element, its kind where it has none.
func NameOf(e silencer.Element) string {
	if n := e.Base().Name; n != "" {
		return n
	}
	return e.Kind()
}

// With is the layout with another element in that place.
func (c Chosen) With(e silencer.Element) *path.Layout {
	l := *c.Layout
	l.Exhausts = append([]path.Exhaust(nil), l.Exhausts...)
	x := &l.Exhausts[c.Exhaust]
	x.Line.Elements = append([]silencer.Element(nil), x.Line.Elements...)
	x.Line.Elements[c.At] = e
	return &l
}

// Bore is that of the pipe before the element, m.
func (c Chosen) Bore() float64 {
	if b := silencer.BoreBefore(c.Layout.Exhausts[c.Exhaust].Line.Elements, c.At); b > 0 {
		return b
	}
	return 0.1
}

// sizable tells which elements of a layout have dimensions to choose, with their kinds.
func sizable(l *path.Layout) string {
	var names []string
	for i := range l.Exhausts {
		for k, e := range l.Exhausts[i].Line.Elements {
			if _, err := silencer.SizeOf(e, Chosen{Layout: l, Exhaust: i, At: k}.Bore(), 0, 0); err != nil {
				continue
			} else if name := e.Base().Name; name != "" {
				names = append(names, name+" ("+e.Kind()+")")
			} else {
				names = append(names, e.Kind())
			}
		}
	}
	if len(names) == 0 {
		return "no element of layout " + l.Name + " has any"
	}
	return "of layout " + l.Name + " name " + strings.Join(names, " or ")
}
