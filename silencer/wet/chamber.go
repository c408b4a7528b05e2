package wet

import (
	"fmt"
	"math"

	"hushwake/source/said"
)

// Chamber is an upright cylindrical water-lift chamber.
type Chamber struct {
	Bore, Height float64 // m inside
	WaterLevel   float64 // m of water that stands in it when running
	DipClearance float64 // m between the dip tube's mouth and the bottom
	InletHeight  float64 // m of the inlet's lower lip over the bottom; 0 = the top of the chamber
	InletOnAxis  bool    // false: the lip is taken on the side that heels down, the worst
	RiserBore    float64 // m
	RiserRise    float64 // m
}

// maxHeel is the greatest heel the geometry is reckoned for, rad.
const maxHeel = 60 * math.Pi / 180

// Check says whether the chamber can be.
func (c Chamber) Check(heel float64) error {
	switch {
	case !(c.Bore > 0 && c.Height > 0):
		return fmt.Errorf("lift chamber: bore %.3g m and height %.3g m must be above 0", c.Bore, c.Height)
	case !(c.WaterLevel >= 0 && c.WaterLevel < c.Height):
		return fmt.Errorf("lift chamber: water level %.3g m leaves no room for gas in a height of %.3g m", c.WaterLevel, c.Height)
	case !(c.InletHeight >= 0 && c.InletHeight <= c.Height):
		return fmt.Errorf("lift chamber: inlet at %.3g m lies outside its height of %.3g m", c.InletHeight, c.Height)
	case !(c.DipClearance >= 0 && c.DipClearance < c.Height):
		return fmt.Errorf("lift chamber: dip tube clearance %.3g m lies outside its height of %.3g m", c.DipClearance, c.Height)
	case !(heel >= 0 && heel <= maxHeel):
		return fmt.Errorf("lift chamber: heel of %.0f degrees lies outside the geometry (0 to 60 degrees)", heel*180/math.Pi)
	}
	return nil
}

// Standing is the water that stands in it, m3.
func (c Chamber) Standing() float64 { return area(c.Bore) * min(c.WaterLevel, c.Height) }

// BelowLip is the water it holds at a heel (rad) before it runs into the inlet, m3: the part of the
// cylinder under a level surface through the inlet's lower lip.
func (c Chamber) BelowLip(heel float64) float64 {
	lip := c.InletHeight
	if lip == 0 {
		lip = c.Height
	}
	r, slope := c.Bore/2, math.Tan(heel)
	axis := lip // height of the surface on the axis
	if !c.InletOnAxis {
		axis -= r * slope
	}
	return under(r, axis, slope) - under(r, axis-c.Height, slope)
}

// Free is the part of BelowLip that the standing water leaves, m3.
func (c Chamber) Free(heel float64) float64 { return max(0, c.BelowLip(heel)-c.Standing()) }

// under integrates max(0, a + b x) over a disk of radius r: the volume between floor and a tilted plane.
//
//	x > u = -a/b:  V = a [r^2 acos(u/r) - u sqrt(r^2 - u^2)] + 2/3 b (r^2 - u^2)^(3/2)
func under(r, a, b float64) float64 {
	if b*r <= math.Abs(a) { // the plane does not cut the floor
		return math.Pi * r * r * max(0, a)
	}
	u := -a / b
	h := math.Sqrt(r*r - u*u)
	return a*(r*r*math.Acos(u/r)-u*h) + 2.0/3*b*h*h*h
}

// boreVolume is what a length of bore holds, m3. Both are in m.
func boreVolume(bore, length float64) float64 { return area(bore) * max(0, length) }

// DrainBack is the water that falls back into the chamber when the engine stops.
type DrainBack struct {
	Riser float64 // m3, the riser full
	Hose  float64 // m3, the hose beyond it that falls back, full
}

// Total is all of it, m3.
func (d DrainBack) Total() float64 { return d.Riser + d.Hose }

