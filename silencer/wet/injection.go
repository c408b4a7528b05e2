package wet

import (
	"math"

	"hushwake/source/gas"
	"hushwake/source/said"
)

// Spray of an injection elbow, judgement, each within a factor of 1.6: water that enters at rest in gas of 20 to
// 40 m/s breaks up (Weber number 12) into drops of which a share flies before it is on the wall. A purpose-made
// spray head makes finer drops and takes more.
const (
	sprayedShare = 0.5    // of the water in the air
	sprayedSpeed = 0.3    // mean speed of drops over that of the gas
	sprayedSize  = 0.6e-3 // m, Sauter mean
	SprayLength  = 0.4    // m
	SprayFastest = 60.0   // m/s of gas, half as much again as the model is meant for
)

// SprayLoss is what the gas pays to bring the sprayed water (kg/s) up to speed, Pa: fs mw ud/S, from momentum. The
// velocity is in m/s, the bore in m.
func SprayLoss(water, gasVelocity, bore float64) float64 {
	return sprayedShare * water * sprayedSpeed * gasVelocity / area(bore)
}

// SprayResistance is that loss as a resistance to sound, Pa s/m: 2 dp/(U - ud/2). The velocity is in m/s.
func SprayResistance(loss, gasVelocity float64) float64 {
	if gasVelocity == 0 {
		return 0
	}
	return 2 * loss / (gasVelocity * (1 - sprayedSpeed/2))
}

// Spray is what flies behind the injection, with the loading fs (W/G)/(2 ud/U); cut says that the theory's 5 % by
// volume bound it.
func (f Flow) Spray() (drops []gas.Class, cut bool) {
	if f.Gas == 0 || f.Water == 0 {
		return nil, false
	}
	loading, most := sprayedShare*f.Water/f.Gas/(2*sprayedSpeed), gas.Dilute*f.WaterDensity/f.GasDensity
	return classes(math.Min(loading, 0.999*most), sprayedSize), loading > most
}

// Inject makes the heat balance of the injection and says what is odd about it.
func Inject(in gas.Injection) (gas.Injected, []Finding, error) {
	out, err := gas.Inject(in)
	if err != nil {
		return out, nil, err
	}
	return out, injectionFindings(in, out), nil
}

func injectionFindings(in gas.Injection, out gas.Injected) []Finding {
	ratio := in.WaterFlow / in.GasFlow
	switch {
	case in.WaterFlow > 0 && !out.Saturated:
		return []Finding{{Code: "WATER-BOILS-AWAY", Severity: Danger, Source: "heat balance with evaporation",
			Text:   said.Textf("all injected water evaporates and the gas stays at {%.0f °C}: hose burns", out.Temperature-gas.ZeroC),
			Action: "inject more water; a wet system carries some ten times the gas by mass"}}
	case in.WaterFlow > 0 && ratio < 1:
		return []Finding{{Code: "WATER-SCARCE", Severity: Warning, Source: "heat balance with evaporation",
			Text:   said.Textf("only %.2f kg of water per kg of gas: the temperature ({%.0f °C}) hardly shows it until the water fails, then it jumps", ratio, out.Temperature-gas.ZeroC),
			Action: "check the raw-water pump, strainer and elbow; a thermometer alone will not warn in time"}}
	}
	return nil
}
