package chain

import (
	"math"

	"hushwake/silencer/chambers"
	"hushwake/silencer/fourpole"
	"hushwake/source/said"
)

// Chamber adds a chamber by modes or plane waves and notes how far it is trusted.
func (c *Chain) Chamber(f chambers.Chamber, centred bool, ceiling float64) {
	if err := f.Check(); err != nil {
		c.Err = err
		return
	}
	across, radial, second := f.CutOn()
	t := Trust{CutOn: across, First: across, Across: across, Ceiling: ceiling, Method: Plane, Why: "first cross mode"}
	var p fourpole.Piece
	var err error
	slender := c.modal(centred) && f.Bore > mostSlender*narrowest(f)
	if slender {
		c.Warn(said.Textf("its narrowest tube of {%.3g mm} stands in a shell of {%.0f mm}: solved by plane waves, as the modes hold to %.0f bores", 1000*narrowest(f), 1000*f.Bore, mostSlender))
	}
	if c.modal(centred) && !slender {
		t.CutOn, t.First, t.Method, t.Why = second, radial, Modes, "second radial mode"
		p, err = f.Modes()
	} else {
		if centred {
			t.CutOn, t.First, t.Why = radial, radial, "first radial mode"
			t.Ceiling = math.Min(ceiling, beamCeiling*float64(1+len(f.Rooms)))
		}
		p, err = f.Plane(c.Corrections())
		t.holds, t.until = planeHolds(f, t.CutOn)
	}
	c.Trusted(t)
	c.Add(p, err, f.Outlet())
}

// mostSlender is the shell over its narrowest tube, by bore, up to which the modes are solved: an area
// ratio of 1000. Beyond it the modes that a step needs grow out of all proportion.
const mostSlender = 32.0

// beamCeiling is the same for aligned tubes solved by plane waves, dB for each room and one more: what
// the solution by modes leaves above the first radial mode in the octaves of a line.
const beamCeiling = 2.0

// Perforated adds a perforated tube by radial modes or plane waves and notes how far it is trusted.
func (c *Chain) Perforated(t chambers.PerforatedTube, ceiling float64) {
	head := c.End(t.Bore, 0.5)
	c.Join(head)
	t.Medium, t.Mach, t.Loss = head.Medium, head.Mach, c.Walls()
	if head.Mach == 0 && t.Holes == fourpole.GrazingHoles && t.PlugAt != 0 {
		t.Holes = fourpole.StillHoles
	}
	if err := t.Check(); err != nil {
		c.Err = err
		return
	}
	across, radial, second := t.CutOn()
	know := Trust{CutOn: radial, First: radial, Across: across, Ceiling: ceiling, Method: Plane, Why: "first radial mode"}
	var p fourpole.Piece
	var err error
	if c.modal(true) {
		know.CutOn, know.Method, know.Why = second, Modes, "second radial mode"
		p, err = t.Modes()
	} else {
		p, err = t.Plane(c.Corrections())
		know.holds, know.until = planeHoldsRound(t, radial)
	}
	c.Trusted(know)
	c.Add(p, err, head)
}
