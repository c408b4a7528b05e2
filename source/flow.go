package source

import "fmt"

// gasRates is what goes through the engine at a duty.
type gasRates struct {
	fuel, air, exhaust float64 // kg/s
	airFuel            float64
	temperature        float64 // K
	boost              float64 // absolute intake pressure over ambient (turbocharged), else 1
}

// ratedRates fills the flow at rated power from what is stated; stated flow beats stated air-fuel
// ratio, and each default is listed.
//
//	m_fuel = P b ,  m = m_fuel (1 + AFR)
func (e Engine) ratedRates() (g gasRates, a []Assumption) {
	u := e.usual()
	note := func(field, value, why string, db float64) { a = append(a, *e.assume(field, value, why, db)) }
	b := e.FuelConsumption
	if b == 0 {
		b = u.consumption
		note("fuel_consumption", gramsPerKWh(b), u.kind+": "+usualSource, 0.5)
	}
	g.fuel = b * e.Rated.Power
	g.airFuel = e.AirFuelRatio
	switch {
	case e.Flow > 0:
		if g.airFuel == 0 {
			g.airFuel = e.Flow/g.fuel - 1
			note("exhaust.air_fuel_ratio", fmt.Sprintf("%.3g", g.airFuel), "from exhaust flow and fuel flow (derived)", 0)
		}
		g.exhaust = e.Flow
	case g.airFuel == 0:
		g.airFuel = u.airFuel
		note("exhaust.air_fuel_ratio", fmt.Sprintf("%.3g", g.airFuel), u.kind+": "+usualSource, 0.5)
		fallthrough
	default:
		g.exhaust = g.fuel * (1 + g.airFuel)
		note("exhaust.flow", massFlow(g.exhaust), "rated power x fuel consumption x (1 + air-fuel ratio)", 1)
	}
	g.air = g.exhaust - g.fuel
	g.temperature = e.Temperature
	if g.temperature == 0 {
		g.temperature = u.full
		note("exhaust.temperature", celsius(u.full), u.kind+": "+usualSource, 0.5)
	}
	g.boost = e.ratedBoost(g.air)
	return g, a
}

// ambientDensity is that of air at 25 °C and 101325 Pa, kg/m3.
const ambientDensity = 1.184

// ratedBoost is the absolute intake pressure over ambient that carries the air through the swept
// volume at 0.9 volumetric efficiency and 20 % charge heating (judgement); 1 when not boosted.
func (e Engine) ratedBoost(air float64) float64 {
	if asp := e.aspiration(); asp == Natural || asp == Blower && e.Stroke == TwoStroke {
		return 1
	}
	fill := air / e.cyclesPerSecond(e.Rated.Speed) / e.swept()
	if e.Stroke == TwoStroke {
		fill /= 1.5 // part of the air scavenges
	}
	return min(max(1.2*fill/(0.9*ambientDensity), 1.1), 4)
}

// frictionShare is the fuel that an engine burns idling at rated speed over the fuel at rated
// power (Willans line; judgement, after friction of 1.5 to 2 bar).
const frictionShare = 0.15

// ratesAt scales the rated flow to a duty. Fuel follows a Willans line whose idle share falls with
// speed; air of a blower or naturally aspirated engine follows speed, of a petrol engine the fuel,
// of a turbocharged one speed and boost, boost rising with power.
//
//	m_fuel = m_fuel,rated r [c r + (1-c) M] ,  r = n/n_rated, M = torque fraction
//	T = T_idle + (T_full - T_idle) M
func (e Engine) ratesAt(d Duty, rated gasRates) gasRates {
	r, load := d.Speed/e.Rated.Speed, e.LoadFraction(d)
	g := rated
	g.fuel = rated.fuel * r * (frictionShare*r + (1-frictionShare)*load)
	switch {
	case e.fuel() == Petrol:
		g.air = rated.air * g.fuel / rated.fuel
	case e.aspiration() == Turbocharged:
		g.boost = 1 + (rated.boost-1)*d.Power/e.Rated.Power
		g.air = rated.air * r * g.boost / rated.boost
	default:
		g.air = rated.air * r
	}
	if d == e.Rated {
		g.fuel, g.air = rated.fuel, rated.air
	}
	g.exhaust = g.fuel + g.air
	g.airFuel = g.air / g.fuel
	idle := min(e.usual().idle, rated.temperature)
	g.temperature = idle + (rated.temperature-idle)*load
	return g
}
