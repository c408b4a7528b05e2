package room

import (
	"fmt"
	"math"
)

// What an engine gives to the air round it.
const (
	radiatedShare   = 0.08 // of the fuel's heat: 0.06 to 0.10 reaches the air round the engine (read: up to 10 %, engine dealer's note)
	airCooledShare  = 0.25 // of the fuel's heat that an air-cooled engine gives to its cooling air beside that: 0.16 to 0.35 (Heywood, Internal Combustion Engine Fundamentals, table 12.1, from memory)
	alternatorLoss  = 0.14 // of the shaft power where the electrical power is not stated
	waterCooledPart = 0.1  // share of an alternator's losses that a water-cooled one still gives to the air (judgement)
)

// Heat is what one engine gives to the air round it.
type Heat struct {
	Stated         float64 // W; 0 = reckoned from the rest
	Fuel           float64 // W, heat in the fuel burnt
	Shaft          float64 // W at the crankshaft
	AirCooled      bool    // the engine itself
	Generator      bool
	GeneratorPower float64 // W electrical; 0 = not known
	WaterCooled    bool    // alternator cooled by water
	Exhaust        float64 // W from the parts of its exhaust in the box
	Combustion     float64 // m3/s of combustion air at the outside temperature
}

func (h Heat) check() error {
	return notNegative(map[string]float64{"heat": h.Stated, "fuel heat": h.Fuel, "heat of the exhaust": h.Exhaust, "combustion air": h.Combustion})
}

func notNegative(figures map[string]float64) error {
	for name, x := range figures {
		if !(x >= 0) || math.IsInf(x, 0) {
			return fmt.Errorf("%s of %g: it must not be negative", name, x)
		}
	}
	return nil
}

// Load is the heat to carry off in W with the way it was found.
func (h Heat) Load() (watts float64, text string) {
	if h.Stated > 0 {
		return h.Stated, "stated"
	}
	watts = radiatedShare * h.Fuel
	text = fmt.Sprintf("%.0f %% of the fuel's heat (6 to 10 %% is usual)", radiatedShare*100)
	if h.AirCooled {
		watts += airCooledShare * h.Fuel
		text += fmt.Sprintf(" and %.0f %% that cools the cylinders", airCooledShare*100)
	}
	if h.Generator {
		lost, how := h.alternator()
		watts, text = watts+lost, text+how
	}
	if h.Exhaust > 0 {
		watts, text = watts+h.Exhaust, text+" and what its exhaust gives off in the box"
	}
	return watts, text
}

// alternator is what the electrical end gives to the air, W.
func (h Heat) alternator() (lost float64, text string) {
	lost = alternatorLoss * h.Shaft
	if h.GeneratorPower > 0 && h.GeneratorPower < h.Shaft {
		lost = h.Shaft - h.GeneratorPower
	}
	if h.WaterCooled {
		return lost * waterCooledPart, " and a tenth of the alternator's losses, which is cooled by water"
	}
	return lost, " and the alternator's losses"
}
