package room

import "math"

func (v Ventilation) network() network {
	n := network{density: v.Pressure / (287.05 * v.Outside), outside: v.Outside, height: v.Height, walls: v.Walls}
	heat, combustion := v.load()
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
