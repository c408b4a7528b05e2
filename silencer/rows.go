package silencer

import (
	"fmt"
	"math"
	"strings"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/wet"
	"hushwake/source/gas"
)

// marched sums the parts into rows.
func (c *course) marched() Marched {
	m := Marched{BackPressure: c.inlet - gas.Atmosphere, MassFlow: float64(c.feed.MassFlow), InletTemperature: c.feed.Temperature}
	c.fill()
	for i := range c.rows {
		m.Length += c.rows[i].Length
		m.HeatLoss += c.rows[i].HeatLoss
	}
	c.outlet(&m)
	m.Mass = c.mass()
	m.WaterHeat = c.taken()
	m.EnergyResidual = c.residual(m)
	m.Rows = c.rows
	m.Warnings = c.warnings(m)
	return m
}

// fill completes the rows, those of branches too.
func (c *course) fill() {
	c.describe(c.stream.parts)
	c.cutOns(c.stream.parts)
	for i := range c.rows {
		r := &c.rows[i]
		if r.GasTemperature == 0 { // a row without parts hands on what it gets
			r.GasTemperature, r.Wet = c.first.t, c.first.wet
			if i > 0 {
				r.GasTemperature, r.Wet = c.rows[i-1].GasTemperature, c.rows[i-1].Wet
			}
		}
		if r.WallTemperature == 0 { // no wall of its own
			r.SkinTemperature, r.WallTemperature = c.before(i), c.before(i)
		}
	}
}

// before is the gas temperature at the inlet of a row, K.
func (c *course) before(row int) float64 {
	if row == 0 {
		return c.first.t
	}
	return c.rows[row-1].GasTemperature
}

// describe fills each row from the parts that belong to it. Fittings have no wall of their own: that of
// the duct they sit on counts.
func (c *course) describe(parts []part) {
	for i := range parts {
		p := &parts[i]
		r, s := &c.rows[p.row], &p.state
		r.PressureLoss += s.loss
		r.HeatLoss += s.heat
		r.Velocity = math.Max(r.Velocity, s.fastest)
		r.Mach = math.Max(r.Mach, s.mach)
		r.GasTemperature, r.Wet = c.after(parts, i)
		switch p.kind {
		case ductPart:
			r.Growth += growth(p.material, s.meanWall, c.ambient()) * p.duct.length
			r.walls(s.skin, s.wall)
		case skinPart:
			r.walls(s.skin, s.wall)
		case branchPart:
			c.describeBranches(r, p)
		}
		if by := p.cites(s, c.stream.handbook); by.Formula != "" && s.loss != 0 {
			r.Formula, r.Source, r.Mark = appendOnce(r.Formula, by.Formula), appendOnce(r.Source, by.Source), appendOnce(r.Mark, by.Mark)
		}
	}
}

func (r *Row) walls(skin, metal float64) {
	r.SkinTemperature = math.Max(r.SkinTemperature, skin)
	r.WallTemperature = math.Max(r.WallTemperature, metal)
}

// describeBranches takes the hottest walls, the highest Mach number and the greatest growth of any branch
// into the row, and keeps their own rows in it.
func (c *course) describeBranches(r *Row, p *part) {
	for i, l := range c.inside[p.row] {
		l.fill()
		grown := 0.0
		for j := range l.rows {
			b := &l.rows[j]
			grown += b.Growth
			r.Mach = math.Max(r.Mach, b.Mach)
			if l.owner[j] >= 0 {
				r.walls(b.SkinTemperature, b.WallTemperature)
			}
		}
		r.Growth = math.Max(r.Growth, grown)
		share(l.rows, p.state.share[i])
		r.Branches = append(r.Branches, l.rows...)
	}
}

// share notes which share of the gas passes rows, those inside them too.
func share(rows []Row, part float64) {
	for i := range rows {
		rows[i].Share = orDefault(rows[i].Share, 1) * part
		share(rows[i].Branches, part)
	}
}

// cutOns gives each silencing element the first cross mode of its shell that its parts excite, and the
// way it is solved.
func (c *course) cutOns(parts []part) {
	for i := range parts {
		r := &c.rows[parts[i].row]
		if r.Index == 0 || r.Method != "" || parts[i].kind == branchPart {
			continue
		}
		f := c.line.Elements[c.owner[parts[i].row]].form()
		r.Method = plane
		if f.body == 0 || f.unseen {
			continue
		}
		mode := fourpole.FirstDiameter
		if f.centred {
			mode = fourpole.FirstRadial
			if c.opts.Method != plane {
				r.Method = modes
			}
		}
		s := &parts[i].state
		if cut, err := fourpole.CutOn(mode, f.body, s.soundSpeed(s.t), 0); err == nil {
			r.CutOn = cut
		}
	}
}

