package room

import "math"

func (s *Space) prepare(n network, around bool) airRoom {
	return airRoom{Space: s, open: s.Open * math.Sqrt(2/(n.density*bareHole)), around: around}
}

// open books an opening of the box to the room that its mouth lies in.
func (n *network) open(mouth *Space, in, out float64) {
	for i := range n.rooms {
		if n.rooms[i].Space == mouth {
			n.rooms[i].in, n.rooms[i].out = n.rooms[i].in+in, n.rooms[i].out+out
		}
	}
}

// exchange is what passes a room by its own draught, m3/s: half of its openings in, half out.
func (r *airRoom) exchange(n *network, rise float64) float64 {
	draught := n.density * gravity * r.Height * rise / (n.outside + rise)
	return r.open / 2 * math.Sqrt(draught/2)
}

// mixings is how often the temperatures of box and rooms are put into each other; tightest is the least that carries
// heat off, W/K.
const (
	mixings  = 60
	tightest = 1e-6
)

// balance gives the temperatures over the outside of the box and of the air that comes into it at a flow, K, from the
// heat that enters and leaves each body of air:
//
//	box   H + rho cp V Tin = (rho cp V + UA) T - UA Tr
//	room  H + UA T + rho cp Vout T = (UA + UAr + rho cp (Vout + fresh air + draught)) Tr
//
// around is the temperature of the room that the box stands in.
func (n network) balance(flow float64) (box, inlet, around float64) {
	m := n.density * cpAir
	if len(n.rooms) == 0 && n.heat > 0 {
		return n.heat / (n.walls + m*flow), 0, 0
	}
	t := make([]float64, len(n.rooms))
	for range mixings {
		inlet, around = 0, 0
		for i := range n.rooms {
			if n.in > 0 {
				inlet += n.rooms[i].in / n.in * t[i]
			}
			if n.rooms[i].around {
				around = t[i]
			}
		}
		box = (n.heat + m*flow*inlet + n.walls*around) / math.Max(tightest, n.walls+m*flow)
		for i := range n.rooms {
			t[i] = n.rooms[i].mixed(&n, flow, box, t[i])
		}
	}
	return box, inlet, around
}

// mixed is the temperature of a room over the outside, K.
func (r *airRoom) mixed(n *network, flow, box, was float64) float64 {
	m, out, takes := n.density*cpAir, r.gets(n, flow), r.takes(n, flow)
	fresh := math.Max(0, takes-out) + r.exchange(n, was)
	gain, loss := r.Heat+m*out*box, r.Walls+m*(out+fresh)
	if r.around {
		gain, loss = gain+n.walls*box, loss+n.walls
	}
	return gain / math.Max(tightest, loss)
}

// warmer is the rise in K over the outside at a flow through the inlet, by the air and through the walls.
//
// Above 60 K the air nears the hot surfaces, which give off less: the excess x beyond 60 K counts as
// 90/(1 + 90/x), so that it ends 150 K over the outside (judgement).
func (n network) warmer(flow float64) float64 {
	box, _, _ := n.balance(flow)
	return Bent(box)
}

// cooled is the share of the heat that is still given off where it would warm the air by so much, K: heat and rises fall alike.
func cooled(straight float64) float64 {
	if straight <= tooHot {
		return 1
	}
	if math.IsInf(straight, 1) {
		return 0
	}
	return Bent(straight) / straight
}

// Bent is a rise in K as it is told: above 60 K it nears 150 K, for hot air takes less heat from the engine (judgement).
func Bent(rise float64) float64 {
	if x := rise - tooHot; x > 0 {
		rise = tooHot + hottest/(1+hottest/x)
	}
	return rise
}

// Straight is the rise in K that is Bent to this one, with by how much it grows for each K of this one; +Inf from 150 K on,
// which no heat reaches.
func Straight(rise float64) (straight, slope float64) {
	switch x := rise - tooHot; {
	case x >= hottest:
		return math.Inf(1), math.Inf(1)
	case x > 0:
		steep := hottest / (hottest - x)
		return tooHot + steep*x, steep * steep
	}
	return rise, 1
}
