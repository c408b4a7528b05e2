package room

import "math"

// Resistance figures of openings, in velocity heads.
const (
	bareHole   = 2.8  // sharp-edged hole, in and out: 1/0.6^2 (textbook)
	ductEnds   = 1.5  // entry 0.5 and exit 1 (textbook)
	linedDrag  = 0.03 // friction factor of a lined duct (judgement)
	squareBend = 1.2  // square bend without vanes (textbook)
)

// fanAssumed is the shut-off pressure in Pa taken for a fan whose pressure is not stated (judgement).
const fanAssumed = 60.0

// Head is the resistance of an opening in velocity heads of its own area.
func (o Opening) Head() float64 {
	d := o.Duct
	if d == nil || d.Width <= 0 || d.Height <= 0 {
		return bareHole
	}
	hydraulic := 2 * d.Width * d.Height / (d.Width + d.Height)
	k := ductEnds + linedDrag*d.Length/hydraulic + squareBend*float64(d.Bends)
	clear := d.Width * d.Height
	if clear < o.Area { // the duct is the narrower part
		k *= math.Pow(o.Area/clear, 2)
	}
	return k
}

// network is the box as an air path: what comes in, what goes out, what the engine draws.
type network struct {
	density, outside float64
	height, heat     float64
	walls            float64 // W/K
	combustion       float64 // m3/s drawn from the box
	in, out          float64 // m3/s per sqrt(Pa), leaks shared half and half
	inOnly           float64 // the same of inlets alone
}

func (v Ventilation) network() network {
	n := network{density: v.Pressure / (287.05 * v.Outside), outside: v.Outside, height: v.Height, walls: v.Walls}
	heat, combustion, _ := v.load()
	n.heat = heat
	if !v.OwnAirPipe {
		n.combustion = combustion
	}
	for _, o := range v.Openings {
		c := o.Area * math.Sqrt(2/(n.density*o.Head()))
		switch o.Role {
		case "inlet":
			n.in, n.inOnly = n.in+c, n.inOnly+c
		case "outlet":
			n.out += c
		default:
			n.in, n.out = n.in+c/2, n.out+c/2
		}
	}
	return n
}

// headLoss is the pressure in Pa that a flow needs through a conductance; where there is no way, it is
// more than any fan gives.
func headLoss(flow, c float64) float64 {
	switch {
	case flow <= 0:
		return 0
	case c <= 0:
		return 1e6
	}
	return math.Min(1e6, (flow/c)*(flow/c))
}

// inletShare is the part of the flow that takes the inlets, not the leaks.
func (n network) inletShare() float64 {
	if n.in <= 0 {
		return 0
	}
	return n.inOnly / n.in
}

func (n network) inletDrop(flow float64) float64 { return headLoss(flow, n.in) }

// loss is the pressure in Pa for a flow in through the inlets; what the engine draws does not go out.
func (n network) loss(flow float64) float64 {
	return headLoss(flow, n.in) + headLoss(flow-n.combustion, n.out)
}

// with stands openings of the needed area in for a missing inlet or outlet.
func (n network) with(a Air) network {
	per := math.Sqrt(2 / (n.density * bareHole))
	if a.InletArea <= 0 {
		n.in = a.InletAreaNeeded * per
	}
	if a.OutletArea <= 0 {
		n.out = a.OutletAreaNeeded * per
	}
	return n
}

// draught is the pressure in Pa of the warm air in the box over its height: rho g h dT/(T + dT).
func (n network) draught(rise float64) float64 {
	return n.density * gravity * n.height * rise / (n.outside + rise)
}

// rise in K at a flow through the inlet: H/(UA + rho cp V), by the air and through the walls.
//
// Above 60 K the air nears the hot surfaces, which give off less: the excess x beyond 60 K counts as
// 90/(1 + 90/x), so that it ends 150 K over the outside (judgement).
func (n network) rise(flow float64) float64 {
	if n.heat <= 0 {
		return 0
	}
	rise := n.heat / (n.walls + n.density*cpAir*flow)
	if x := rise - tooHot; x > 0 {
		rise = tooHot + hottest/(1+hottest/x)
	}
	return rise
}

// pressure is what a fan gives at a flow: a parabola from shut-off through the duty point to free
// delivery at 1.5 times the duty flow (assumed; the maker's curve rules). Without a stated pressure the
// stated flow is taken as free delivery against fanAssumed at shut-off.
func (f *Fan) pressure(flow float64) float64 {
	if f == nil {
		return 0
	}
	free, shut := 1.5*f.Flow, 1.8*f.Pressure
	if f.Pressure == 0 {
		free, shut = f.Flow, fanAssumed
	}
	return shut * (1 - math.Abs(flow/free)*(flow/free))
}

// flow through the inlet in m3/s: where fan and draught meet the resistance. The engine's own draw is the least.
func (n network) flow(f *Fan) float64 {
	spare := func(q float64) float64 { return f.pressure(q) + n.draught(n.rise(q)) - n.loss(q) }
	low, high := n.combustion, n.combustion+1e-3
	if low == 0 {
		low = 1e-9
	}
	if spare(low) <= 0 {
		return n.combustion
	}
	for spare(high) > 0 && high < 1e3 {
		high *= 2
	}
	for range 60 {
		mid := (low + high) / 2
		if spare(mid) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}
