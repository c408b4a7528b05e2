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

// AirPipe brings an engine its combustion air past the box.
type AirPipe struct {
	Bore, Length float64 // m
	Bends        int
}

// Figures of a corrugated air hose, in velocity heads (textbook, from memory).
const (
	hoseDrag = 0.05
	hoseBend = 0.3
)

// Loss is the pressure in Pa for a flow in m3/s of a density in kg/m3.
func (p AirPipe) Loss(flow, density float64) float64 {
	v := flow / (math.Pi / 4 * p.Bore * p.Bore)
	return (ductEnds + hoseDrag*p.Length/p.Bore + hoseBend*float64(p.Bends)) * density * v * v / 2
}

// network is the box as an air path: what comes in, what goes out, what the engine draws.
type network struct {
	density, outside float64
	height, heat     float64
	walls            float64 // W/K
	combustion       float64 // m3/s drawn from the box
	in, out          float64 // m3/s per sqrt(Pa), leaks shared half and half
	inOnly           float64 // the same of inlets alone
	rooms            []airRoom
}

func (v Ventilation) network() network {
	n := network{density: v.Pressure / (287.05 * v.Outside), outside: v.Outside, height: v.Height, walls: v.Walls}
	heat, combustion, _ := v.load()
	n.heat = heat
	if !v.OwnAirPipe {
		n.combustion = combustion
	}
	for _, s := range v.spaces() {
		n.rooms = append(n.rooms, s.prepare(n, s == v.In))
	}
	for _, o := range v.Openings {
		c := o.Area * math.Sqrt(2/(n.density*o.Head()))
		switch o.Role {
		case "inlet":
			n.in, n.inOnly = n.in+c, n.inOnly+c
			n.open(o.Mouth, c, 0)
		case "outlet":
			n.out += c
			n.open(o.Mouth, 0, c)
		default:
			n.in, n.out = n.in+c/2, n.out+c/2
			n.open(v.In, c/2, c/2)
		}
	}
	return n
}

// noWay is the pressure in Pa that stands for no way at all.
const noWay = 1e6

// headLoss is the pressure in Pa that a flow needs through a conductance; where there is no way, it is
// more than any fan gives.
func headLoss(flow, c float64) float64 {
	switch {
	case flow <= 0:
		return 0
	case c <= 0:
		return noWay
	}
	return math.Min(noWay, (flow/c)*(flow/c))
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
	p := headLoss(flow, n.in) + headLoss(flow-n.combustion, n.out)
	for i := range n.rooms {
		p += headLoss(math.Abs(n.rooms[i].surplus(n, flow)), n.rooms[i].open)
	}
	return p
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
	return n.density * gravity * math.Max(0, n.height) * rise / (n.outside + rise)
}

// flow through the inlet in m3/s: where fan and draught meet the resistance. The engine's own draw is the least.
func (n network) flow(f *Fan) float64 {
	spare := func(q float64) float64 { return f.pressure(q) + n.draught(n.warmer(q)) - n.loss(q) }
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
