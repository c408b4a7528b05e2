package boatfile

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/source"
)

// names holds what may be named.
type names struct {
	r      *reader
	o      *decode.Object
	b      *path.Boat
	spaces []string
}

func spaceNames(root *decode.Node, section string) []string {
	_, n := root.Find(section)
	var out []string
	if n != nil {
		out = decode.KeysOf(n)
	}
	return append(out, path.Outside)
}

// background lists the usual one where none is stated.
func (c names) background(l *path.Listener) {
	if l.Background.SD == 0 {
		u := path.UsualBackground(l.In)
		c.r.Assume("listeners."+l.Name+" background", u.Middle()+" without the engines",
			"judgement: a quiet night at anchor; it counts only where the engine is about as quiet", u.SD)
	}
}

// listener settles the space a listener is in and checks that he fits.
func (c names) listener(l *path.Listener, b *path.Boat) {
	at := under(c.o.At, "listeners", l.Name, "in")
	if l.In == "" {
		l.In = path.Outside
		if len(b.Layouts) > 0 {
			if s := spaceAround(b.Layouts[0].Spaces, l.At); s != "" {
				l.In = s
			}
		}
		c.r.Assume("listeners."+l.Name+" in", l.In, "from its position", 5)
		return
	}
	if slices.ContainsFunc(b.Listeners, func(o path.Listener) bool { return o.Name == l.In }) && !slices.Contains(c.spaces, l.In) {
		c.r.Wrong(at, c.spaceHint(l, b), "listeners.%s in: %q is a place to listen at; in takes the space round it", l.Name, spelling.Clip(l.In))
		return
	}
	all := c.allSpaces(b)
	if !slices.Contains(all, l.In) && spelling.Nearest(l.In, all) == "" {
		c.r.Wrong(at, c.spaceHint(l, b), "listeners.%s in: no %q; there are %s", l.Name, spelling.Clip(l.In), decode.Listed(all))
		return
	}
	if !c.r.known(at, "listeners."+l.Name+" in", l.In, all) || len(b.Layouts) == 0 {
		return
	}
	if s := findSpace(b.Layouts[0].Spaces, l.In); s != nil && s.Placed() && !inside(s, l.At, 0.05) {
		c.r.Warn(under(c.o.At, "listeners", l.Name, "at"), "listener %q is said to be in %q, but its position lies outside that space", l.Name, l.In)
	}
}

// spaceHint is the space that a listener is called by, or the one round it, or all that it may be where one lies nobody knows where.
func (c names) spaceHint(l *path.Listener, b *path.Boat) string {
	if slices.Contains(c.allSpaces(b), l.Name) {
		return "write " + l.Name
	}
	var round []path.Space
	if len(b.Layouts) > 0 {
		round = b.Layouts[0].Spaces
	}
	if s := spaceAround(round, l.At); s != "" {
		return "write " + s
	}
	if slices.ContainsFunc(round, func(s path.Space) bool { return !s.Placed() }) {
		return "write " + strings.Join(c.allSpaces(b), " or ") + ", whichever it is in"
	}
	return "write " + path.Outside
}

func (c names) allSpaces(b *path.Boat) []string {
	list := c.spaces
	for _, l := range b.Layouts {
		for _, s := range l.Spaces {
			known := false
			for _, have := range list {
				known = known || have == s.Name
			}
			if !known {
				list = append(list, s.Name)
			}
		}
	}
	return list
}

// readings checks what the readings name.
func (c names) readings(b *path.Boat) {
	_, list := c.o.At.Find("readings")
	if list == nil || list.Kind != decode.Sequence {
		return
	}
	var listeners, layouts, engines []string
	for _, l := range b.Listeners {
		listeners = append(listeners, l.Name)
	}
	for _, l := range b.Layouts {
		layouts = append(layouts, l.Name)
	}
	if _, e := c.o.At.Find("engines"); e != nil {
		engines = decode.KeysOf(e)
	}
	var boxes []string
	if _, e := c.o.At.Find("enclosures"); e != nil {
		boxes = decode.KeysOf(e)
	}
	for _, m := range b.Readings {
		n := list.Items[m.Index-1]
		c.reading(n, "listener", m.Listener, listeners)
		c.reading(n, "layout", m.Layout, layouts)
		c.reading(n, "engine", m.Engine, engines)
		c.reading(n, "space", m.Space, append(c.allSpaces(b), boxes...))
		_, run := n.Find("running")
		c.reading(run, "engine", m.RunEngine, engines)
		c.speed(run, m, b)
	}
}

func (c names) reading(n *decode.Node, key, name string, allowed []string) {
	if name == "" {
		return
	}
	_, v := n.Find(key)
	if seat := c.seatIn(name); key == "listener" && seat != "" && !slices.Contains(allowed, name) {
		c.r.Wrong(v, "write "+seat, "readings listener: %q is a space; the place to listen at in it is called %q", spelling.Clip(name), seat)
		return
	}
	c.r.known(v, "readings "+key, name, allowed)
}

// speed refuses a reading above the rated speed of its engine, and one at a speed that a set never has.
func (c names) speed(run *decode.Node, m path.Reading, b *path.Boat) {
	if m.RunSpeed == 0 || len(b.Layouts) == 0 {
		return
	}
	l := b.Layouts[max(0, slices.IndexFunc(b.Layouts, func(l *path.Layout) bool { return l.Name == m.Layout }))]
	_, v := run.Find("speed")
	for _, e := range l.Engines {
		if e.Name != m.RunEngine && (m.RunEngine != "" || len(l.Engines) > 1) {
			continue
		}
		c.r.steady(v, fmt.Sprintf("readings[%d].running speed", m.Index), &e, m.RunSpeed)
		if e.Rated.Speed > 0 && m.RunSpeed > e.Rated.Speed*1.05 && (e.Load != source.ConstantSpeed || m.RunSpeed <= e.Rated.Speed*(1+sameSpeed)) {
			c.r.Wrong(v, "check the tachometer", "readings: %s is above the rated speed %s of %q", quantity.Format(m.RunSpeed, quantity.RotationalSpeed, quantity.Metric), quantity.Format(e.Rated.Speed, quantity.RotationalSpeed, quantity.Metric), e.Name)
		}
	}
}

// seatIn is the first place to listen at in a space: people name the one by the other.
func (c names) seatIn(space string) string {
	for _, l := range c.b.Listeners {
		if l.In == space {
			return l.Name
		}
	}
	return ""
}
