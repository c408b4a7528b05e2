package silencer

import (
	"cmp"
	"strings"

	"hushwake/silencer/loss"
)

// stuff is what a wall is made of.
type stuff struct {
	wall      loss.WallMaterial
	roughness float64 // m
	density   float64 // kg/m3
	speed     float64 // m/s, of longitudinal waves in a plate
}

// plate holds what the sound side needs of a material, handbook values from memory.
var plates = map[string]struct{ density, speed float64 }{
	"mild steel": {7850, 5200}, "galvanised steel": {7850, 5200}, "stainless steel": {7950, 5100},
	"stainless 304": {7950, 5100}, "stainless 316": {7950, 5100}, "ferritic stainless": {7700, 5200},
	"cast iron": {7200, 4500}, "bronze": {8800, 3700}, "copper": {8900, 3900}, "aluminium": {2700, 5300},
	"rubber": {1250, 200}, "silicone": {1250, 200}, "fibreglass": {1700, 2500}, "plastic": {950, 1500},
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

// wallOf is the stuff that a stated material names; without one the usual, "" = mild steel.
func wallOf(material, usual string) stuff {
	name := nameOf(material)
	if name == "" {
		name = cmp.Or(usual, "mild steel")
	}
	s := stuff{density: plates[name].density, speed: plates[name].speed}
	s.wall, _ = loss.WallOf(name) // every name of the lists is in the tables, see the test
	r, _ := loss.Roughness(name)
	s.roughness = r.Typical
	return s
}

// yields says whether a wall of it gives way to sound as a rubber hose does.
func (s stuff) yields() bool { return s.wall.Material == "rubber" || s.wall.Material == "silicone" }

func nameOf(material string) string {
	m := strings.ToLower(strings.TrimSpace(material))
	if _, ok := plates[m]; ok {
		return m
	}
	for _, o := range otherNames {
		if strings.Contains(m, o.word) {
			return o.name
		}
	}
	return ""
}
