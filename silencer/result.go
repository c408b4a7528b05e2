package silencer

import (
	"hushwake/silencer/weigh"
	"hushwake/source"
	"hushwake/source/gas"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Options steer a calculation.
type Options struct {
	Walls       string  // viscothermal (default) | lossless
	Corrections string  // full (default) | none
	Method      string  // "" (modes where every part is centred) | modes | plane
	Friction    string  // colebrook (default) | handbook
	Ceiling     bool    // limit the loss above a chamber's first cross mode (layouts, not the bench)
	Step        float64 // m, largest step of the march; 0 = 0.01
	Rational    bool    // Solve and Curve take modes at some frequencies and rational functions between them, to 0.01 dB
}

// Feed is what enters the line.
type Feed struct {
	Gas         gas.Gas
	MassFlow    source.PipeFlow
	Temperature float64 // K at the inlet
	Ambient     float64 // K of the air round it
	Lines       []SourceLine
	Broadband   spectrum.Bands    // dB, source energy that does not sit on lines
	RatedDBA    float64           // dB(A) re 1 pW of the unsilenced source at rated, for promised levels; 0 = that of this duty
	RatedFlow   source.PipeFlow   // for cautions; 0 = unknown
	Isothermal  bool              // bench: no heat loss, one temperature throughout
	Pulsation   float64           // factor on the inside heat transfer by pulsating flow (1.5 to 2, from memory); 0 = 1, steady flow
	WaterShare  float64           // share of the stated injection water that flows at this duty; 0 = all
	Firing      source.PipeFiring // 0 = unknown
	Swing       float64           // volume velocity of the firing order at the valves, amplitude over mean; 0 = unknown
}

// SourceLine is one tone of the source.
type SourceLine = source.PipeOrder

func (f *Feed) source() weigh.Source { return weigh.Source{Lines: f.Lines, Broadband: f.Broadband} }

// Row is one element of a marched line as it is printed.
type Row struct {
	Name            string
	Kind            string
	Index           int     // 1-based place in the line; 0 = implied step or outlet
	PressureLoss    float64 // Pa
	GasTemperature  float64 // K at its outlet
	SkinTemperature float64 // K, hottest outer surface (lagging outside where lagged)
	WallTemperature float64 // K, metal
	Velocity        float64 // m/s, highest mean gas velocity
	Mach            float64 // highest mean Mach number
	Growth          float64 // m
	HeatLoss        float64 // W to the space it stands in
	In              string
	Length          float64 // m
	OuterSize       float64 // m over lagging
	Mass            *float64
	Bore            float64 // m, at its inlet
	Wet             bool    // gas with water in it at its outlet
	published.Cited         // of the pressure loss
	CutOn           float64 // Hz of the first cross mode that matters; 0 = none
	Method          string  // modes | plane | "" for rows without acoustics
	Branches        []Row   // of a parallel part: the rows of its branches, one after the other
	Branch          int     // 1-based branch that it lies in, Index being the place of the parallel part; 0 = none
	Share           float64 // of the line's gas that passes it, in a branch; 0 = all
}

// Each visits the rows of all elements; those in branches stand in for the parallel part that holds them.
func (m Marched) Each(f func(Row)) { eachRow(m.Rows, f) }

func eachRow(rows []Row, f func(Row)) {
	for _, r := range rows {
		if len(r.Branches) > 0 {
			eachRow(r.Branches, f)
			continue
		}
		f(r)
	}
}

// Marched is a line at a duty.
type Marched struct {
	Rows              []Row
	BackPressure      float64 // Pa at the inlet
	OutletTemperature float64 // K
	OutletVelocity    float64 // m/s
	OutletGas         gas.State
	OutletBore        float64         // m
	Length            float64         // m along the line
	Mass              *float64        // kg; nil if any part's is unknown
	MassFlow          source.PipeFlow // of gas at the inlet
	InletTemperature  float64         // K
	HeatLoss          float64         // W through the walls, whole line
	EnergyResidual    float64         // heat balance error over the heat carried in
	Warnings          []string
}

// Acoustics is what a line does to the sound.
type Acoustics struct {
	TransmissionLoss spectrum.Bands  // dB, weighted with the source's lines and broadband
	InsertionLoss    spectrum.Bands  // dB against the plain-pipe reference
	BroadbandLoss    spectrum.Bands  // dB, insertion loss of the broadband part, even over each octave
	LineLoss         []float64       // dB, insertion loss of each of Feed.Lines at its own frequency
	SelfNoise        spectrum.Bands  // dB re 1 pW at the outlet, floor
	ImpedanceSD      spectrum.Bands  // dB, spread of the insertion loss between three source impedances
	Doubts           []Doubt         // what makes the insertion loss uncertain
	published.Cited                  // of the loss
	Noise            published.Cited // of the self-noise
	Warnings         []string
	Notes            []string // how elements were treated
}

// Curve is a loss over frequency.
type Curve struct {
	Frequency        []float64 // Hz
	TransmissionLoss []float64 // dB; NaN where there is none (printers turn it into null)
	InsertionLoss    []float64 // dB; NaN without an outlet
	NoiseReduction   []float64 // dB, sound pressure at the inlet over that at the outlet; NaN without an outlet
	Method           string
	Warnings         []string
}

// Shell is what one element's wall gives off into the space it stands in.
type Shell struct {
	Element, In string
	Bands       spectrum.Bands // dB re 1 pW
	published.Cited
	Doubt Doubt
}
