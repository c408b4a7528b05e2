package boatfile

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/path/panel"
)

const practice = "common practice, no source"

func (r *reader) spaces(n *node) []path.Space {
	var out []path.Space
	for i, k := range r.section(n, "spaces").keys {
		if strings.EqualFold(k.text, path.Outside) {
			r.wrong(k, "", "the space %q always exists and can't be described", path.Outside)
			continue
		}
		out = append(out, r.space(k.text, n.values[i]))
	}
	return out
}

func (r *reader) space(name string, n *node) path.Space {
	o := r.object(n, "spaces."+name)
	s := path.Space{Name: name}
	at, ok := r.vector(o.get("at"), o.path+" at", anyValue)
	if s.At, s.AtStated = at, ok; !ok && !o.has("at") {
		r.assumeOf(o.path, "at", "not stated: it shields nothing, 0 dB", "judgement: what a house or a hull keeps off, 0 to 15 dB, and what lies against it", 6)
	}
	s.Size, s.SizeStated = r.vector(o.get("size"), o.path+" size", upTo(200))
	if s.Lining = r.liningOf(o, "lining"); s.Lining == "" {
		s.Lining = defaultLining(name)
		r.assumeOf(o.path, "lining", s.Lining, practice+", from the name of the space; half of the 10 dB between bare and lined", 5)
	}
	s.Plating = r.plating(o)
	s.Faces = r.faces(o)
	o.done()
	return s
}

// defaultLining guesses from a room's name whether it is an engine space.
func defaultLining(name string) string {
	for _, w := range []string{"engine", "machine", "locker", "lazarette", "pump", "bilge", "hold", "trunk"} {
		if strings.Contains(strings.ToLower(name), w) {
			return "bare steel"
		}
	}
	return "furnished cabin"
}

// liningOf reads the name of a surface or a build-up such as "50 mm mineral wool" and checks that the
// table knows it.
func (r *reader) liningOf(o *object, key string) string {
	n := o.get(key)
	if n == nil {
		return ""
	}
	text := r.textOf(n, o.path+" "+key)
	if strings.EqualFold(text, "none") || strings.EqualFold(text, "bare") {
		return "bare"
	}
	name := text
	if l, _, err := parseLayer(text, nil); err == nil {
		name = l.Material
	}
	if !r.knownLining(name) {
		r.wrong(n, r.nearestLining(name), "%s %s: no such lining %q in the table of materials", o.path, key, spelling.Clip(name))
	}
	return text
}

func (r *reader) partitions(n *node) []path.Partition {
	var out []path.Partition
	for i, item := range r.list(n, "partitions", 0, many) {
		out = append(out, r.partition(i, item))
	}
	return out
}

var facings = []string{"forward", "aft", "port", "starboard", "up", "down"}

func (r *reader) partition(i int, n *node) path.Partition {
	o := r.object(n, fmt.Sprintf("partitions[%d]", i+1))
	p := path.Partition{Name: o.text("name")}
	for j, item := range r.list(o.must("between", "[engine room, wheelhouse]"), o.path+" between", 2, 2) {
		p.Between[j] = r.textOf(item, o.path+" between")
	}
	if p.Name == "" && p.Between[0] != "" {
		p.Name = p.Between[0] + " - " + p.Between[1]
	}
	if p.Name != "" {
		o.path = "partitions." + p.Name
	}
	p.Area, _ = o.value("area", positive, quantity.Area)
	p.BuildUp = r.buildUp(o.get("build_up"), o.path)
	if len(p.BuildUp) == 0 && !o.has("build_up") {
		p.BuildUp = r.assumedBuildUp(o.path)
	}
	p.OpenArea, _ = o.value("open_area", notNegative, quantity.Area)
	if p.Cracks = !o.has("open_area"); p.Cracks {
		r.cracked(o.path)
	}
	if p.Area > 0 && p.OpenArea > p.Area {
		r.wrong(o.get("open_area"), "", "%s: the open area is larger than the area", o.path)
	}
	at, ok := r.vector(o.get("at"), o.path+" at", anyValue)
	p.At, p.AtStated = at, ok
	p.Facing = o.word("facing", facings...)
	o.done()
	return p
}

// assumedBuildUp stands in for a wall that nobody looked into.
func (r *reader) assumedBuildUp(what string) panel.BuildUp {
	l, _, err := parseLayer("12 mm plywood", nil)
	if err != nil {
		return nil
	}
	r.assumeOf(what, "build_up", "12 mm plywood", practice+": anything from thin board to double leaves", 8)
	return panel.BuildUp{l}
}

// buildUp reads the layers of the wall of that path.
func (r *reader) buildUp(n *node, of string) panel.BuildUp {
	if n == nil {
		return nil
	}
	items, what := []*node{n}, of+" build_up"
	if n.kind != scalar {
		items = r.list(n, what, 1, 20)
	}
	var out panel.BuildUp
	for _, item := range items {
		text := r.textOf(item, what)
		if text == "" {
			continue
		}
		l, note, err := parseLayer(text, r.materials)
		if err != nil {
			r.fail(item, what, err)
			continue
		}
		if note != "" {
			r.assumeOf(of, "build_up "+text, note, practice, 1)
		}
		out = append(out, l)
	}
	return out
}

// defaultArea is the smallest wall that two rooms could share, m2.
func defaultArea(a, b *path.Space) float64 {
	area := math.Inf(1)
	for _, s := range []*path.Space{a, b} {
		if s != nil {
			area = math.Min(area, s.Size[2]*math.Min(s.Size[0], s.Size[1]))
		}
	}
	if math.IsInf(area, 1) {
		return 5
	}
	return area
}
