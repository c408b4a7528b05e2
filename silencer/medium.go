package silencer

import (
	"cmp"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/wet"
	"hushwake/source/gas"
)

// medium is the gas as the four-poles want it.
func (s *state) medium() fourpole.Medium {
	n := s.table.at(s.t)
	return fourpole.Medium{
		SoundSpeed: s.soundSpeed(s.t), Density: s.table.rho(s.t, cmp.Or(s.pressure, gas.Atmosphere)),
		Viscosity: n.viscosity, Prandtl: n.viscosity * n.cp / n.conductivity, Gamma: n.cp / (n.cp - s.table.constant),
	}
}

// end is the gas of the state in an area.
func (s *state) end(area float64) fourpole.End {
	m := s.medium()
	return fourpole.End{Medium: m, Area: area, Mach: s.flow / (m.Density * area * m.SoundSpeed)}
}

// mixture is the gas and water of a state in a bore.
func (s *state) mixture(bore float64) wet.Flow {
	return s.twoPhase(bore, s.t, cmp.Or(s.pressure, gas.Atmosphere))
}
