package march

import (
	"cmp"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/wet"
	"hushwake/source/gas"
)

// Medium is the gas as the four-poles want it.
func (s *State) Medium() fourpole.Medium {
	n := s.Table.At(s.T)
	return fourpole.Medium{
		SoundSpeed: s.SoundSpeed(s.T), Density: s.Table.Rho(s.T, cmp.Or(s.Pressure, gas.Atmosphere)),
		Viscosity: n.Viscosity, Prandtl: n.Viscosity * n.cp / n.conductivity, Gamma: n.cp / (n.cp - s.Table.constant),
	}
}

// End is the gas of the state in an area.
func (s *State) End(area float64) fourpole.End {
	m := s.Medium()
	return fourpole.End{Medium: m, Area: area, Mach: s.Flow / (m.Density * area * m.SoundSpeed)}
}

// Mixture is the gas and water of a state in a bore.
func (s *State) Mixture(bore float64) wet.Flow {
	return s.twoPhase(bore, s.T, cmp.Or(s.Pressure, gas.Atmosphere))
}
