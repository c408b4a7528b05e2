package boatfile

import (
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/spelling"
)

// check looks at how the parts of a boat refer to each other, layout by layout, and fills in what
// follows from places: the space of an engine or listener, the area of a partition.
func (r *reader) check(o *decode.Object, b *path.Boat) {
	base := names{r: r, o: o, b: b, spaces: spaceNames(o.At, "spaces")}
	for i := range b.Listeners {
		base.listener(&b.Listeners[i], b)
		base.background(&b.Listeners[i])
	}
	for _, l := range b.Layouts {
		r.checkLayout(o, b, l)
	}
	base.readings(b)
}

// under finds the node of a key below a named entry of a section, for pointing at it.
func under(root *decode.Node, section, name, key string) *decode.Node {
	_, s := root.Find(section)
	_, e := s.Find(name)
	if _, v := e.Find(key); v != nil {
		return v
	}
	if k, _ := s.Find(name); k != nil {
		return k
	}
	return s
}

// known checks one name against a list.
func (r *reader) known(at *decode.Node, what, name string, allowed []string) bool {
	for _, a := range allowed {
		if a == name {
			return true
		}
	}
	r.Wrong(at, spelling.DidYouMean(name, allowed), "%s: no %q; there are %s", what, spelling.Clip(name), decode.Listed(allowed))
	return false
}

func findSpace(list []path.Space, name string) *path.Space {
	for i := range list {
		if list[i].Name == name {
			return &list[i]
		}
	}
	return nil
}

// inside tells whether a point lies in a room, with some slack in m.
func inside(s *path.Space, p path.Point, slack float64) bool {
	for i := range p {
		if p[i] < s.At[i]-slack || p[i] > s.At[i]+s.Size[i]+slack {
			return false
		}
	}
	return true
}

// spaceAround is the space that holds a point, "" for none.
func spaceAround(list []path.Space, p path.Point) string {
	for i := range list {
		if list[i].AtStated && inside(&list[i], p, 0.01) {
			return list[i].Name
		}
	}
	return ""
}

// checkLayout checks every name of a layout.
func (r *reader) checkLayout(o *decode.Object, b *path.Boat, l *path.Layout) {
	allowed := []string{}
	for _, s := range l.Spaces {
		allowed = append(allowed, s.Name)
	}
	allowed = append(allowed, path.Outside)
	r.sized(b, l)
	for i := range l.Engines {
		r.checkEngine(o, l, &l.Engines[i], allowed)
	}
	r.areas(b, l)
	for i := range l.Partitions {
		r.checkPartition(o, l, &l.Partitions[i], allowed)
	}
	r.beyondUsual(b, l)
	r.closeSpaces(b, l)
	r.possible(o, b, l)
	r.checkBoxes(o, l, allowed)
	for _, x := range l.Enclosures {
		allowed = append(allowed, x.Name)
	}
	for i := range l.Exhausts {
		r.checkElements(o, l, l.Exhausts[i].Line.Elements, allowed)
	}
	r.checkSlots(l, func(other *reader, x *path.Layout) {
		for i := range x.Exhausts {
			other.checkElements(o, x, x.Exhausts[i].Line.Elements, allowed)
		}
	})
}

func (r *reader) checkEngine(o *decode.Object, l *path.Layout, e *path.Engine, spaces []string) {
	what := "engines." + e.Name
	if e.In == "" {
		e.In = r.engineSpace(l, e)
		r.Assume(what+" in", e.In, "from its position and the names of the spaces", 5)
	} else {
		r.known(r.changedNode(o, l, "engines", e.Name, "in"), what+" in", e.In, spaces)
	}
	if !e.AtStated {
		if s := findSpace(l.Spaces, e.In); s != nil && s.AtStated {
			for i := range e.At {
				e.At[i] = s.At[i] + s.Size[i]/2
			}
			r.Assume(what+" at", "the middle of "+e.In, practice, 1)
		} else {
			r.Assume(what+" at", "as near as the space it stands in", "distance to its casing is taken from the space it stands in", 2)
		}
	}
	if s := findSpace(l.Spaces, e.In); e.AtStated && s != nil && s.Placed() && !inside(s, e.At, engineAstray) {
		r.Warn(r.changedNode(o, l, "engines", e.Name, "at"), "engine %q is said to be in %q, but its position lies outside that space", e.Name, e.In)
	}
	if e.Enclosure != "" {
		var list []string
		for _, x := range l.Enclosures {
			list = append(list, x.Name)
		}
		r.known(r.changedNode(o, l, "engines", e.Name, "enclosure"), what+" enclosure", e.Enclosure, list)
	}
	r.checkSource(o, l, e)
}

// engineSpace guesses the room of an engine.
func (r *reader) engineSpace(l *path.Layout, e *path.Engine) string {
	if e.AtStated {
		if s := spaceAround(l.Spaces, e.At); s != "" {
			return s
		}
	}
	for _, s := range l.Spaces {
		if DefaultLining(s.Name) == "bare steel" {
			return s.Name
		}
	}
	return path.Outside
}

// checkSource asks the engine model whether such an engine can exist.
func (r *reader) checkSource(o *decode.Object, l *path.Layout, e *path.Engine) {
	if e.Rated.Power <= 0 || e.Rated.Speed <= 0 || e.Stroke == 0 || e.Cylinders == 0 || r.hasProblemIn("engines."+e.Name) {
		return
	}
	// Its warnings come with the prediction; here only what can't be.
	if _, err := e.Engine.Check(); err != nil {
		text, hint, _ := strings.Cut(err.Error(), "\nhint: ")
		r.Wrong(under(o.At, "engines", e.Name, "rated"), hint, "engines.%s", strings.TrimPrefix(text, "engines."))
	}
}

// hasProblemIn tells whether something of that path was reported already, so that the engine model
// doesn't say it a second time.
func (r *reader) hasProblemIn(what string) bool {
	for _, p := range r.Problems {
		if strings.HasPrefix(p.Message, what+" ") || strings.HasPrefix(p.Message, what+".") || strings.HasPrefix(p.Message, what+":") {
			return true
		}
	}
	return false
}

// changedNode points at the layout's change if there is one, else at the base entry.
func (r *reader) changedNode(o *decode.Object, l *path.Layout, section, name, key string) *decode.Node {
	_, layouts := o.At.Find("layouts")
	if layouts != nil {
		for _, item := range layouts.Items {
			_, n := item.Find("name")
			_, c := item.Find("changes")
			_, s := c.Find(section)
			_, e := s.Find(name)
			if _, v := e.Find(key); v != nil && n != nil && l.Base == strings.TrimSpace(n.Text) {
				return v
			}
		}
	}
	return under(o.At, section, name, key)
}
