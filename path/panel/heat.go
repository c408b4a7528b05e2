package panel

import (
	"fmt"
	"math"
)

const (
	filmInside  = 0.13 // m2 K/W, level heat flow (ISO 6946)
	filmOutside = 0.04 // m2 K/W, air that moves over the outside (ISO 6946)
	looseFibre  = 0.04 // W/(m K), foam and wool that state none (as their rows)
	solidBoard  = 0.2  // W/(m K), plastics and boards, where a material states none (judgement)
)

// airLayer is the resistance in m2 K/W of an unventilated gap by its depth in m, level heat flow. ISO 6946, table 8.
var airLayer = [][2]float64{{0, 0}, {0.005, 0.11}, {0.007, 0.13}, {0.010, 0.15}, {0.015, 0.17}, {0.025, 0.18}, {0.3, 0.18}}

// Transmittance is the heat that passes a build-up in W/(m2 K) from air to air, with what was assumed for it:
//
//	U = 1/(0.13 + sum t/k + 0.04)
//
// by level heat flow; frames, joints and damp are not counted. A gap of more than 0.3 m counts as 0.3 m.
// Surface resistances and unventilated air layers by ISO 6946:2017, conductivities after ISO 10456: both from memory.
func (m *Materials) Transmittance(b BuildUp) (u float64, assumed []string) {
	r := filmInside + filmOutside
	for _, layer := range b {
		p := m.piece(layer, &stack{})
		if p.kind() == gapLayer {
			r += airResistance(p.thickness)
			continue
		}
		k := p.Conductivity
		if k <= 0 {
			if k = solidBoard; p.kind() == absorberLayer {
				k = looseFibre
			}
			assumed = append(assumed, fmt.Sprintf("%s: no conductivity known, %g W/(m K) taken", p.text, k))
		}
		r += p.thickness / k
	}
	return 1 / r, assumed
}

func airResistance(d float64) float64 {
	for i, q := range airLayer[1:] {
		if p := airLayer[i]; d <= q[0] {
			return p[1] + (d-p[0])/(q[0]-p[0])*(q[1]-p[1])
		}
	}
	return airLayer[len(airLayer)-1][1]
}

// usualLining is the thickness in m that an absorption row of that name holds for, the thickest; 0 = a surface.
func (m *Materials) usualLining(name string) (d float64) {
	t, _ := builtIn()
	for _, l := range t.linings {
		if named(name, l.name, l.aliases) {
			d = math.Max(d, l.thickness)
		}
	}
	return d
}

// Lining is a lining as a layer of its thickness in m; 0 = that of its absorption row. Surfaces and names that are no
// foam or wool give no layer.
func (m *Materials) Lining(name string, thickness float64) (Layer, bool) {
	if thickness <= 0 {
		thickness = m.usualLining(name)
	}
	row, ok := m.Find(name)
	return Layer{Text: name, Material: row.Name, Thickness: thickness}, ok && thickness > 0 && row.kind() == absorberLayer
}
