package boatfile

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/layers"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/path/boatfile/usual"
	"hushwake/path/panel"
	"hushwake/source/said"
)

const practice = decode.Practice

func (r *reader) spaces(n *decode.Node) []path.Space {
	var out []path.Space
	for i, k := range r.Section(n, "spaces").Keys {
		if strings.EqualFold(k.Text, path.Outside) {
			r.Wrong(k, "", "the space %q always exists and can't be described", path.Outside)
			continue
		}
		out = append(out, r.space(k.Text, n.Values[i]))
	}
	return out
}

func (r *reader) space(name string, n *decode.Node) path.Space {
	o := r.Object(n, "spaces."+name)
	s := path.Space{Name: name}
	at, ok := r.Vector(o.Get("at"), o.Path+" at", decode.AnyValue)
	if s.At, s.AtStated = at, ok; !ok && !o.Has("at") {
		r.AssumeOf(o.Path, "at", "not stated: it shields nothing, 0 dB", "judgement: what a house or a hull keeps off, 0 to 15 dB, and what lies against it", 6)
	}
	s.Size, s.SizeStated = r.Vector(o.Get("size"), o.Path+" size", decode.UpTo(200))
	if s.Lining = r.liningOf(o, "lining"); s.Lining == "" {
		s.Lining = DefaultLining(name)
		r.AssumeOf(o.Path, "lining", s.Lining, practice+", from the name of the space; half of the 10 dB between bare and lined", 5)
	}
	s.Plating = r.plating(o)
	s.Faces = r.faces(o)
	o.Done()
	return s
}

// DefaultLining guesses from a room's name whether it is an engine space.
func DefaultLining(name string) string {
	for _, w := range []string{"engine", "machine", "locker", "lazarette", "pump", "bilge", "hold", "trunk"} {
		if strings.Contains(strings.ToLower(name), w) {
			return "bare steel"
		}
	}
	return "furnished cabin"
}

// liningOf reads the name of a surface or a build-up such as "50 mm mineral wool" and checks that the table knows it.
func (r *reader) liningOf(o *decode.Object, key string) string {
	n := o.Get(key)
	if n == nil {
		return ""
	}
	text := r.TextOf(n, o.Path+" "+key)
	if strings.EqualFold(text, "none") || strings.EqualFold(text, "bare") {
		return "bare"
	}
	name := text
	if l, _, err := layers.WithNote(text, nil); err == nil {
		name = l.Material
	}
	if !layers.KnownLining(r.Materials, name) {
		r.Wrong(n, layers.NearestLining(r.Materials, name), "%s %s: no such lining %q in the table of materials", o.Path, key, spelling.Clip(name))
	}
	return text
}

func (r *reader) partitions(n *decode.Node) []path.Partition {
	var out []path.Partition
	for i, item := range r.List(n, "partitions", 0, decode.Most) {
		out = append(out, r.partition(i, item))
	}
	return out
}

// Facings are the words for the way that a side faces.
var Facings = []string{"forward", "aft", "port", "starboard", "up", "down"}

func (r *reader) partition(i int, n *decode.Node) path.Partition {
	o := r.Object(n, fmt.Sprintf("partitions[%d]", i+1))
	p := path.Partition{Name: o.Text("name")}
	for j, item := range r.List(o.Must("between", "[engine room, wheelhouse]"), o.Path+" between", 2, 2) {
		p.Between[j] = r.TextOf(item, o.Path+" between")
	}
	if p.Name == "" && p.Between[0] != "" {
		p.Name = p.Between[0] + " - " + p.Between[1]
	}
	if p.Name != "" {
		o.Path = "partitions." + p.Name
	}
	p.Area, _ = o.Value("area", decode.Positive, quantity.Area)
	p.BuildUp = r.buildUp(o.Get("build_up"), o.Path)
	if len(p.BuildUp) == 0 && !o.Has("build_up") {
		p.BuildUp = r.assumedBuildUp(o.Path)
	}
	p.OpenArea, _ = o.Value("open_area", decode.NotNegative, quantity.Area)
	if p.Cracks = !o.Has("open_area"); p.Cracks {
		r.cracked(o.Path)
	}
	if p.Area > 0 && p.OpenArea > p.Area {
		r.Wrong(o.Get("open_area"), "", "%s: the open area is larger than the area", o.Path)
	}
	at, ok := r.Vector(o.Get("at"), o.Path+" at", decode.AnyValue)
	p.At, p.AtStated = at, ok
	p.Facing = o.Word("facing", Facings...)
	o.Done()
	return p
}

// assumedBuildUp stands in for a wall that nobody looked into.
func (r *reader) assumedBuildUp(what string) panel.BuildUp {
	l, _, err := layers.WithNote("12 mm plywood", nil)
	if err != nil {
		return nil
	}
	r.AssumeOf(what, "build_up", said.Textf("{12 mm} plywood"), practice+": anything from thin board to double leaves", 8)
	return panel.BuildUp{l}
}

// buildUp reads the layers of the wall of that path.
func (r *reader) buildUp(n *decode.Node, of string) panel.BuildUp {
	if n == nil {
		return nil
	}
	items, what := []*decode.Node{n}, of+" build_up"
	if n.Kind != decode.Scalar {
		items = r.List(n, what, 1, 20)
	}
	var out panel.BuildUp
	for _, item := range items {
		text := r.TextOf(item, what)
		if text == "" {
			continue
		}
		l, note, err := layers.WithNote(text, r.Materials)
		if err != nil {
			r.Fail(item, what, err)
			continue
		}
		if note != "" {
			r.AssumeOf(of, "build_up "+text, note, practice, 1)
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

// faces reads what the sides of a space are made of: a build-up, or none where a side is open.
func (r *reader) faces(o *decode.Object) map[string]path.Face {
	n := o.Get("faces")
	if n == nil {
		return nil
	}
	f := r.Object(n, o.Path+".faces")
	out := map[string]path.Face{}
	for _, d := range path.Sides {
		switch v := f.Get(d.Name); {
		case v == nil:
		case v.None():
			out[d.Name] = path.Face{Open: true}
		default:
			out[d.Name] = path.Face{BuildUp: r.buildUp(v, f.Path+"."+d.Name)}
		}
	}
	f.Done()
	if o.Get("at") == nil || o.Get("size") == nil {
		r.Warn(n, "%s: area and neighbours of a face follow from at and size; without both every face counts with the size taken, as towards the open", f.Path)
	}
	return out
}

// cracked lists that the open area of a wall is not stated; its doubt comes with the cracks.
func (r *reader) cracked(of string) {
	r.Assume(of+" open_area", "cracks: "+usual.CrackText,
		said.Textf("judgement: as a door with {4 mm} all round at worst, which keeps out 17 dB; the doubt goes upward"), 3)
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
