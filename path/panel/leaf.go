package panel

import (
	"fmt"
	"math"
)

// stack is a build-up sorted into leaves.
type stack struct {
	leaves   []Leaf
	mass     float64 // all layers
	price    float64
	priced   bool
	warnings []string
	doors    []Material
	covers   []piece // porous layers outside all leaves
	mark     string  // the weakest of the materials'
}

// sort makes leaves of layers: neighbours bonded together move as one; an air gap, foam or wool
// between two others parts them. Foam or wool outside all leaves covers them.
func (m *Materials) sort(b BuildUp) (s stack) {
	s.priced, s.mark = len(b) > 0, "read"
	var bonded []piece
	gap, filled := 0.0, false
	var porous []piece
	for _, layer := range b {
		p := m.piece(layer, &s)
		if p.Mark != "read" && p.Mark != "derived" && s.mark == "read" {
			s.mark = p.Mark
		}
		s.mass += p.mass
		s.price += p.Price
		s.priced = s.priced && (p.Price > 0 || p.kind() == gapLayer)
		switch p.kind() {
		case gapLayer, absorberLayer:
			s.close(&bonded, &gap, &filled)
			gap += p.thickness
			filled = filled || p.kind() == absorberLayer && p.porous()
			if p.Resistivity > 0 && p.thickness > 0 {
				porous = append(porous, p)
			}
		default:
			if len(bonded) == 0 {
				s.part(gap, filled, porous)
			}
			gap, filled, porous = 0, false, nil
			bonded = append(bonded, p)
		}
	}
	s.close(&bonded, &gap, &filled)
	if len(s.leaves) > 0 {
		s.covers = append(s.covers, porous...)
	}
	return s
}

// part keeps what stands before a new leaf: behind another it is their gap, else it covers the first.
func (s *stack) part(gap float64, filled bool, porous []piece) {
	if len(s.leaves) == 0 {
		s.covers = porous
		return
	}
	last := &s.leaves[len(s.leaves)-1]
	last.Gap, last.Filled, last.fill = gap, filled, porous
}

func (s *stack) close(bonded *[]piece, gap *float64, filled *bool) {
	if len(*bonded) > 0 {
		s.leaves = append(s.leaves, bond(*bonded))
		*bonded, *gap, *filled = nil, 0, false
	}
}

// piece is a layer with its material, mass and thickness.
type piece struct {
	Material
	text            string
	mass, thickness float64
}

// porous tells wool and open foam from closed-cell foam, which absorbs little.
func (p piece) porous() bool { return p.Name != "closed-cell foam" }

func (m *Materials) piece(l Layer, s *stack) piece {
	row, ok := m.Find(l.Material)
	if !ok {
		s.warnings = append(s.warnings, fmt.Sprintf("no material %q in the table: taken as a limp layer of its stated mass", l.Material))
		row = Material{Name: l.Material, Kind: limpLayer, Mark: "common practice"}
	}
	p := piece{Material: row, text: l.Text, mass: usable(l.Mass), thickness: usable(l.Thickness)}
	if p.text == "" {
		p.text = row.Name
	}
	switch {
	case p.mass == 0 && p.thickness > 0 && row.Density > 0 && row.Surface == 0:
		p.mass = p.thickness * row.Density
	case p.mass == 0:
		p.mass = row.Surface
	case p.thickness == 0 && row.Density > 0:
		p.thickness = p.mass / row.Density
	}
	if p.mass == 0 && row.kind() != gapLayer {
		s.warnings = append(s.warnings, fmt.Sprintf("%q: neither thickness nor mass gives its weight; it counts as nothing", p.text))
	}
	if row.kind() == doorLayer {
		s.doors = append(s.doors, row)
	}
	return p
}

// usable is 0 for what can't be a mass or a thickness.
func usable(x float64) float64 {
	if !(x > 0) || math.IsInf(x, 0) {
		return 0
	}
	return x
}

// bond makes one leaf of layers that move together. Bending stiffnesses add without shear between
// the layers, so the critical frequency is sqrt(sum m / sum(m_i/fc_i^2)): a limp layer raises it with
// the mass. A limp layer adds up to 0.05 to the loss factor (common practice).
func bond(pieces []piece) Leaf {
	var l Leaf
	var bending, damping, most, limp, base float64
	var lead piece
	for i, p := range pieces {
		if i > 0 {
			l.Text += " + "
		}
		l.Text += p.text
		l.Mass += p.mass
		l.sandwich = l.sandwich || p.kind() == sandwichLayer
		if p.Critical <= 0 || p.thickness <= 0 {
			limp += p.mass
			continue
		}
		fc := p.Critical / p.thickness
		b := p.mass / (fc * fc)
		bending, damping = bending+b, damping+b*p.Damping
		if b > most {
			most, lead, base = b, p, fc
		}
	}
	if bending == 0 {
		return l
	}
	l.Critical = math.Sqrt(l.Mass / bending)
	l.Damping = damping/bending + 0.05*math.Min(1, limp/math.Max(l.Mass-limp, 1e-9))
	l.plateau = 20*math.Log10(l.Mass*l.Critical) + 10*math.Log10(math.Max(l.Damping, 1e-4)) - 42
	if lead.Plateau > 0 {
		l.plateau = lead.Plateau + 20*math.Log10(l.Mass*l.Critical/(lead.mass*base)) +
			10*math.Log10(math.Max(l.Damping, 1e-4)/math.Max(lead.Damping, 1e-4))
	}
	return l
}
