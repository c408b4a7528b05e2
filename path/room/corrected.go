package room

import (
	"fmt"
	"math"
)

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
	a.Heat, a.CombustionAir = v.load()
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
