package fourpole

import "math"

// openingFlow is what mean flow adds to the plane waves of an opening, in units of rho c with the amplitudes of
// orthonormal modes: rows are the pressures asked for (tube, annulus), columns the velocities w into the room.
type openingFlow struct{ tubeTube, tubeRing, ringTube, ringRing float64 }

// newOpeningFlow puts the balances of Extended into that form. With a = S_tube/S_shell, S* = S_shell - S_tube, and
// v_a the flow into the annulus, they are for a tube that leads into the room
//
//	p_tube = p_room + K M_c Y_c (v_tube - v_a)
//	p_a = p_room - (M_t c/S*) [(1-a)(2-a) v_tube + (a - (1-a)^2) v_a]
//
// and for one that leads out of it
//
//	p_tube = p_room - K M_t Y_t v_tube
//	p_a = p_room - (M_t c/(2 S_shell)) v_tube + (M_t c a/S*) v_a
//
// all in convective variables (derived); with only plane waves this is Extended again.
func newOpeningFlow(tube, shell End, ring float64, intoRoom bool) openingFlow {
	a, m := tube.Area/shell.Area, tube.Mach
	star := shell.Area - tube.Area
	if star <= 0 {
		return openingFlow{}
	}
	mean := math.Sqrt(tube.Area * ring)
	if !intoRoom {
		return openingFlow{
			tubeTube: StepLossFactor(shell.Area, tube.Area) * m,
			ringTube: m / (2 * shell.Area) * mean, ringRing: -m * a / star * ring,
		}
	}
	r := StepLossFactor(tube.Area, shell.Area) * shell.Mach * a
	return openingFlow{
		tubeTube: r, tubeRing: r * math.Sqrt(ring/tube.Area),
		ringTube: -m / star * (1 - a) * (2 - a) * mean,
		ringRing: m / star * (a - (1-a)*(1-a)) * ring,
	}
}

// addFlow adds them to the system.
func (o *opening) addFlow(g *grid) {
	if o.flow == (openingFlow{}) {
		return
	}
	t := o.inside.row(0, o.nTube)
	addOuter(g, o.first, o.first, t, t, complex(o.flow.tubeTube, 0))
	if o.nRing == 0 {
		return
	}
	r, at := o.back.row(0, o.nRing), o.first+o.nTube
	addOuter(g, o.first, at, t, r, complex(o.flow.tubeRing, 0))
	addOuter(g, at, o.first, r, t, complex(o.flow.ringTube, 0))
	addOuter(g, at, at, r, r, complex(o.flow.ringRing, 0))
}
