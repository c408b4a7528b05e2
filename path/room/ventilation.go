package room

import (
	"fmt"
	"math"

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
	HeatText         string
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

// Correction is what readings put right in what is reckoned of a box, as factors; that of the rise is of one that is not bent.
type Correction struct{ Heat, Flow, Rise float64 }

// Corrected gives flow, temperature rise and verdicts of a box with heat, flow and rise put right; a factor that is not
// over 0 is an error.
func (v Ventilation) Corrected(c Correction) (Air, error) {
	for name, x := range map[string]float64{"heat": c.Heat, "flow": c.Flow, "rise": c.Rise} {
		if !(x > 0) || math.IsInf(x, 0) {
			return Air{}, fmt.Errorf("correction of the %s by a factor of %g: it must be above zero", name, x)
		}
	}
	v = v.filled()
	if err := v.check(); err != nil {
		return Air{}, err
	}
	n := v.network()
	a := Air{Cited: airCited, AllowedRise: v.AllowedRise, AllowedWhy: v.AllowedWhy, Outside: v.Outside}
	a.Heat, a.CombustionAir, a.HeatText = v.load()
	a.Walls = v.Walls
	flow := n.flow(v.Fan)
	a.Flow = flow * c.Flow
	n.heat = a.carried(n, flow, c)
	a.Heat = n.heat
	a.CoolingAir = AirFlow(math.Max(0, a.Heat-v.Walls*v.AllowedRise), v.AllowedRise, n.density)
	a.Needed = a.CoolingAir + n.combustion
	a.areas(v, n)
	if a.Airtight = n.in <= 0; !a.Airtight {
		a.PressureDrop = n.inletDrop(a.Flow)
	}
	if a.InletArea > 0 {
		a.InletVelocity = a.Flow * n.inletShare() / a.InletArea
	}
	a.FanPressure = math.Max(0, n.with(a).loss(a.Needed)-n.draught(v.AllowedRise))
	a.judge(v, n)
	if v.Fan != nil {
		a.Fan = &FanPoint{a.Flow, v.Fan.pressure(a.Flow)}
		a.FanStopped = n.stopped(v.AllowedRise)
	}
	return a, nil
}

// carried works out the rise and where the heat goes, and gives the heat, W. Heat, flow and rise put right one by one need not
// agree where they are not small; then the rise, which was read, and the flow stand, and the heat is what they carry.
func (a *Air) carried(n network, flow float64, c Correction) (heat float64) {
	was, _, _ := n.balance(flow)
	n.heat *= c.Heat
	box, inlet, around := n.balance(a.Flow)
	if math.IsInf(box, 1) { // nothing carries anything off
		a.Rise, a.Inlet, a.Kept = Bent(box), n.outside, n.heat
		return n.heat
	}
	fit := 1.0
	if box > 0 {
		fit = c.Rise * was / box
	}
	share := fit * cooled(box*fit)
	a.Rise, a.Inlet = box*share, n.outside+inlet*share
	a.ByAir, a.ByWalls = n.density*cpAir*a.Flow*(box-inlet)*share, n.walls*(box-around)*share
	heat = n.heat * fit
	a.Kept = heat - n.heat*share
	return heat
}

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

func notNegative(figures map[string]float64) error {
	for name, x := range figures {
		if !(x >= 0) || math.IsInf(x, 0) {
			return fmt.Errorf("%s of %g: it must not be negative", name, x)
		}
	}
	return nil
}

// areas sums the openings and says what is needed at the velocity of the rule.
func (a *Air) areas(v Ventilation, n network) {
	for _, o := range v.Openings {
		switch o.Role {
		case "inlet":
			a.InletArea += o.Area
		case "outlet":
			a.OutletArea += o.Area
		}
	}
	speed := freeVelocity
	if v.Fan != nil {
		speed = fanVelocity
	}
	a.InletAreaNeeded = a.Needed / speed
	a.OutletAreaNeeded = a.CoolingAir / speed
	if d := n.draught(v.AllowedRise); d > 0 {
		a.DraughtArea = a.Needed * math.Sqrt(n.density*bareHole/d)
	}
}
