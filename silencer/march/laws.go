package march

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

// QuotedDrop is a quoted loss at the state of the line.
func QuotedDrop(l *loss.Quote, s *State, pressure float64) loss.Scaled {
	r, err := l.Scale(loss.Duty{MassFlow: s.Flow, Density: s.Table.Rho(s.T, pressure), Temperature: s.T, QuotedMass: s.Flow * s.Rated})
	if err != nil {
		return loss.Scaled{Warnings: []string{err.Error()}}
	}
	return r
}

// WetDuct gives the loss of a slice of duct with water in it at a pressure: friction of both phases and, where it
// rises, the weight of what stands in it. The head of a falling stretch is not given back.
func (s *State) WetDuct(d *Duct, dx float64) func(pressure float64) float64 {
	f := s.twoPhase(d.Bore, s.T, gas.Atmosphere)
	both, share := f.Friction(), math.Min(d.Factor, 1)
	return func(pressure float64) float64 {
		f.GasDensity = s.Table.Rho(s.T, pressure)
		friction, _ := both.At(f.GasDensity)
		drop := share * friction * dx
		if d.Rise > 0 {
			drop += f.HeadPerMetre(f.DriftFlux()) * d.Rise / d.Length * dx
		}
		return drop
	}
}

func (s *State) twoPhase(bore, t, pressure float64) wet.Flow {
	return wet.NewFlow(s.Flow, s.Liquid, s.Table.Rho(t, pressure), s.Table.At(t).Viscosity, bore)
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
func (c Conditions) wall(p *Part, passage float64) func(gasK float64) wallState {
	s, d := &p.State, &p.Duct
	insulation, _ := d.Lagging.Insulation()
	w := loss.Wall{Bore: cmp.Or(d.Shell, d.Bore), Thickness: d.Wall, Conductivity: p.Material.Wall.Conductivity,
		Lagging: d.Lagging.Thickness, Insulation: insulation, Pulsation: c.Pulsation}
	if w.Lagging == 0 {
		w.Emissivity = p.Material.Wall.Emissivity
	}
	flux := s.Flow / fourpole.CircleArea(passage) // density times velocity
	guess := 0.0
	return func(t float64) wallState {
		n := s.Table.At(t)
		r := w.HeatFrom(gas.State{Temperature: t, Density: 1, Cp: n.cp, Viscosity: n.Viscosity, Conductivity: n.conductivity}, flux, c.Ambient, guess)
		guess = r.SkinTemperature
		s.Unsettled = math.Max(s.Unsettled, r.Unsettled)
		return wallState{r.PerMetre, r.WallTemperature, r.SkinTemperature}
	}
}

// Cites is where the loss of a part comes from.
func (p *Part) Cites(s *State, handbook bool) published.Cited {
	switch p.Kind {
	case DuctPart:
		by := frictionCited(handbook)
		if s.Liquid > 0 {
			return wetCited(p.Duct.Rise > 0)
		}
		if p.Duct.Note != "" {
			by.Formula += ", " + p.Duct.Note
		}
		if p.Duct.Factor == 0 {
			return published.Cited{}
		}
		return by
	case QuotePart:
		return QuotedDrop(p.Quote, s, s.Pressure).Cited
	}
	return p.Cited
}
