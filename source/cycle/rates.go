package cycle

import "math"

// rates is the right-hand side: change of the vector per rad of crank,
//
//	dm/dt = m_in + m_fuel - m_out
//	dU/dt = Q_burn - Q_wall - p dV/dt + h_in m_in - h_out m_out
func (s *solver) rates(at *station, y, d *balance) {
	s.temperature = temperatureAt(y[energy] / y[mass])
	s.pressure = y[mass] * gasConstant * s.temperature / at.volume
	mOut, hOut := s.through(at.exhaust, &s.line)
	mBack, hBack := s.through(at.intake, &s.charge)
	s.flow = mOut

	fuel := at.rate * s.fuel
	heat := fuel * s.burning * s.run.Fuel.HeatingValue
	loss := s.wallLoss(at) / s.omega
	p := s.pressure * s.cyl.piston() * at.speed

	d[out], d[in], d[burn] = mOut/s.omega, -mBack/s.omega, fuel
	d[heatOut], d[heatIn] = mOut*hOut/s.omega, -mBack*hBack/s.omega
	d[work], d[wall] = p, loss
	d[mass] = d[in] + fuel - d[out]
	d[energy] = heat - loss - p + d[heatIn] - d[heatOut]
}

// space is gas outside the cylinder: Pa, K, its ratio of specific heats and its enthalpy in J/kg.
type space struct{ pressure, temperature, gamma, enthalpy float64 }

func spaceAt(pressure, temperature float64) space {
	return space{pressure, temperature, gammaAt(temperature), enthalpyAt(temperature)}
}

// through is the mass flow out of the cylinder in kg/s (negative: into it) and the enthalpy it
// carries in J/kg, to or from a space.
func (s *solver) through(area float64, o *space) (flow, enthalpy float64) {
	switch {
	case area <= 0:
		return 0, 0
	case s.pressure >= o.pressure:
		return orificeFlow(area, s.pressure, s.temperature, o.pressure, gammaAt(s.temperature)), enthalpyAt(s.temperature)
	}
	return -orificeFlow(area, o.pressure, o.temperature, s.pressure, o.gamma), o.enthalpy
}

// wallLoss is the heat to the walls in W by Woschni's correlation,
//
//	h = 3.26 B^-0.2 p^0.8 T^-0.55 w^0.8 ,  p in kPa
//	w = 6.18 Sp with an opening open, else 2.28 Sp + 3.24e-3 (Vd Tr / pr Vr)(p - pm) while it burns
//
// Source: G. Woschni, SAE 670931 (1967), in the form of Heywood (1988) eq. 12.19, from memory.
func (s *solver) wallLoss(at *station) float64 {
	w := 2.28 * s.pistonSpeed
	if at.exhaust+at.intake > 0 {
		w = 6.18 * s.pistonSpeed
	} else if at.fired {
		motored := s.refP * math.Exp(1.33*math.Log(s.refV/at.volume))
		w += 3.24e-3 * s.cyl.Swept() * s.refT / (s.refP * s.refV) * math.Max(s.pressure-motored, 0)
	}
	h := 3.26 * s.bore02 * math.Exp(0.8*math.Log(s.pressure/1e3*w)-0.55*math.Log(s.temperature))
	area := math.Pi/2*s.cyl.Bore*s.cyl.Bore + 4*at.volume/s.cyl.Bore
	return h * area * (s.temperature - s.cyl.Wall)
}
