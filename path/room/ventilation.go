package room

import (
	"fmt"
	"math"
	"slices"

	"hushwake/source/published"
)

// airCited cites the air side of a box.
var airCited = published.By("V = (H - UA dT)/(rho cp dT) + combustion air; opening dp = K rho v^2/2; draught rho g h dT/T",
	"heat balance; walls by U A of the build-up, ISO 6946; opening and duct losses by textbook K; heat share and velocity rules are common practice", "common practice")

// Sources and fixed figures of the air side.
const (
	DefaultRise  = 15.0 // K over the outside that is aimed at
	freeVelocity = 3.0  // m/s through openings without a fan
	fanVelocity  = 5.0  // m/s with a fan
	starvingPa   = 250.0
	MostFan      = 500.0 // Pa that fans of a boat's size give at most (judgement)
)

const (
	cpAir       = 1005.0 // J/kgK
	gravity     = 9.81
	cookedSlack = 1.1  // of the rise aimed at
	tooHot      = 60.0 // K, above it the rise is bent towards the surfaces' own temperature
	hottest     = 90.0 // K that may still be added to tooHot
)

// Ventilation is what ventilates a box or a space.
type Ventilation struct {
	Openings     []Opening
	HolesUnknown bool // they are taken, not stated: a verdict would be on a guess
	Fan          *Fan
	OwnAirPipe   bool     // combustion air comes by its own pipe
	AirPipe      *AirPipe // its sizes; nil = not known
	Heat         []Heat   // of each engine in it
	Walls        float64  // W/K that the walls pass, U A; 0 = nothing is known to pass
	Outside      float64  // K; 0 = 300
	Pressure     float64  // Pa; 0 = 101325
	AllowedRise  float64  // K; 0 = DefaultRise
	Height       float64  // m from inlet to outlet, for the draught; 0 = 0.5; below zero = the outlet lies lower
	In           *Space   // the room it stands in, which takes what its walls pass; nil = the open air
	AllowedWhy   string   // why AllowedRise; "" = common practice
}

// Verdict is one finding on the air: starved (the engine can't get its combustion air), cooked (the
// heat is not carried off), unknown (nobody has stated its openings), or ok.
type Verdict struct{ Code, Text string }

// Harms tells whether the engine lacks air or cooling.
func (v Verdict) Harms() bool { return v.Code == "starved" || v.Code == "cooked" }

// Stopped is the box with its fan out of action.
type Stopped struct {
	Flow float64 // m3/s
	Rise float64 // K
	Text string
}

// Air is how a box breathes.
type Air struct {
	Heat             float64 // W to carry off, of all engines, with the air round them no hotter than 60 K over the outside
	ByAir, ByWalls   float64 // W of it that the air and the walls carry off
	Kept             float64 // W of it that air over 60 K does not take: the three are all of Heat
	Walls            float64 // W/K through the walls
	Outside          float64 // K
	Inlet            float64 // K of the air that comes in: over Outside where it comes from a room
	CombustionAir    float64 // m3/s
	CoolingAir       float64 // m3/s needed at the allowed rise
	Needed           float64 // m3/s through the inlet, both together
	Flow             float64 // m3/s that passes the inlet
	InletArea        float64 // m2
	OutletArea       float64 // m2
	InletAreaNeeded  float64 // m2 by the velocity rule
	OutletAreaNeeded float64 // m2
	DraughtArea      float64 // m2 of inlet and of outlet that would do without a fan
	InletVelocity    float64 // m/s
	PressureDrop     float64 // Pa, inlet with its duct, at Flow; 0 where no air can come in
	Airtight         bool    // no opening lets air in: there is no pressure drop to tell
	FanPressure      float64 // Pa the fan must give for the flow needed; 0 = draught alone does
	Rise             float64 // K
	AllowedRise      float64 // K over the outside
	AllowedWhy       string
	Fan              *FanPoint // where the fan works; nil = no fan
	Verdicts         []Verdict
	FanStopped       *Stopped // nil = no fan
	published.Cited
	Warnings []string
}

// AirFlow is the flow in m3/s that carries heat off at a rise in K: V = H/(rho cp dT). Heat is in W, the density in
// kg/m3.
func AirFlow(heat, rise, density float64) float64 { return heat / (density * cpAir * rise) }

func (v Ventilation) filled() Ventilation {
	set := func(x *float64, value float64) {
		if *x == 0 {
			*x = value
		}
	}
	set(&v.Outside, 300)
	set(&v.Pressure, 101325)
	set(&v.AllowedRise, DefaultRise)
	set(&v.Height, 0.5)
	return v
}

// load sums what all engines give and draw.
func (v Ventilation) load() (watts, combustion float64) {
	for _, h := range v.Heat {
		w, _ := h.Load()
		watts, combustion = watts+w, combustion+h.Combustion
	}
	return watts, combustion
}

// spaces are the rooms that the box has to do with, each once.
func (v Ventilation) spaces() (all []*Space) {
	add := func(s *Space) {
		if s != nil && !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	add(v.In)
	for i := range v.Openings {
		add(v.Openings[i].Mouth)
	}
	return all
}

func (v Ventilation) check() error {
	for name, x := range map[string]float64{"outside temperature": v.Outside, "air pressure": v.Pressure, "allowed rise": v.AllowedRise} {
		if !(x > 0) || math.IsInf(x, 0) {
			return fmt.Errorf("%s of %g: it must be above zero", name, x)
		}
	}
	for _, h := range v.Heat {
		if err := h.check(); err != nil {
			return err
		}
	}
	figures := map[string]float64{"height": math.Abs(v.Height), "heat through the walls": v.Walls}
	for _, s := range v.spaces() {
		figures["heat in "+s.Name], figures["open area of "+s.Name], figures["heat through the walls of "+s.Name] = s.Heat, s.Open, s.Walls
	}
	if err := notNegative(figures); err != nil {
		return err
	}
	if err := v.Fan.Check(); err != nil {
		return err
	}
	if p := v.AirPipe; p != nil && (!(p.Bore > 0) || !(p.Length >= 0)) {
		return fmt.Errorf("air pipe of %g m bore and %g m: its bore must be above zero", p.Bore, p.Length)
	}
	for _, o := range v.Openings {
		if !(o.Area >= 0) || math.IsInf(o.Area, 0) {
			return fmt.Errorf("opening of %g m2: it must not be negative", o.Area)
		}
	}
	return nil
}
