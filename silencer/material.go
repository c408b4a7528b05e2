package silencer

import (
	"cmp"
	"strings"

	"hushwake/silencer/loss"
)

// material is what a wall is made of.
type material struct {
	wall      loss.WallMaterial
	roughness float64 // m
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
	rubber     = "rubber"
	fibreglass = "fibreglass"
)

// wallOf is the material that a word names; without one the usual, "" = mild steel, whose roughness one without its own has.
func wallOf(stated, usual string) material {
	name := nameOf(stated)
	if name == "" {
		name = cmp.Or(usual, "mild steel")
	}
	wall, _ := loss.WallOf(name) // every name of the lists is in the tables, see the test
	rough, err := loss.Roughness(name)
	if err != nil {
		rough, _ = loss.Roughness("")
	}
	return material{wall, rough.Typical}
}

// yields says whether a wall of it gives way to sound as a rubber hose does.
func (s material) yields() bool { return s.wall.Material == "rubber" || s.wall.Material == "silicone" }

func nameOf(material string) string {
	m := strings.ToLower(strings.TrimSpace(material))
	if m == "" {
		return ""
	}
	if _, err := loss.WallOf(m); err == nil {
		return m
	}
	for _, o := range otherNames {
		if strings.Contains(m, o.word) {
			return o.name
		}
	}
	for _, name := range loss.WallMaterials() {
		if strings.Contains(m, name) {
			return name
		}
	}
	return ""
}
