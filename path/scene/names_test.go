package scene_test

import (
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"

	"hushwake/testdata/turns"
)

// below finds the value of a key of a mapping.
func below(n *yaml.Node, key string) *yaml.Node {
	for i := 0; n != nil && i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return &yaml.Node{}
}

// spellOut writes what an alias stands for in its place, so that any order can be read.
func spellOut(n *yaml.Node) {
	n.Anchor = ""
	for i, c := range n.Content {
		if c.Kind == yaml.AliasNode {
			copied := *c.Alias
			copied.Content, copied.Anchor = slices.Clone(c.Alias.Content), ""
			n.Content[i] = &copied
		}
		spellOut(n.Content[i])
	}
}

// renaming gives everything of a file names that begin one another: "x", "x x", "x x x".
type renaming map[string]string // section and old name, to new

func (r renaming) add(section, old string, i int) {
	if _, ok := r[section+old]; !ok {
		r[section+old] = strings.Repeat(section[:1]+" ", i) + section[:1]
	}
}

func (r renaming) put(section string, n *yaml.Node) {
	if to, ok := r[section+n.Value]; ok && n.Kind == yaml.ScalarNode {
		n.Value, n.Style = to, 0
	}
}

// refers tells what section the value of a key names.
var refers = map[string]string{"in": "spaces", "to": "spaces", "like": "layouts", "space": "spaces", "engine": "engines", "listener": "listeners", "layout": "layouts", "at": "listeners", "rest": "listeners"}

func (r renaming) walk(n *yaml.Node) {
	if n.Kind == yaml.SequenceNode || n.Kind == yaml.DocumentNode {
		for _, c := range n.Content {
			r.walk(c)
		}
		return
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i].Value, n.Content[i+1]
		r.walk(value)
		switch section := map[string]string{"exhausts": "engines"}[key]; {
		case section != "" || key == "engines" || key == "spaces" || key == "listeners":
			if section == "" {
				section = key
			}
			step := 2
			if value.Kind == yaml.SequenceNode { // a list of names
				step = 1
			}
			for k := 0; k < len(value.Content); k += step {
				r.put(section, value.Content[k])
			}
		case key == "between":
			for _, s := range value.Content {
				r.put("spaces", s)
			}
		case key == "layouts":
			for _, l := range value.Content {
				r.put("layouts", below(l, "name"))
			}
		case refers[key] != "":
			r.put(refers[key], value)
		}
	}
}

func renamed(root *yaml.Node) renaming {
	r := renaming{}
	for _, section := range []string{"engines", "spaces", "listeners"} {
		s := below(root, section)
		for i := 0; i < len(s.Content); i += 2 {
			r.add(section, s.Content[i].Value, i/2)
		}
	}
	for i, l := range below(root, "layouts").Content {
		r.add("layouts", below(l, "name").Value, i)
	}
	r.walk(root)
	return r
}

// turned lists every section the other way round.
func turned(root *yaml.Node) {
	for _, section := range []string{"engines", "spaces", "listeners"} {
		s, back := below(root, section), []*yaml.Node{}
		for i := len(s.Content) - 2; i >= 0; i -= 2 {
			back = append(back, s.Content[i], s.Content[i+1])
		}
		s.Content = back
	}
	slices.Reverse(below(root, "layouts").Content)
	slices.Reverse(below(root, "partitions").Content)
}

// priced gives every layout and every offer another price.
func priced(root *yaml.Node) {
	for _, l := range below(root, "layouts").Content {
		if p := below(l, "price"); p.Value != "" {
			p.Value = "12345"
			continue
		}
		l.Content = append(l.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: "price"}, &yaml.Node{Kind: yaml.ScalarNode, Value: "12345"})
	}
}

// figures are the levels and bands of a boat by layout and listener.
func figures(t *testing.T, text string) map[string][]float64 {
	_, all, s := drawn(t, text, 400)
	out := map[string][]float64{}
	for i, l := range s.Layouts {
		for j, h := range l.Listeners {
			v := append([]float64{h.Level, h.Low, h.High, h.SD, h.Quietest}, all[i].Listeners[j].Bands[:]...)
			out[l.Name+"|"+h.Listener] = v
		}
		for _, x := range all[i].Exhausts {
			out[l.Name+"|exhaust|"+x.Engine] = append([]float64{x.Rated.BackPressure}, x.OutletPower[:]...)
		}
	}
	return out
}

