package silencer

import (
	"cmp"
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
	"hushwake/silencer/wet"
	"hushwake/source/gas"
	"hushwake/source/published"
)

// frictionOf is Darcy's friction factor by the law that is asked for.
func frictionOf(re, rel float64, handbook bool) float64 {
	if handbook {
		return loss.HandbookFriction
	}
	return loss.Friction(re, rel)
}

func frictionCited(handbook bool) published.Cited {
	m := loss.ByColebrook
	if handbook {
		m = loss.ByHandbook
	}
	return loss.Pipe{Bore: 1, Length: 1, Method: m}.Loss(1, 1e-5, 1).Cited
}

// quotedDrop is a quoted loss at the state of the line.
func quotedDrop(l *loss.Quote, s *state, pressure float64) loss.Scaled {
	r, err := l.Scale(loss.Duty{MassFlow: s.flow, Density: s.table.rho(s.t, pressure), Temperature: s.t, QuotedMass: s.flow * s.rated})
	if err != nil {
		return loss.Scaled{Warnings: []string{err.Error()}}
	}
	return r
}

// wetDuct gives the loss of a slice of duct with water in it at a pressure: friction of both phases and, where it
// rises, the weight of what stands in it. The head of a falling stretch is not given back.
func (s *state) wetDuct(d *duct, dx float64) func(pressure float64) float64 {
	f := s.twoPhase(d.bore, s.t, gas.Atmosphere)
	both, share := f.Friction(), math.Min(d.factor, 1)
	return func(pressure float64) float64 {
		f.GasDensity = s.table.rho(s.t, pressure)
		friction, _ := both.At(f.GasDensity)
		drop := share * friction * dx
		if d.rise > 0 {
			drop += f.HeadPerMetre(f.DriftFlux()) * d.rise / d.length * dx
		}
		return drop
	}
}

func (s *state) twoPhase(bore, t, pressure float64) wet.Flow {
	return wet.NewFlow(s.flow, s.liquid, s.table.rho(t, pressure), s.table.at(t).viscosity, bore)
}

func wetCited(rising bool) published.Cited {
	c := published.By("dp = dp_l (1 + C/X + 1/X^2) for gas and water together", "Lockhart and Martinelli 1949, Chisholm 1967", loss.FromMemory)
	if rising {
		c = c.And("head [(1-a) rl + a rg] g h by drift flux", "Nicklin, Wilkes and Davidson 1962")
	}
	return c
}

// wallState is a wall at one gas temperature.
type wallState struct{ perMetre, metal, skin float64 }

// wall gives the heat through the wall of a duct over the gas temperature; passage is the bore whose gas
// washes it.
func (f *forward) wall(p *part, passage float64) func(gasK float64) wallState {
	s, d := &p.state, &p.duct
	insulation, _ := d.lagging.Insulation()
	w := loss.Wall{Bore: cmp.Or(d.shell, d.bore), Thickness: d.wall, Conductivity: p.material.wall.Conductivity,
		Lagging: d.lagging.Thickness, Insulation: insulation, Pulsation: f.pulsation}
	if w.Lagging == 0 {
		w.Emissivity = p.material.wall.Emissivity
	}
	flux := s.flow / fourpole.CircleArea(passage) // density times velocity
	guess := 0.0
	return func(t float64) wallState {
		n := s.table.at(t)
		r := w.HeatFrom(gas.State{Temperature: t, Density: 1, Cp: n.cp, Viscosity: n.viscosity, Conductivity: n.conductivity}, flux, f.ambient, guess)
		guess = r.SkinTemperature
		return wallState{r.PerMetre, r.WallTemperature, r.SkinTemperature}
	}
}

// cites is where the loss of a part comes from.
func (p *part) cites(s *state, handbook bool) published.Cited {
	switch p.kind {
	case ductPart:
		by := frictionCited(handbook)
		if s.liquid > 0 {
			return wetCited(p.duct.rise > 0)
		}
		if p.duct.note != "" {
			by.Formula += ", " + p.duct.note
		}
		if p.duct.factor == 0 {
			return published.Cited{}
		}
		return by
	case quotePart:
		return quotedDrop(p.quote, s, s.pressure).Cited
	}
	return p.Cited
}
