package silencer

import (
	"fmt"
	"math"
	"strings"

	"hushwake/silencer/chain"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
	"hushwake/silencer/wet"
	"hushwake/source/gas"
	"hushwake/source/said"
)

// marched sums the parts into rows.
func (c *course) marched() Marched {
	m := Marched{BackPressure: c.Inlet - gas.Atmosphere, MassFlow: c.feed.MassFlow, InletTemperature: c.feed.Temperature}
	c.fill()
	for i := range c.rows {
		m.Length += c.rows[i].Length
		m.HeatLoss += c.rows[i].HeatLoss
	}
	c.outlet(&m)
	m.Mass = c.mass()
	m.EnergyResidual = c.residual(m)
	m.Rows = c.rows
	m.Warnings = c.warnings(m)
	return m
}

// fill completes the rows, those of branches too.
func (c *course) fill() {
	c.describe(c.Stream.Parts)
	c.cutOns(c.Stream.Parts)
	for i := range c.rows {
		r := &c.rows[i]
		if r.GasTemperature == 0 { // a row without parts hands on what it gets
			r.GasTemperature, r.Wet = c.First.T, c.First.Wet
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
		return c.First.T
	}
	return c.rows[row-1].GasTemperature
}

// describe fills each row from the parts that belong to it. Fittings have no wall of their own: that of
// the duct they sit on counts.
func (c *course) describe(parts []march.Part) {
	for i := range parts {
		p := &parts[i]
		r, s := &c.rows[p.Row], &p.State
		r.PressureLoss += s.Loss
		r.HeatLoss += s.Heat
		r.Velocity = math.Max(r.Velocity, s.Fastest)
		r.Mach = math.Max(r.Mach, s.Mach)
		r.GasTemperature, r.Wet = c.after(parts, i)
		switch p.Kind {
		case march.DuctPart:
			r.Growth += growth(p.Material, s.MeanWall, c.ambient()) * p.Duct.Length
			r.walls(s.Skin, s.Wall)
		case march.SkinPart:
			r.walls(s.Skin, s.Wall)
		case march.BranchPart:
			c.describeBranches(r, p)
		}
		if by := p.Cites(s, c.Stream.Handbook); by.Formula != "" && s.Loss != 0 {
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
func (c *course) describeBranches(r *Row, p *march.Part) {
	for i, l := range c.inside[p.Row] {
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
		share(l.rows, p.State.Share[i])
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
func (c *course) cutOns(parts []march.Part) {
	for i := range parts {
		r := &c.rows[parts[i].Row]
		if r.Index == 0 || r.Method != "" || parts[i].Kind == march.BranchPart {
			continue
		}
		f := c.line.Elements[c.owner[parts[i].Row]].Form()
		r.Method = chain.Plane
		if f.Body == 0 || f.Unseen {
			continue
		}
		mode := fourpole.FirstDiameter
		if f.Centred {
			mode = fourpole.FirstRadial
			if c.opts.Method != chain.Plane {
				r.Method = chain.Modes
			}
		}
		s := &parts[i].State
		if cut, err := fourpole.CutOn(mode, f.Body, s.SoundSpeed(s.T), 0); err == nil {
			r.CutOn = cut
		}
	}
}

// after is the gas temperature behind a part, and whether water goes along.
func (c *course) after(parts []march.Part, i int) (float64, bool) {
	if i+1 < len(parts) {
		return parts[i+1].State.T, parts[i+1].State.Wet
	}
	return c.Last.T, c.Last.Wet
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
	m.OutletTemperature = c.Last.T
	m.OutletGas = c.Last.Gas.At(c.Last.T, gas.Atmosphere)
	if m.OutletGas.Density > 0 {
		m.OutletVelocity = c.Last.Flow / (m.OutletGas.Density * circle(bore))
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
		all = all && x.Form().Massless
	})
	return all
}

// residual is the enthalpy that the gas lost before any water joined less the heat given to the
// spaces, over the heat it carries in. What the water takes is balanced by the injection itself.
func (c *course) residual(m Marched) float64 {
	if c.feed.MassFlow == 0 || c.feed.Isothermal {
		return 0
	}
	end := c.Last.T
	for i := range c.Stream.Parts {
		if p := &c.Stream.Parts[i]; p.Kind == march.InjectPart && p.State.Taken > 0 {
			end = p.State.T
		}
	}
	carried := float64(m.MassFlow) * (c.feed.Gas.Enthalpy(c.feed.Temperature) - c.feed.Gas.Enthalpy(c.ambient()))
	lost := float64(m.MassFlow) * (c.feed.Gas.Enthalpy(c.feed.Temperature) - c.feed.Gas.Enthalpy(end))
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
	for i := range c.Stream.Parts {
		p := &c.Stream.Parts[i]
		if p.Warning != "" {
			w = append(w, c.rows[p.Row].Name+": "+p.Warning)
		}
		if d := p.State.Unsettled; d > 0 {
			w = append(w, said.Textf("%s: the temperature of its outside did not settle in %d steps; it, and the heat given off, are in doubt by {%.3g K}", c.rows[p.Row].Name, loss.HeatSteps, d))
		}
		if p.State.Injected > 0 && p.State.Fastest > wet.SprayFastest {
			w = append(w, said.Textf("%s: gas of {%.0f m/s} meets the water; what bringing it up to speed costs is known for {20 to 40 m/s} only", c.rows[p.Row].Name, p.State.Fastest))
		}
		if p.Kind == march.QuotePart {
			for _, t := range march.QuotedDrop(p.Quote, &p.State, p.State.Pressure).Warnings {
				w = append(w, c.rows[p.Row].Name+": "+t)
			}
		}
		for _, l := range c.inside[p.Row] {
			w = append(w, l.partWarnings()...)
		}
	}
	return w
}

// growth is how much a metre of wall grows from the ambient to a wall temperature.
func growth(s loss.Material, wallK, ambientK float64) float64 {
	return math.Max(0, s.Wall.Growth*(wallK-ambientK))
}
