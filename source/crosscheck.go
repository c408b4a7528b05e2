package source

import (
	"fmt"

	"hushwake/source/gas"
)

// Bounds within which stated flow, air, temperature and fuel are taken to agree.
const agreeLow, agreeHigh = 0.8, 1.25

func disagree(r float64) bool { return r < agreeLow || r > agreeHigh }

// crossCheck warns when the figures an owner entered cannot all be true.
func (e Engine) crossCheck(rated gasRates) (w []string) {
	if g := (gas.Gas{Kind: gas.Exhaust, AirFuelRatio: rated.airFuel}); g.Rich() {
		w = append(w, fmt.Sprintf("air-fuel ratio %.3g is rich: the gas model burns lean, so density and speed of sound are those of %.1f, up to 5 %% off; such gas holds per cents of carbon monoxide", rated.airFuel, gas.StoichiometricAirFuelRatio))
	}
	w = append(w, e.flowAgainstFuel(rated)...)
	return append(w, e.heatAgainstFuel(rated)...)
}

// flowAgainstFuel compares a stated flow with stated fuel and air, or with what the kind usually passes.
func (e Engine) flowAgainstFuel(rated gasRates) []string {
	u := e.usual()
	if e.Flow > 0 {
		air, what := e.AirFuelRatio, "stated air-fuel ratio"
		if air == 0 {
			air, what = u.airFuel, "air-fuel ratio usual for a "+u.kind
		}
		ratio := e.Flow / (rated.fuel * (1 + air))
		if !disagree(ratio) {
			return nil
		}
		if e.looksFourStroke(rated) {
			return []string{fmt.Sprintf("exhaust flow %s is what a four-stroke of this power passes; a blower-scavenged two-stroke also passes its scavenge air, about %s: back pressure would be underestimated",
				massFlow(e.Flow), massFlow(rated.fuel*(1+u.airFuel)))}
		}
		return []string{fmt.Sprintf("exhaust flow %s is %.2f times what fuel and the %s give (%s): one of them is wrong; the stated flow is used",
			massFlow(e.Flow), ratio, what, massFlow(rated.fuel*(1+air)))}
	}
	if e.AirFuelRatio > 0 {
		return e.airAgainstKind(u)
	}
	return nil
}

func (e Engine) airAgainstKind(u usual) []string {
	if e.aspiration() == Blower && e.Stroke == TwoStroke && e.AirFuelRatio < agreeLow*u.airFuel {
		return []string{fmt.Sprintf("air-fuel ratio %.3g is that of a four-stroke; a blower-scavenged two-stroke passes scavenge air too, about %.3g: flow and back pressure would be underestimated", e.AirFuelRatio, u.airFuel)}
	}
	if r := e.AirFuelRatio / u.airFuel; r < 0.6 || r > 1.7 {
		return []string{fmt.Sprintf("air-fuel ratio %.3g is unusual for a %s (about %.3g)", e.AirFuelRatio, u.kind, u.airFuel)}
	}
	return nil
}

// looksFourStroke tells the flow of a two-stroke that was sized by a four-stroke's air.
func (e Engine) looksFourStroke(rated gasRates) bool {
	air := e.Flow/rated.fuel - 1
	return e.Stroke == TwoStroke && air < agreeLow*e.usual().airFuel && air > 15
}

// heatAgainstFuel compares the sensible heat in the exhaust with the share of fuel heat usual for the
// kind: about 30 % for four-strokes, 37 % with scavenge air (derived).
func (e Engine) heatAgainstFuel(rated gasRates) []string {
	if e.Temperature == 0 {
		return nil
	}
	g := gas.Gas{Kind: gas.Exhaust, AirFuelRatio: max(rated.airFuel, 15)}
	heat := rated.exhaust * (g.Enthalpy(rated.temperature) - g.Enthalpy(298.15))
	share, usual := heat/(rated.fuel*e.HeatingValue()), e.usual().heatShare
	if !disagree(share / usual) {
		return nil
	}
	if r := rated.fuel * e.HeatingValue(); heat+e.Rated.Power > r {
		return []string{fmt.Sprintf("exhaust heat %s and power %s exceed the heat of the fuel, %s: check flow, temperature and fuel consumption", kilowatts(heat), kilowatts(e.Rated.Power), kilowatts(r))}
	}
	return []string{fmt.Sprintf("exhaust flow %s at %s carries %.0f %% of the fuel's heat; %.0f %% is usual for a %s: check flow, temperature and fuel consumption",
		massFlow(rated.exhaust), celsius(rated.temperature), 100*share, 100*usual, e.usual().kind)}
}
