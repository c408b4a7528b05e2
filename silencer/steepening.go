package silencer

import (
	"fmt"
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/source/spectrum"
)

// Pulse is one cylinder's blow-down in the pipe behind the manifold, taken as a sin2 pulse.
type Pulse struct {
	Height float64 // Pa, from its foot to its top
	Length float64 // s
}

// ShockDistance is how far a sin2 pulse fed into a pipe runs until its front stands upright, m: a simple wave of finite
// height, whose top runs ahead of its foot,
//
//	x = c^2 / ((g + 1)/2 (du/dt)max) ,  (du/dt)max = pi dp / (rho c tau)
//
// Exact for a simple wave before its shock (Riemann and Earnshaw, from memory; the pulse's slope is derived); no
// friction, no returning wave, one temperature.
func ShockDistance(p Pulse, m fourpole.Medium) float64 {
	slope := math.Pi * p.Height / (m.Density * m.SoundSpeed * p.Length)
	return m.SoundSpeed * m.SoundSpeed / ((m.Gamma + 1) / 2 * slope)
}

// pulseOf is the pulse of which an even train has the firing order that the feed states,
//
//	swing = 2 sin(pi d) / (pi d (1 - d^2)) ,  d = f tau ,  dp = rho c 2 V / (d S)
//
// with V the mean flow: Fourier series of a train of sin2 pulses. Flow that swings less than about its mean holds no
// pulses apart: one long wave of that height.
func (c *course) pulseOf(m fourpole.Medium) Pulse {
	f := c.feed
	mean := f.MassFlow / (m.Density * circle(c.ports[0].in))
	high := 2 * m.Density * m.SoundSpeed * mean
	if f.Swing <= 1 {
		return Pulse{high * f.Swing, 1 / f.Firing}
	}
	short, long := 0.0, 1.0
	for range 50 {
		if d := (short + long) / 2; trainSwing(d) > f.Swing {
			short = d
		} else {
			long = d
		}
	}
	long = math.Max(long, shortestPulse)
	return Pulse{high / long, long / f.Firing}
}

// shortestPulse is the least share of the firing interval that a pulse may last (judgement: an exhaust stays open longer).
const shortestPulse = 0.1

// trainSwing is the first order of a train of sin2 pulses over its mean; d is the share of the interval that one lasts, below 1.
func trainSwing(d float64) float64 { return 2 * math.Sin(math.Pi*d) / (math.Pi * d * (1 - d*d)) }

// bareLength is how far the pulses run in plain pipe, m: up to the first part that spreads over four times the area, has
// holes, is unknown inside, or takes in water.
func (c *course) bareLength() (m float64) {
	bore := c.ports[0].in
	for i, e := range c.line.Elements {
		f := e.form()
		if e.Injects() != nil || f.holes || f.unseen || f.body >= 2*bore || c.ports[i].in >= 2*bore {
			break
		}
		m += f.length
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
	m := c.first.medium()
	p, bare := c.pulseOf(m), c.bareLength()
	share := bare / ShockDistance(p, m)
	if share <= steepFrom {
		return nil, ""
	}
	sd := steepSD * math.Min(1, (share-steepFrom)/(1-steepFrom))
	d = &Doubt{Term: "steepening", SD: octavesAbove(steepOrders * c.feed.Firing).Times(sd),
		Source: "judgement: the pulses' share of their shock distance, no harmonics reckoned"}
	if share > steepWarned {
		warning = fmt.Sprintf("pulses of about %.0f kPa in %.1f m of bare pipe: harmonics above 4 times firing may be 1 to 4 dB louder at the outlet than predicted; a silencer within the first 2 m avoids it",
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
