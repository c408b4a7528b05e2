package wet

import (
	"fmt"
	"math"

	"hushwake/source/said"
)

// Ratings of exhaust hose, K.
const (
	hoseOrdinary = 373.15 // about 100 C, owners' reports
	hoseEPDM     = 394.15 // 121 C, trade text, read
	HoseSilicone = 533.15 // 260 C, trade text, read
)

// Hose is a rubber hose in the exhaust.
type Hose struct {
	Rating   float64 // K; 0 = not stated
	Gas      float64 // K, hottest gas in running with water
	DryGas   float64 // K, gas that reaches it when the water stops; 0 = unknown
	Velocity float64 // m/s of the gas
	Injected bool    // water was put in before it
}

// Findings says whether the hose stands the heat, with water and without.
func (h Hose) Findings() []Finding {
	rating, stated := h.Rating, h.Rating > 0
	if !stated {
		rating = hoseOrdinary
	}
	all := h.heat(rating, stated)
	if h.Gas <= rating && h.Injected {
		all = append(all, h.stops(rating)...)
	}
	if h.Velocity > 40 {
		all = append(all, Finding{Code: "HOSE-FAST", Severity: Caution, Source: said.Textf("practice: {14 to 31 m/s} in factory hose sizes"),
			Text:   said.Textf("the gas runs at {%.0f m/s} in the hose: loud, and dear in back pressure", h.Velocity),
			Action: "take a wider hose"})
	}
	return all
}

func (h Hose) heat(rating float64, stated bool) []Finding {
	if h.Gas <= rating {
		if !stated {
			return []Finding{{Code: "HOSE-RATING-UNKNOWN", Severity: Caution, Source: said.Textf("hose makers' ratings run from {100 to 260 °C}"),
				Text:   said.Textf("the hose's rating is not stated; it sees {%.0f °C} with water and is taken as good for {100 °C}", h.Gas-273.15),
				Action: "read the rating on the hose; it must be wet-exhaust hose to SAE J2006 or ISO 13363"}}
		}
		return nil
	}
	f := Finding{Code: "HOSE-TOO-HOT", Severity: Danger, Refuse: true, Source: "hose rating against the gas temperature",
		Text:   said.Textf("gas of {%.0f °C} meets a hose good for {%.0f °C}: it burns through", h.Gas-273.15, rating-273.15),
		Action: "inject water before the hose, or more of it, or use metal pipe"}
	if !stated {
		f.Text += " (rating not stated, ordinary hose assumed)"
	}
	return []Finding{f}
}

func (h Hose) stops(rating float64) []Finding {
	if h.DryGas <= rating {
		return nil
	}
	return []Finding{{Code: "WATER-STOPS", Severity: Warning, Source: said.Textf("gas temperature without injection; alarm setting {75 to 93 °C} from memory"),
		Text:   said.Textf("if the raw water stops, gas of {%.0f °C} reaches a hose good for {%.0f °C} within seconds: fire, smoke and flooding", h.DryGas-273.15, rating-273.15),
		Action: said.Textf("fit an alarm on the hose or elbow set to {75 to 93 °C}, and stop the engine at once")}}
}

// rawWaterDefault is the raw water per power where nothing is known, m3/J: 1 L/min per kW.
const rawWaterDefault = 1e-3 / 60 / 1e3

// RawWater checks the raw-water flow (m3/s) against the power (W): 0.4 to 2.5 L/min per kW is plausible
// (heat-exchanger engines 0.87 to 0.94, read; small auxiliaries 1 to 2, from memory).
func RawWater(flow, power float64) []Finding {
	if !(power > 0) {
		return nil
	}
	per := flow / power / rawWaterDefault
	f := Finding{Severity: Warning, Source: "raw-water figures of engine makers: 36 to 39 L/min per 100 bhp direct, 65 to 70 with heat exchanger",
		Action: "check the flow in L/min with a bucket and a watch"}
	switch {
	case flow <= 0:
		return []Finding{{Code: "RAW-WATER-NONE", Severity: Danger, Source: f.Source, Text: "no water is injected: the hose sees dry gas", Action: "state the raw-water flow"}}
	case per < 0.4:
		f.Code, f.Text = "RAW-WATER-LOW", fmt.Sprintf("%.2f L/min of raw water per kW is little; about 1 is usual", per)
	case per > 2.5:
		f.Code, f.Text = "RAW-WATER-HIGH", fmt.Sprintf("%.1f L/min of raw water per kW is much; about 1 is usual", per)
	default:
		return nil
	}
	return []Finding{f}
}

// Separator parts gas from water.
type Separator struct {
	Bore, Height, DrainBore float64 // m
}

// soudersBrown is the gas velocity above which a separator without mesh carries drops over, m/s:
//
//	v = 0.05 sqrt((rl - rg)/rg)
//
// (Souders and Brown 1934; 0.05 m/s for a plain vessel, from memory). Both densities are in kg/m3.
func soudersBrown(gasDensity, waterDensity float64) float64 {
	if !(gasDensity > 0) || waterDensity <= gasDensity {
		return 0
	}
	return 0.05 * math.Sqrt((waterDensity-gasDensity)/gasDensity)
}

// Findings checks a separator for carry-over and its drain. Gas volume flow and water volume flow in m3/s. The density
// is in kg/m3.
func (s Separator) Findings(gasFlow, gasDensity, waterFlow float64) []Finding {
	var all []Finding
	if s.Bore > 0 {
		v, limit := gasFlow/area(s.Bore), soudersBrown(gasDensity, WaterDensity)
		if v > limit {
			all = append(all, Finding{Code: "SEPARATOR-CARRIES-OVER", Severity: Caution, Source: "Souders and Brown 1934, constant from memory",
				Text:   said.Textf("gas rises at {%.1f m/s} in the separator; above {%.1f m/s} it takes drops along to the dry outlet", v, limit),
				Action: "a wider separator, or a tangential inlet"})
		}
	}
	if s.DrainBore > 0 && s.Height > 0 {
		full := 0.6 * area(s.DrainBore) * math.Sqrt(2*gravity*s.Height/2)
		if waterFlow > full {
			all = append(all, Finding{Code: "SEPARATOR-DRAIN-SMALL", Severity: Danger, Refuse: true, Source: "outflow of an orifice under half the height, coefficient 0.6",
				Text:   fmt.Sprintf("the drain passes %.0f L/min with the separator half full, and %.0f L/min run in: it fills", full*6e4, waterFlow*6e4),
				Action: "a wider drain, falling all the way"})
		}
	}
	return all
}
