package silencer

import (
	"fmt"
	"math"

	"hushwake/silencer/chambers"
	"hushwake/silencer/fourpole"
)

// chamber adds a chamber by modes or plane waves and notes how far it is trusted.
func (c *chain) chamber(f chambers.Chamber, centred bool, ceiling float64) {
	if err := f.Check(); err != nil {
		c.err = err
		return
	}
	across, radial, second := f.CutOn()
	t := trust{cutOn: across, first: across, across: across, ceiling: ceiling, method: plane, why: "first cross mode"}
	var p fourpole.Piece
	var err error
	slender := c.modal(centred) && f.Bore > mostSlender*narrowest(f)
	if slender {
		c.warn(fmt.Sprintf("its narrowest tube of %.3g mm stands in a shell of %.0f mm: solved by plane waves, as the modes hold to %.0f bores", 1000*narrowest(f), 1000*f.Bore, mostSlender))
	}
	if c.modal(centred) && !slender {
		t.cutOn, t.first, t.method, t.why = second, radial, modes, "second radial mode"
		p, err = f.Modes()
	} else {
		if centred {
			t.cutOn, t.first, t.why = radial, radial, "first radial mode"
			t.ceiling = math.Min(ceiling, beamCeiling*float64(1+len(f.Rooms)))
		}
		p, err = f.Plane(c.corrections())
		t.holds, t.until = planeHolds(f, t.cutOn)
	}
	c.trusted(t)
	c.add(p, err, f.Outlet())
}

// mostSlender is the shell over its narrowest tube, by bore, up to which the modes are solved: an area
// ratio of 1000. Beyond it the modes that a step needs grow out of all proportion.
const mostSlender = 32.0

// beamCeiling is the same for aligned tubes solved by plane waves, dB for each room and one more: what
// the solution by modes leaves above the first radial mode in the octaves of a line.
const beamCeiling = 2.0

// perforated adds a perforated tube by radial modes or plane waves and notes how far it is trusted.
func (c *chain) perforated(t chambers.PerforatedTube, ceiling float64) {
	head := c.end(t.Bore, 0.5)
	c.join(head)
	t.Medium, t.Mach, t.Loss = head.Medium, head.Mach, c.walls()
	if head.Mach == 0 && t.Holes == fourpole.GrazingHoles && t.PlugAt != 0 {
		t.Holes = fourpole.StillHoles
	}
	if err := t.Check(); err != nil {
		c.err = err
		return
	}
	across, radial, second := t.CutOn()
	know := trust{cutOn: radial, first: radial, across: across, ceiling: ceiling, method: plane, why: "first radial mode"}
	var p fourpole.Piece
	var err error
	if c.modal(true) {
		know.cutOn, know.method, know.why = second, modes, "second radial mode"
		p, err = t.Modes()
	} else {
		p, err = t.Plane(c.corrections())
		know.holds, know.until = planeHoldsRound(t, radial)
	}
	c.trusted(know)
	c.add(p, err, head)
}
