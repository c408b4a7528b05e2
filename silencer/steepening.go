package silencer

import (
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// bareLength is how far the pulses run in plain pipe, m: up to the first part that spreads over four times the area, has
// holes, is unknown inside, or takes in water.
func (c *course) bareLength() (m float64) {
	bore := c.ports[0].in
	for i, e := range c.line.Elements {
		f := e.Form()
		if e.Injects() != nil || f.Holes || f.Unseen || f.Body >= 2*bore || c.ports[i].in >= 2*bore {
			break
		}
		m += f.Length
	}
	return m
}

// Bounds of the indicator, as a share of the shock distance, and its doubt; all judgement.
const (
	steepFrom   = 0.2 // no doubt below
	steepWarned = 0.4
	steepSD     = 3.0 // dB, where the front stands upright, and held beyond
	steepOrders = 4.0 // times the firing frequency: what lies below hardly changes
)

// steepening is what pulses of real height may add to the higher orders of a long bare pipe: their doubt, none where the
// pipe is short, and a warning, "" where it is not.
func (c *course) steepening() (d *Doubt, warning string) {
	if !(c.feed.Swing > 0 && c.feed.Firing > 0 && c.feed.MassFlow > 0) || len(c.line.Elements) == 0 {
		return nil, ""
	}
	m, firing := c.First.Medium(), float64(c.feed.Firing)
	p, bare := fourpole.PulseOf(m, float64(c.feed.MassFlow)/(m.Density*circle(c.ports[0].in)), c.feed.Swing, firing), c.bareLength()
	share := bare / fourpole.ShockDistance(p, m)
	if share <= steepFrom {
		return nil, ""
	}
	sd := steepSD * math.Min(1, (share-steepFrom)/(1-steepFrom))
	d = &Doubt{Term: "steepening", SD: octavesAbove(steepOrders * firing).Times(sd),
		Source: "judgement: the pulses' share of their shock distance, no harmonics reckoned"}
	if share > steepWarned {
		warning = said.Textf("pulses of about {%.0f kPa} in {%.1f m} of bare pipe: harmonics above 4 times firing may be 1 to 4 dB louder at the outlet than predicted; a silencer within the first {2 m} avoids it",
			p.Height/1e3, bare)
	}
	return d, warning
}

// octavesAbove is the part of each octave, on a scale of its logarithm, that lies above a frequency.
func octavesAbove(hz float64) (part spectrum.Bands) {
	for b := range part {
		part[b] = math.Max(0, math.Min(1, math.Log2(spectrum.Exact[b]*math.Sqrt2/hz)))
	}
	return part
}
