package loss

import (
	"cmp"
	"strings"
)

// Material is what a wall is made of.
type Material struct {
	Wall      WallMaterial
	Roughness float64 // m
}

// otherNames lead from words in use to the names of the tables.
var otherNames = []struct{ word, name string }{
	{"304", "stainless 304"}, {"316", "stainless 316"}, {"321", "stainless 304"}, {"409", "ferritic stainless"},
	{"430", "ferritic stainless"}, {"441", "ferritic stainless"}, {"ferritic", "ferritic stainless"}, {"stainless", "stainless steel"},
	{"galvanised", "galvanised steel"}, {"galvanized", "galvanised steel"}, {"silicone", "silicone"}, {"rubber", "rubber"},
	{"epdm", "rubber"}, {"hose", "rubber"}, {"grp", "fibreglass"}, {"frp", "fibreglass"}, {"fibreglass", "fibreglass"},
	{"fiberglass", "fibreglass"}, {"laminate", "fibreglass"}, {"plastic", "plastic"}, {"polyethylene", "plastic"},
	{"aluminium", "aluminium"}, {"aluminum", "aluminium"}, {"copper", "copper"}, {"cupronickel", "copper"},
	{"brass", "bronze"}, {"bronze", "bronze"}, {"iron", "cast iron"}, {"steel", "mild steel"},
}

// rubber and fibreglass are what hoses and moulded vessels are made of where nothing is stated.
const (
	Rubber     = "rubber"
	Fibreglass = "fibreglass"
)

// MaterialOf is the material that a word names; without one the usual, "" = mild steel, whose roughness one without its own has.
func MaterialOf(stated, usual string) Material {
	name := MaterialName(stated)
	if name == "" {
		name = cmp.Or(usual, "mild steel")
	}
	wall, _ := WallOf(name) // every name of the lists is in the tables, see the test
	rough, err := roughnessOf(name)
	if err != nil {
		rough, _ = roughnessOf("")
	}
	return Material{wall, rough.Typical}
}

// Yields says whether a wall of it gives way to sound as a rubber hose does.
func (s Material) Yields() bool { return s.Wall.Material == "rubber" || s.Wall.Material == "silicone" }

func MaterialName(material string) string {
	m := strings.ToLower(strings.TrimSpace(material))
	if m == "" {
		return ""
	}
	if _, ok := wallTable[m]; ok { // not by WallOf: the error of most names would take longer than all the rest
		return m
	}
	for _, o := range otherNames {
		if strings.Contains(m, o.word) {
			return o.name
		}
	}
	for _, name := range WallMaterials() {
		if strings.Contains(m, name) {
			return name
		}
	}
	return ""
}
