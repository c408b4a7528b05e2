package parts

import (
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
