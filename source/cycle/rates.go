package cycle

import "math"

// rates is the right-hand side: change of the vector per rad of crank,
//
//	dm/dt = m_in + m_fuel - m_out
//	dU/dt = Q_burn - Q_wall - p dV/dt + h_in m_in - h_out m_out
func (s *solver) rates(theta float64, y, d *vector) {
	c := &s.cyl
	travel, speed := c.travel(theta)
	bore := math.Pi / 4 * c.Bore * c.Bore
	s.volume = c.clearance() + bore*travel
	s.temperature = temperatureAt(y[energy] / y[mass])
	s.pressure = y[mass] * gasConstant * s.temperature / s.volume

	g := gammaAt(s.temperature)
	exhaust, intake := c.area(&c.Exhaust, theta, travel), c.area(&c.Intake, theta, travel)
	s.areaSum = exhaust + intake
	mOut, hOut := s.through(exhaust, s.run.ExhaustPressure, s.lineTemp, g)
	mBack, hBack := s.through(intake, s.box, s.boxTemp, g)
	s.flow = mOut

	rate, x := c.burned(theta)
	fuel := rate * s.fuel
	heat := fuel * s.burning * s.run.Fuel.HeatingValue
	loss := s.wallLoss(theta, x) / s.omega
	p := s.pressure * bore * speed

	d[out], d[in], d[burn] = mOut/s.omega, -mBack/s.omega, fuel
	d[heatOut], d[heatIn] = mOut*hOut/s.omega, -mBack*hBack/s.omega
	d[work], d[wall] = p, loss
	d[mass] = d[in] + fuel - d[out]
	d[energy] = heat - loss - p + d[heatIn] - d[heatOut]
}

// through is the mass flow out of the cylinder in kg/s (negative: into it) and the enthalpy it
// carries in J/kg, to or from a space at a pressure and temperature.
func (s *solver) through(area, outside, temperature, g float64) (flow, enthalpy float64) {
	switch {
	case area <= 0:
		return 0, 0
	case s.pressure >= outside:
		return orificeFlow(area, s.pressure, s.temperature, outside, g), enthalpyAt(s.temperature)
	}
	return -orificeFlow(area, outside, temperature, s.pressure, gammaAt(temperature)), enthalpyAt(temperature)
}

// wallLoss is the heat to the walls in W by Woschni's correlation,
//
//	h = 3.26 B^-0.2 p^0.8 T^-0.55 w^0.8 ,  p in kPa
//	w = 6.18 Sp with an opening open, else 2.28 Sp + 3.24e-3 (Vd Tr / pr Vr)(p - pm) while it burns
//
// Source: G. Woschni, SAE 670931 (1967), in the form of Heywood (1988) eq. 12.19, from memory.
func (s *solver) wallLoss(theta, burned float64) float64 {
	w := 2.28 * s.pistonSpeed
	if s.areaSum > 0 {
		w = 6.18 * s.pistonSpeed
	} else if burned > 0 && burned < 1 || s.afterBurn(theta) {
		motored := s.refP * math.Exp(1.33*math.Log(s.refV/s.volume))
		w += 3.24e-3 * s.cyl.Swept() * s.refT / (s.refP * s.refV) * math.Max(s.pressure-motored, 0)
	}
	h := 3.26 * s.bore02 * math.Exp(0.8*math.Log(s.pressure/1e3*w)-0.55*math.Log(s.temperature))
	area := math.Pi/2*s.cyl.Bore*s.cyl.Bore + 4*s.volume/s.cyl.Bore
	return h * area * (s.temperature - s.cyl.Wall)
}

// afterBurn tells the expansion stroke after the fuel has burned.
func (s *solver) afterBurn(theta float64) bool {
	return since(theta-s.cyl.Burn.Start, s.cyl.Period()) < math.Pi
}
