package loss

import (
	"cmp"
	"math"
	"strings"
)

// Lagging is insulation round an element; zero thickness means bare.
type Lagging struct {
	Thickness float64 // m
	Material  string
	// Conductivity in W/(m K), held over temperature, and the highest temperature in K are an owner's own
	// figures with their source; 0 = by Material.
	Conductivity, MaxTemperature float64
	Source                       string
}

// Insulation is the material by the owner's figures or its name; an unknown one is reckoned as mineral wool and said so.
func (g Lagging) Insulation() (LaggingMaterial, bool) {
	m := strings.ToLower(g.Material)
	if k := g.Conductivity; k > 0 {
		return LaggingMaterial{Material: g.Material, K50: k, K100: k, K300: k,
			MaxK: cmp.Or(g.MaxTemperature, math.Inf(1)), Source: g.Source, Mark: "user"}, true
	}
	for _, known := range LaggingMaterials() {
		if strings.Contains(m, known) {
			l, err := LaggingOf(known)
			return l, err == nil
		}
	}
	l, _ := LaggingOf("")
	return l, m == ""
}
