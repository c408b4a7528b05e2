package boatfile

import (
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
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
