package room

// Fan is a fan with one duty point.
type Fan struct{ Flow, Pressure float64 } // m3/s, Pa; Pressure 0 = not stated

// Heat is what an engine gives to the air round it.
type Heat struct {
	Stated         float64 // W; 0 = reckoned from the rest
	Fuel           float64 // W, heat in the fuel burnt
	Shaft          float64 // W at the crankshaft
	Generator      bool
	GeneratorPower float64 // W electrical; 0 = Shaft less losses
	WaterCooled    bool    // alternator or jacket cooled by water: gives little to the air
	Combustion     float64 // m3/s of combustion air at the outside temperature
}

// Ventilation is what ventilates a box or a space.
type Ventilation struct {
	Openings    []Opening
	Fan         *Fan
	OwnAirPipe  bool
	Heat        Heat
	Outside     float64 // K; 0 = 300
	Pressure    float64 // Pa; 0 = 101325
	AllowedRise float64 // K; 0 = 15
	Height      float64 // m from inlet to outlet, for the draught; 0 = 0.5
}

// Verdict is one finding on the air.
type Verdict struct{ Code, Text string } // starved | cooked | ok

// Stopped is the box with its fan out of action.
type Stopped struct {
	Rise float64 // K
	Text string
}

// Air is how a box breathes.
type Air struct {
	Heat             float64 // W to carry off
	HeatText         string
	CombustionAir    float64 // m3/s
	CoolingAir       float64 // m3/s needed at the allowed rise
	Needed           float64 // m3/s, both together through the inlet
	Flow             float64 // m3/s that passes the inlet
	InletArea        float64 // m2
	OutletArea       float64 // m2
	InletAreaNeeded  float64 // m2
	OutletAreaNeeded float64 // m2
	InletVelocity    float64 // m/s
	PressureDrop     float64 // Pa, inlet with its duct
	FanPressure      float64 // Pa, needed for the flow needed; 0 = no fan needed
	Rise             float64 // K
	Verdicts         []Verdict
	FanStopped       *Stopped // nil = no fan
	Formula, Source  string
	Mark             string
	Warnings         []string
}

// Ventilate gives flow, temperature rise and verdicts of a box.
func Ventilate(v Ventilation) (Air, error) { return Air{}, nil }
