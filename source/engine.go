// Package source models an engine at a duty: firing frequency, orders, exhaust and casing sound
// power by octave band, exhaust flow and temperature. It knows nothing of pipes or rooms.
package source

import (
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Stroke is the working cycle of an engine.
type Stroke int

// Working cycles.
const (
	TwoStroke Stroke = iota + 1
	FourStroke
)

// Arrangement is how the cylinders stand.
type Arrangement int

// Arrangements of cylinders.
const (
	Inline Arrangement = iota + 1
	Vee
)

// Aspiration is how air gets into the cylinders.
type Aspiration int

// Ways of aspiration.
const (
	Natural Aspiration = iota + 1
	Turbocharged
	Blower
)

// Load is the law by which torque follows speed.
type Load int

// Load laws.
const (
	Propeller     Load = iota + 1 // power proportional to a power of speed, see Exponent
	ConstantSpeed                 // a generator
)

// Fuel names the fuel.
type Fuel int

// Fuels.
const (
	Diesel Fuel = iota + 1
	Petrol
	NaturalGas
)

// Density of the fuel in kg/m3: common practice, no source (diesel from memory, 820 to 860). Gas isn't sold by volume: 0.
func (f Fuel) Density() float64 {
	switch f {
	case Petrol:
		return 745
	case NaturalGas:
		return 0
	}
	return 840
}

// Duty is a power at a speed.
type Duty struct {
	Power float64 // W at the crankshaft
	Speed float64 // rpm
}

// Generator is the electrical end of a set.
type Generator struct {
	Power       float64 // W, electrical
	WaterCooled bool
}

// Engine is an engine as the owner knows it. Zero in an optional field means "not stated":
// the package fills a default and lists it.
type Engine struct {
	Name         string
	Stroke       Stroke
	Cylinders    int
	Arrangement  Arrangement // default Inline
	Aspiration   Aspiration  // default Natural (four-stroke), Blower (two-stroke)
	Displacement float64     // m3, all cylinders; 0 = not stated
	Bore         float64     // m; 0 = not stated
	Piston       float64     // m, stroke of the piston; 0 = not stated
	Rated        Duty
	Running      Duty // zero: default by Load; see Stopped
	Stopped      bool
	Load         Load    // default Propeller; ConstantSpeed with a Generator
	Exponent     float64 // of power over speed on the propeller law; 0 = 3
	Fuel         Fuel    // default Diesel

	Flow            float64 // kg/s of exhaust at rated; 0 = not stated
	Temperature     float64 // K of exhaust at rated; 0 = not stated
	AirFuelRatio    float64 // overall, scavenge air included; 0 = not stated
	FuelConsumption float64 // kg/J at rated (250 g/kWh = 6.94e-8); 0 = not stated

	FiringOrder  []int     // cylinder numbers; nil = the usual order
	FiringAngles []float64 // rad of crank, when each of FiringOrder fires; nil = even, or by BankAngle
	BankAngle    float64   // rad, vee; 0 = not stated
	Banks        int       // number of banks with a pipe each; 0 or 1 = one common outlet
	Scatter      *float64  // relative rms difference between cylinders; nil = default
	Generator    *Generator

	ExhaustLevel *spectrum.Bands // measured unsilenced exhaust sound power, dB re 1 pW
	CasingLevel  *spectrum.Bands // measured casing sound power, dB re 1 pW
	MeasuredAt   Duty            // at which they and what the feet do were; zero = at running
}

// Assumption is a value the program filled in.
type Assumption struct {
	Of          string // exact path of what it belongs to, such as "partitions.hatch"; "" = nobody asks
	Field       string
	Value       string
	Source      string
	PlusMinusDB float64 // what not knowing it adds to the level, dB
}

// Term is one step of a level: a level for the first, a gain for those that follow, so that the
// terms add up to the part's bands.
type Term struct {
	Name string
	published.Cited
	Bands spectrum.Bands
}

// Part is one emitter's sound power with the way it was found.
type Part struct {
	Bands spectrum.Bands // dB re 1 pW
	published.Cited
	SD    spectrum.Bands // standard deviation of its level, dB
	Terms []Term         // how Bands came about
}

// Result is an engine at a duty. With banks on separate pipes Exhaust, Orders, Broadband, PipeFlow and
// FiringFrequency are those of one pipe, of which there are Pipes; all else is of the whole engine.
type Result struct {
	Duty            Duty
	Load            float64 // torque as a fraction of the rated torque
	Pipes           Pipes   // 1 unless banks have their own
	FiringFrequency PipeFiring
	CycleFrequency  float64 // Hz
	Exhaust         PipePart
	Casing          Part
	Intake          *Part // nil: inside the casing value
	Alternator      *Part // nil: no generator
	Orders          []PipeOrder
	Swing           float64        // volume velocity of the firing order at the valves, amplitude over mean flow
	Broadband       spectrum.Bands // dB, the share of Exhaust.Bands that does not sit on orders
	EngineFlow      EngineFlow     // of exhaust, all pipes together
	PipeFlow        PipeFlow       // of exhaust
	Temperature     float64        // K of exhaust at the manifold or turbine outlet
	AirFuelRatio    float64
	FuelFlow        EngineFlow
	FuelDensity     float64 // kg/m3; 0 = not sold by volume
	Assumptions     []Assumption
	Warnings        []string
}