// twins is a boat of two engines alike in all but their line, one name the beginning of the other, with values that
// are not stated.
const twins = `boat: "two engines named alike (invented)"
engines:
  main: {cycle: four-stroke, cylinders: 4, aspiration: natural, rated: {power: 40 kW, speed: 2600 rpm}, in: engine space, at: [2 m, -0.5 m, 0.5 m]}
  main port: {cycle: four-stroke, cylinders: 4, aspiration: natural, rated: {power: 40 kW, speed: 2600 rpm}, in: engine space, at: [2 m, 0.5 m, 0.5 m]}
spaces:
  engine space: {at: [0.5 m, -1.5 m, -0.6 m], size: [3 m, 3 m, 1.6 m], lining: bare steel}
  engine space two: {at: [3.5 m, -1.5 m, -0.6 m], size: [2 m, 3 m, 1.6 m], lining: furnished cabin}
partitions:
  - {between: [engine space, engine space two], name: bulkhead, area: 4 m2, build_up: [4 mm steel]}
  - {between: [engine space, outside], name: hatch, area: 1 m2, build_up: [4 mm steel], open_area: 0.01 m2, facing: up}
  - {between: [engine space two, outside], name: hatch two, area: 1 m2, open_area: 0.01 m2}
listeners:
  deck: {in: outside, at: [3 m, 0 m, 2 m]}
  deck two: {in: engine space two, at: [4.5 m, 0 m, 0.6 m]}
layouts:
  - name: plain
    exhausts:
      main:
        line: [{pipe: {bore: 60 mm, length: 4 m, wall: 3 mm, material: mild steel, in: outside}}, {chamber: {bore: 200 mm, length: 500 mm, inlet_extension: 0 mm, outlet_extension: 0 mm, inlet_bore: 60 mm, outlet_bore: 60 mm}}]
        outlet: {at: [0 m, 3 m, 0.5 m]}
      main port:
        line: [{pipe: {bore: 60 mm, length: 4 m, wall: 3 mm, material: mild steel, in: outside}}]
        outlet: {at: [0 m, -3 m, 0.5 m], pointing: aft}
  - name: plain two
    exhausts:
      main:
        line: [{pipe: {bore: 60 mm, length: 3 m, wall: 3 mm, material: mild steel, in: outside}}]
        outlet: {at: [0 m, 3 m, 0.5 m], pointing: aft}
      main port:
        line: [{pipe: {bore: 60 mm, length: 4 m, wall: 3 mm, material: mild steel, in: outside}}]
        outlet: {at: [0 m, -3 m, 0.5 m]}
`

// Names, prices and the order in the file change no number: levels, bands, their spread and back pressure. A price and
// a name leave every bit; another order leaves a millionth of a dB for sums made in another order. A run takes the twins, whose engines
// nothing but a name tells apart, the demo of every key, and one of the others.
func TestNamesPricesAndOrderChangeNoNumber(t *testing.T) {
	files := map[string]string{"twins": twins}
	all := []string{"generator-box", "three-quotes", "dry-stack"}
	demos := []string{"everything"}
	for i := range turns.Of(t, len(all), 3) {
		demos = append(demos, all[i])
	}
	for _, demo := range demos {
		text, err := os.ReadFile("../../testdata/" + demo + ".yaml")
		require.NoError(t, err)
		files[demo] = string(text)
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		text := files[name]
		want := figures(t, text)
		change := func(f func(root *yaml.Node)) map[string][]float64 {
			var doc yaml.Node
			require.NoError(t, yaml.Unmarshal([]byte(text), &doc))
			spellOut(&doc)
			f(doc.Content[0])
			out, err := yaml.Marshal(&doc)
			require.NoError(t, err)
			got := figures(t, string(out))
			require.Len(t, got, len(want))
			return got
		}
		require.Equal(t, want, change(priced), "%s: prices", name)
		for key, v := range change(turned) {
			require.InDeltaSlice(t, want[key], v, 1e-6, "%s: order, %s", name, key)
		}
		var r renaming
		got := change(func(root *yaml.Node) { r = renamed(root) })
		for key, v := range want {
			require.Equal(t, v, got[r.key(key)], "%s: names, %s as %s", name, key, r.key(key))
		}
	}
}

// key is what a key of the figures is called afterwards.
func (r renaming) key(key string) string {
	parts := strings.Split(key, "|")
	layout, offer, chosen := strings.Cut(parts[0], " + ")
	parts[0] = r["layouts"+layout]
	if chosen {
		parts[0] += " + " + offer
	}
	last, section := len(parts)-1, "listeners"
	if last == 2 {
		section = "engines"
	}
	parts[last] = r[section+parts[last]]
	return strings.Join(parts, "|")
}
