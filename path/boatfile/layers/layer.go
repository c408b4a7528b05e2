// Package layers reads the layers of walls and linings as people write them: a thickness or a mass and a material.
package layers

import (
	"cmp"
	"fmt"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/path/panel"
	"hushwake/source/said"
)

// Parse reads one layer of a build-up: "4 mm steel", "5 kg/m2 limp mat", "1 in foam",
// "50 mm air gap", or a bare "carpet", whose usual thickness is then taken and written into Text.
func Parse(text string, materials *panel.Materials) (panel.Layer, error) {
	if materials == nil {
		materials = panel.Default()
	}
	l, note, err := WithNote(text, materials)
	if err == nil && note != "" {
		l.Text = fmt.Sprintf("%s (%s assumed)", l.Text, said.Plain(note))
	}
	return l, err
}

// WithNote gives the layer and what was filled in. With nil materials any name passes.
func WithNote(text string, materials *panel.Materials) (panel.Layer, string, error) {
	l := panel.Layer{Text: strings.TrimSpace(text)}
	words := strings.Fields(text)
	if len(words) == 0 {
		return l, "", quantity.Bad("such as 4 mm steel or 5 kg/m2 limp mat", "an empty layer")
	}
	if len(words) > 12 {
		return l, "", quantity.Bad("one layer at a time, such as 4 mm steel", "%q is too long for a layer", spelling.Clip(text))
	}
	rest, err := takeSizes(words, &l)
	if err != nil {
		return l, "", err
	}
	name := strings.Join(rest, " ")
	if name == "" {
		return l, "", quantity.Bad("such as 4 mm steel or 5 kg/m2 limp mat", "%q names no material", spelling.Clip(text))
	}
	front := strings.Join(words[:len(words)-len(rest)], " ")
	if l.Material, err = layerMaterial(front, name, materials); err != nil {
		return l, "", err
	}
	if l.Material == "air" && l.Mass > 0 {
		return l, "", quantity.Bad("such as 50 mm air gap", "%q: a gap has a thickness, no mass", spelling.Clip(text))
	}
	return completeLayer(l, materials)
}

// takeSizes takes a thickness and a mass per area off the front.
func takeSizes(words []string, l *panel.Layer) ([]string, error) {
	for strings.ContainsAny(words[0][:1], "0123456789.-+") || quantity.Vulgar[[]rune(words[0])[0]] != 0 {
		q, used, err := sizeAtFront(words)
		switch {
		case err != nil:
			return nil, err
		case q.Value <= 0:
			return nil, quantity.Bad("", "%q: a layer has more than nothing", spelling.Clip(strings.Join(words, " ")))
		case q.Dim == quantity.Length && l.Thickness == 0:
			l.Thickness = q.Value
		case q.Dim == quantity.SurfaceMass && l.Mass == 0:
			l.Mass = q.Value
		default:
			return nil, quantity.Bad("", "%q states the same twice", spelling.Clip(strings.Join(words, " ")))
		}
		if words = words[used:]; len(words) == 0 {
			break
		}
	}
	if l.Thickness > 2 || l.Mass > 2000 {
		return nil, quantity.Bad("", "%q is no layer of a boat's wall", spelling.Clip(l.Text))
	}
	return words, nil
}

// sizeAtFront finds the shortest run of words that is a size: "1 5/8 in" takes three.
func sizeAtFront(words []string) (quantity.Quantity, int, error) {
	for k := 1; k <= len(words); k++ {
		part := strings.Join(words[:k], " ")
		if _, unit, err := quantity.LeadingNumber(part); err == nil && strings.TrimSpace(unit) == "" {
			continue // "1" and "1 5/8" are no sizes yet
		}
		if q, err := quantity.Parse(part, quantity.Length, quantity.SurfaceMass); err == nil {
			return q, k, nil
		}
	}
	_, err := quantity.Parse(strings.Join(words[:min(2, len(words))], " "), quantity.Length, quantity.SurfaceMass)
	return quantity.Quantity{}, 0, err
}

// layerMaterial finds the material in the table; sizes are what stands before its name.
func layerMaterial(sizes, name string, materials *panel.Materials) (string, error) {
	switch low := strings.ToLower(strings.TrimPrefix(strings.ToLower(name), "of ")); low {
	case "air", "air gap", "gap", "air space", "cavity":
		return "air", nil
	}
	if materials == nil {
		return name, nil
	}
	if m, ok := materials.Find(name); ok {
		return m.Name, nil
	}
	if len(materials.Rows) == 0 {
		return name, nil
	}
	return "", quantity.Bad(materialHint(sizes, name, materials), "no material %q in the table; a user's own go under materials:", spelling.Clip(name))
}

// materialHint is the layer that may be meant, with the size that it states before or behind its name.
func materialHint(sizes, name string, materials *panel.Materials) string {
	words := strings.Fields(name)
	for k := 1; sizes == "" && k < len(words); k++ {
		if _, err := quantity.Parse(strings.Join(words[k:], " "), quantity.Length, quantity.SurfaceMass); err == nil {
			sizes, name = strings.Join(words[k:], " "), strings.Join(words[:k], " ")
		}
	}
	near := name
	if _, ok := materials.Find(name); !ok {
		near = nearestMaterial(name, materials)
	}
	switch {
	case near == "":
		return "'hushwake help materials' lists them"
	case sizes != "":
		return fmt.Sprintf("did you mean %q?", sizes+" "+near)
	}
	m, _ := materials.Find(near)
	if l, _, err := completeLayer(panel.Layer{Text: near, Material: m.Name}, materials); err != nil || l.Thickness == 0 && l.Mass == 0 {
		if m.Critical > 0 { // a mass would be another plate than the one that stands there
			return "write 6 mm " + near + ", or the thickness that it has"
		}
		return "write 5 kg/m2 " + near + ", or the thickness or mass that it has"
	}
	return fmt.Sprintf("did you mean %q?", near)
}

func nearestMaterial(name string, materials *panel.Materials) string {
	if near := materials.Nearest(name); near != "" {
		return near
	}
	var names []string
	for _, m := range materials.Rows {
		names = append(names, m.Name)
	}
	return spelling.Nearest(name, names)
}

// completeLayer fills in a thickness that isn't stated; a material without a density needs a mass.
func completeLayer(l panel.Layer, materials *panel.Materials) (panel.Layer, string, error) {
	if l.Thickness > 0 || l.Mass > 0 || materials == nil {
		return l, "", nil
	}
	m, _ := materials.Find(l.Material)
	if t := cmp.Or(m.AbsThickness, m.UsualThickness); t > 0 {
		l.Thickness = t
		return l, quantity.Said(t, quantity.Length), nil
	}
	if m.Density == 0 {
		return l, "", nil // a door or another part that is known as a whole
	}
	return l, "", quantity.Bad("such as 6 mm "+l.Material, "%q states neither thickness nor mass", spelling.Clip(l.Text))
}

// KnownLining asks the table for the absorption of a surface.
func KnownLining(materials *panel.Materials, name string) bool {
	if materials == nil || len(materials.Rows) == 0 {
		return true
	}
	if _, _, _, ok := materials.AbsorptionOf(name, 0); ok {
		return true
	}
	_, ok := materials.Find(name)
	return ok
}

// NearestLining is the hint for a lining that is not in the table.
func NearestLining(materials *panel.Materials, name string) string {
	if near := nearestMaterial(name, materials); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return ""
}
