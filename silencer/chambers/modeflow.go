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
