package chambers

import (
	"math"

	"hushwake/silencer/fourpole"
)

// openingFlow is what mean flow adds to the plane waves of an opening, in units of rho c with the amplitudes of
// orthonormal modes: rows are the pressures asked for (tube, annulus), columns the velocities w into the room.
type openingFlow struct{ tubeTube, tubeRing, ringTube, ringRing float64 }

// newOpeningFlow puts the balances of Extended into that form. With a = S_tube/S_shell, m = M_t Y_t and v_a the flow
// into the annulus they are for a tube that leads into the room
//
//	p_tube = p_room + m [(1-a)^2 v_tube - a^2 v_a]
//	p_a = p_tube - m v_tube
//
// and for one that leads out of it
//
//	p_tube = p_room - K m v_tube,  p_a = p_room
//
// all in convective variables (derived); with only plane waves this is Extended again.
func newOpeningFlow(tube, shell fourpole.End, ring float64, intoRoom bool) openingFlow {
	a, m := tube.Area/shell.Area, tube.Mach
	if a >= 1 {
		return openingFlow{}
	}
	if !intoRoom {
		return openingFlow{tubeTube: fourpole.StepLossFactor(shell.Area, tube.Area) * m}
	}
	share := ring / tube.Area
	return openingFlow{
		tubeTube: m * (1 - a) * (1 - a), tubeRing: m * a * a * math.Sqrt(share),
		ringTube: m * (a*a - 2*a) * math.Sqrt(share), ringRing: m * a * a * share,
	}
}

// addFlow adds them to the rows of the opening.
func (o *opening) addFlow(b *block) {
	if o.flow == (openingFlow{}) {
		return
	}
	add := func(row0, col0 int, x, y []float64, f float64) {
		for i, v := range x {
			to := b.own(row0 + i)[col0:]
			for j, w := range y {
				to[j] += complex(f*v*w, 0)
			}
		}
	}
	t := o.inside.row(0, o.nTube)
	add(0, 0, t, t, o.flow.tubeTube)
	if o.nRing == 0 {
		return
	}
	r, at := o.back.row(0, o.nRing), o.nTube
	add(0, at, t, r, o.flow.tubeRing)
	add(at, 0, r, t, o.flow.ringTube)
	add(at, at, r, r, o.flow.ringRing)
}
