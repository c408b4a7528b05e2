package march

import (
	"cmp"
	"math"

	"hushwake/source/gas"
)

// Conditions hold along a whole conduit.
type Conditions struct {
	Isothermal bool    // no heat loss
	Ambient    float64 // K of the air round it
	WaterShare float64 // of the stated injection water; 0 = all
	Pulsation  float64 // factor on the inside heat transfer; 0 = 1
	Step       float64 // m, largest step; 0 = 0.01
	Handbook   bool    // friction as in a handbook
}

// steps is the number of equal slices of a duct.
func (c Conditions) steps(length float64) int {
	return max(1, int(math.Ceil(length/cmp.Or(c.Step, 0.01)-1e-9)))
}

// State is the gas on its way: what it is, how much of it, how warm, and the liquid that goes along.
type State struct {
	Gas    gas.Gas
	Table  *gasTable
	Flow   float64 // kg/s of gas
	Rated  float64 // rated flow over that of the feed; 0 = not known
	Liquid float64 // kg/s of water beside the gas
	Wet    bool    // water has joined
	T      float64 // K
	// Along a duct: gas temperatures at the ends of equal slices, and the walls at its hot end.
	Slices   []float64
	friction curve
	Wall     float64 // K, metal at the hot end
	Skin     float64 // K, outside at the hot end
	MeanWall float64 // K
	Heat     float64 // W given to the space
	Taken    float64 // W taken by water
	Injected float64 // kg/s of water that joins here
	Pressure float64 // Pa, mean absolute, from the last sweep back
	Loss     float64 // Pa
	Fastest  float64 // m/s
	Mach     float64
	Share    []float64 // of the flow, by branch
	// Unsettled is how far the outside may be from its temperature, K, where no steady one was found; 0 = it was.
	Unsettled float64
}

// Entering is the gas at the head of a line in air of a temperature, K; 0 = that of the gas. The flow is in kg/s.
func Entering(g gas.Gas, flow, t, ambient float64) State {
	return State{Gas: g, Flow: flow, T: t, Table: NewGasTable(g, math.Min(t, cmp.Or(ambient, t)), t)}
}

// Shared is a share of the gas.
func (s State) Shared(share float64) State {
	s.Flow, s.Liquid = s.Flow*share, s.Liquid*share
	return s
}

// quick keeps the highest velocity and Mach number.
func (s *State) quick(t, pressure, flux float64) {
	v := flux / s.Table.Rho(t, pressure)
	s.Fastest = math.Max(s.Fastest, v)
	s.Mach = math.Max(s.Mach, v/s.SoundSpeed(t))
}

// SoundSpeed is c at a temperature, m/s.
func (s *State) SoundSpeed(t float64) float64 {
	if s.Table.fixed {
		return s.Gas.SoundSpeed
	}
	cp, r := s.Table.At(t).cp, s.Table.constant
	return math.Sqrt(cp / (cp - r) * r * t)
}