// Needed is the room the rule wants in the chamber, m3:
//
//	V >= max(3 V_riser, 1.3 (V_riser + V_hose))
//
// (three risers: small marine engine manual, read; the 1.3: common practice).
func (d DrainBack) Needed() float64 { return max(3*d.Riser, 1.3*d.Total()) }

// Drain gives the water that falls back for this chamber's riser and a hose beyond it. Both are in m.
func (c Chamber) Drain(hoseBore, hoseLength float64) DrainBack {
	return DrainBack{Riser: boreVolume(c.RiserBore, c.RiserRise), Hose: boreVolume(hoseBore, hoseLength)}
}

// Findings says whether the chamber takes the water that falls back, upright and at the heel (rad).
func (c Chamber) Findings(d DrainBack, heel float64) ([]Finding, error) {
	if err := c.Check(heel); err != nil {
		return nil, err
	}
	below, free := c.BelowLip(heel), c.Free(heel)
	degrees := heel * 180 / math.Pi
	if free < d.Total() {
		return []Finding{{Code: "CHAMBER-FLOODS", Severity: Danger, Refuse: true,
			Text:   fmt.Sprintf("when the engine stops %.1f L fall back into the lift chamber, which has room for %.1f L at %.0f degrees of heel: water reaches the engine", d.Total()*1e3, free*1e3, degrees),
			Action: fmt.Sprintf("fit a chamber with at least %.1f L below its inlet, or a lower or thinner riser", d.Needed()*1e3), Source: "volume of riser and hose against the tilted cylinder"}}, nil
	}
	if below < d.Needed() {
		return []Finding{{Code: "CHAMBER-SMALL", Severity: Warning,
			Text:   fmt.Sprintf("the lift chamber holds %.1f L below its inlet at %.0f degrees of heel; the rule wants %.1f L (three risers, or 1.3 times what falls back)", below*1e3, degrees, d.Needed()*1e3),
			Action: "fit a larger chamber, or a lower or thinner riser", Source: "small marine engine manual (three risers); common practice (1.3)"}}, nil
	}
	return nil, nil
}

// fillTime is how long raw water at a flow (m3/s) takes to fill a volume (m3), s; 0 flow never fills it.
func fillTime(volume, flow float64) (seconds float64, fills bool) {
	if !(flow > 0) {
		return 0, false
	}
	return max(0, volume) / flow, true
}

// CrankingFindings warns how long an engine may be cranked before the chamber is full. The flow is in m3/s, the heel in
// rad.
func (c Chamber) CrankingFindings(flow, heel float64) []Finding {
	s, fills := fillTime(c.Free(heel), flow)
	if !fills {
		return nil
	}
	f := Finding{Code: "CRANKING-FILLS", Severity: Caution,
		Text:   fmt.Sprintf("cranking without a start fills the lift chamber in %s: the water then reaches the engine", duration(s)),
		Action: "shut the raw-water cock after half that time of cranking, and drain the chamber", Source: "free volume over raw-water flow while cranking"}
	if s < 60 {
		f.Severity = Warning
	}
	return []Finding{f}
}

func duration(seconds float64) string {
	if seconds < 120 {
		return fmt.Sprintf("%.0f s", seconds)
	}
	return fmt.Sprintf("%.1f min", seconds/60)
}

// LiftFindings speaks about the pressure in the chamber: the dip tube must be blown free, and its mouth
// must stay under water or no water is lifted.
func (c Chamber) LiftFindings() []Finding {
	if c.WaterLevel <= c.DipClearance {
		return []Finding{{Code: "DIP-TUBE-DRY", Severity: Caution,
			Text:   said.Textf("the dip tube ends {%.0f mm} over the bottom, above the water level of {%.0f mm}: the gas blows through and water stays until it reaches the mouth", c.DipClearance*1e3, c.WaterLevel*1e3),
			Action: "reckon with a water level of at least the dip tube's clearance", Source: "geometry"}}
	}
	return nil
}
