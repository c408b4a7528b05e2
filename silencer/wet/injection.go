package wet

import (
	"fmt"

	"hushwake/source/gas"
)

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
			Text:   fmt.Sprintf("all injected water evaporates and the gas stays at %.0f C: hose burns", out.Temperature-gas.ZeroC),
			Action: "inject more water; a wet system carries some ten times the gas by mass"}}
	case in.WaterFlow > 0 && ratio < 1:
		return []Finding{{Code: "WATER-SCARCE", Severity: Warning, Source: "heat balance with evaporation",
			Text:   fmt.Sprintf("only %.2f kg of water per kg of gas: the temperature (%.0f C) hardly shows it until the water fails, then it jumps", ratio, out.Temperature-gas.ZeroC),
			Action: "check the raw-water pump, strainer and elbow; a thermometer alone will not warn in time"}}
	}
	return nil
}
