package room

import "math"

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

// airRoom is a room as part of the air path.
type airRoom struct {
	*Space
	open    float64 // m3/s per sqrt(Pa) of its openings
	in, out float64 // conductance of the box's openings that end in it
	around  bool    // the box stands in it
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

// takes and gets are what the box draws from a room and blows into it at a flow through its inlet, m3/s.
func (r *airRoom) takes(n *network, flow float64) float64 {
	if n.in <= 0 {
		return 0
	}
	return flow * r.in / n.in
}

func (r *airRoom) gets(n *network, flow float64) float64 {
	if n.out <= 0 {
		return 0
	}
	return math.Max(0, flow-n.combustion) * r.out / n.out
}

// surplus is what the box blows into a room over what it draws from it, m3/s; the room's own openings pass it.
func (r *airRoom) surplus(n network, flow float64) float64 {
	return r.gets(&n, flow) - r.takes(&n, flow)
}
