package source

// usual holds what engines of a kind do at rated power when the owner does not know. Ranges are
// from memory (J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, and engine data
// sheets); the value inside the range is ours.
type usual struct {
	kind        string
	consumption float64 // kg/J
	airFuel     float64 // kg/kg, scavenge air included
	full, idle  float64 // K in the pipe at full torque and at none
	heatShare   float64 // sensible exhaust heat over fuel heat at rated
}

const usualSource = "usual for the kind, from memory (Heywood 1988 and engine data sheets)"

func per(gkWh float64) float64 { return gkWh / 3.6e9 }

func (e Engine) usual() usual {
	asp := e.aspiration()
	switch {
	case e.Stroke == TwoStroke && asp == Turbocharged:
		return usual{"turbocharged two-stroke", per(225), 36, 633, 403, 0.36}
	case e.Stroke == TwoStroke:
		return usual{"blower-scavenged two-stroke", per(250), 40, 653, 398, 0.37}
	case e.fuel() == Petrol:
		return usual{"petrol four-stroke", per(300), 13.5, 923, 623, 0.31}
	case e.fuel() == NaturalGas:
		return usual{"gas four-stroke", per(215), 20, 823, 573, 0.31}
	case asp != Natural:
		return usual{"turbocharged four-stroke", per(215), 28, 703, 408, 0.30}
	case e.Rated.Power < 15e3:
		return usual{"small naturally aspirated four-stroke", per(280), 24, 703, 413, 0.28}
	}
	return usual{"naturally aspirated four-stroke", per(250), 22, 793, 413, 0.30}
}