// after is the gas temperature behind a part, and whether water goes along.
func (c *course) after(parts []part, i int) (float64, bool) {
	if i+1 < len(parts) {
		return parts[i+1].state.t, parts[i+1].state.wet
	}
	return c.last.t, c.last.wet
}

func (c *course) ambient() float64 { return orDefault(c.feed.Ambient, 293.15) }

func appendOnce(s, more string) string {
	if s == "" || s == more {
		return more
	}
	if more == "" || len(s) > 400 || strings.Contains(s, more) {
		return s
	}
	return s + "; " + more
}

// outlet fills what leaves the line.
func (c *course) outlet(m *Marched) {
	bore := c.outletBore()
	m.OutletBore = bore
	m.OutletTemperature = c.last.t
	m.OutletGas = c.last.gas.At(c.last.t, gas.Atmosphere)
	if m.OutletGas.Density > 0 {
		m.OutletVelocity = c.last.flow / (m.OutletGas.Density * circle(bore))
	}
}

// mass is the sum of all elements, nil when one of them cannot be told.
func (c *course) mass() *float64 {
	sum := 0.0
	for i, r := range c.rows {
		if c.owner[i] < 0 || massless(c.line.Elements[c.owner[i]]) {
			continue
		}
		if r.Mass == nil {
			return nil
		}
		sum += *r.Mass
	}
	return &sum
}

// massless says whether nothing of an element hangs on the line.
func massless(e Element) bool {
	all := true
	eachElement([]Element{e}, func(x Element) {
		all = all && x.form().massless
	})
	return all
}

func (c *course) taken() (w float64) {
	for i := range c.stream.parts {
		w += c.stream.parts[i].state.taken
	}
	return w
}

// residual is the enthalpy that the gas lost before any water joined less the heat given to the
// spaces, over the heat it carries in. What the water takes is balanced by the injection itself.
func (c *course) residual(m Marched) float64 {
	if c.feed.MassFlow == 0 || c.feed.Isothermal {
		return 0
	}
	end := c.last.t
	for i := range c.stream.parts {
		if p := &c.stream.parts[i]; p.kind == injectPart && p.state.taken > 0 {
			end = p.state.t
		}
	}
	carried := m.MassFlow * (c.feed.Gas.Enthalpy(c.feed.Temperature) - c.feed.Gas.Enthalpy(c.ambient()))
	lost := m.MassFlow * (c.feed.Gas.Enthalpy(c.feed.Temperature) - c.feed.Gas.Enthalpy(end))
	if carried == 0 {
		return 0
	}
	return (lost - m.HeatLoss) / carried
}

// warnings are what the march knows beyond its numbers.
func (c *course) warnings(m Marched) []string {
	var w []string
	w = append(w, c.partWarnings()...)
	for _, r := range m.Rows {
		if r.Mach > 0.3 {
			w = append(w, fmt.Sprintf("%s: Mach number %.2f is above 0.3, where the pressure loss and the four-poles no longer hold", r.Name, r.Mach))
		}
	}
	if math.Abs(m.EnergyResidual) > 1e-6 {
		w = append(w, fmt.Sprintf("the heat balance of the march closes to %.1e only", m.EnergyResidual))
	}
	return w
}

// partWarnings are those of single losses, also inside branches.
func (c *course) partWarnings() (w []string) {
	for i := range c.stream.parts {
		p := &c.stream.parts[i]
		if p.warning != "" {
			w = append(w, c.rows[p.row].Name+": "+p.warning)
		}
		if p.state.injected > 0 && p.state.fastest > wet.SprayFastest {
			w = append(w, fmt.Sprintf("%s: gas of %.0f m/s meets the water; what bringing it up to speed costs is known for 20 to 40 m/s only", c.rows[p.row].Name, p.state.fastest))
		}
		if p.kind == quotePart {
			for _, t := range quotedDrop(p.quote, &p.state, p.state.pressure).Warnings {
				w = append(w, c.rows[p.row].Name+": "+t)
			}
		}
		for _, l := range c.inside[p.row] {
			w = append(w, l.partWarnings()...)
		}
	}
	return w
}

// growth is how much a metre of wall grows from the ambient to a wall temperature.
func growth(s material, wallK, ambientK float64) float64 {
	return math.Max(0, s.wall.Growth*(wallK-ambientK))
}
