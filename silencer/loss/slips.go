package loss

import (
	"fmt"
	"math"

	"hushwake/source/said"
)

// Slip is a value that looks like a known mistake.
type Slip struct {
	Code, Text, Action, Source string
}

// Mercury over water: the ratio of the two gauge units that are mixed up.
const mercuryOverWater = 13.595

// pressureSlip compares an entered pressure (Pa) with a plausible range (Pa): a value outside it that
// falls inside after a factor of 13.6 looks like inches of mercury taken for inches of water or the other way.
func pressureSlip(what string, entered, low, high float64) *Slip {
	if !(entered > 0) || entered >= low && entered <= high {
		return nil
	}
	s := &Slip{Code: "PRESSURE-UNIT", Source: "1 inHg = 13.6 inH2O", Action: "look the unit up on the sheet: inH2O (inches of water), inHg (inches of mercury), kPa or mbar"}
	switch up, down := entered*mercuryOverWater, entered/mercuryOverWater; {
	case up >= low && up <= high:
		s.Text = said.Textf("%s of {%.2f kPa} is too small to be likely; read as inches of mercury instead of water it would be {%.1f kPa}", what, entered/1e3, up/1e3)
	case down >= low && down <= high:
		s.Text = said.Textf("%s of {%.1f kPa} is too large to be likely; read as inches of water instead of mercury it would be {%.2f kPa}", what, entered/1e3, down/1e3)
	default:
		return nil
	}
	return s
}

// LimitSlip is pressureSlip for a back-pressure limit of an engine: 2.4 to 25 kPa is plausible (makers' manuals
// print 4.9 to 15 kPa).
func LimitSlip(limit float64) *Slip { return pressureSlip("a back-pressure limit", limit, 2.4e3, 25e3) }

// DropSlip is pressureSlip for a silencer's quoted loss, against K of 0.15 to 12 velocity heads at the duty's density
// and velocity in its pipe. The drop is in Pa, the density in kg/m3, the velocity in m/s.
func DropSlip(drop, density, velocity float64) *Slip {
	head := density * velocity * velocity / 2
	return pressureSlip("a silencer loss", drop, 0.15*head, 12*head)
}

// FlowSlip compares the exhaust flow (kg/s) with the power (W): 5.0 to 8.5 kg/kWh is usual for a
// four-stroke, 8.5 to 14 for a blower-scavenged two-stroke, which blows scavenge air through (derived from
// fuel consumption and air-fuel ratio; a 2.1 MW set gave 7.6).
func FlowSlip(flow, power float64, blowerTwoStroke bool) *Slip {
	if !(flow > 0 && power > 0) {
		return nil
	}
	specific := flow / power * 3.6e6
	s := &Slip{Code: "FLOW-UNLIKELY", Source: "flow = fuel x (1 + air-fuel ratio) from specific consumption", Action: "check exhaust flow, power and gas temperature on the engine's sheet"}
	switch {
	case blowerTwoStroke && specific < 8.5:
		s.Code = "FLOW-OF-A-FOUR-STROKE"
		s.Text = fmt.Sprintf("%.1f kg of exhaust per kWh is what a four-stroke gives; a blower-scavenged two-stroke passes about 10, so that back pressure would come out too low", specific)
	case !blowerTwoStroke && specific > 9.5:
		s.Text = fmt.Sprintf("%.1f kg of exhaust per kWh is much for a four-stroke (about 5 to 8.5)", specific)
	case specific < 4.2 || specific > 16:
		s.Text = fmt.Sprintf("%.1f kg of exhaust per kWh is not likely for any engine (5 to 14)", specific)
	default:
		return nil
	}
	return s
}

// DensitySlip compares a density (kg/m3) with that of exhaust gas at the temperature (K) and pressure (Pa) it
// is used for; more than 8 % off looks like the density of another temperature.
func DensitySlip(density, temperature, pressure float64) *Slip {
	if !(density > 0 && temperature > 0 && pressure > 0) {
		return nil
	}
	right := densityConstant / temperature * pressure / 101325
	if math.Abs(density/right-1) <= 0.08 {
		return nil
	}
	other := densityConstant / density * pressure / 101325
	return &Slip{Code: "DENSITY-OF-ANOTHER-TEMPERATURE", Source: "rho = 353.4 (p/101325)/T, ideal gas", Action: "give mass flow, or volume flow with the temperature it holds at",
		Text: said.Textf("flow and density belong to gas at {%.0f °C}, not {%.0f °C}: density {%.3f kg/m3} where the gas has %.3f", other-273.15, temperature-273.15, density, right)}
}
