package fourpole

import (
	"math"
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
func ShockDistance(p Pulse, m Medium) float64 {
	slope := math.Pi * p.Height / (m.Density * m.SoundSpeed * p.Length)
	return m.SoundSpeed * m.SoundSpeed / ((m.Gamma + 1) / 2 * slope)
}

// PulseOf is the pulse of which an even train has a firing order, Hz, that swings by so much about its mean, m/s,
//
//	swing = 2 sin(pi d) / (pi d (1 - d^2)) ,  d = f tau ,  dp = rho c 2 v / d
//
// with v the mean: Fourier series of a train of sin2 pulses. Flow that swings less than about its mean holds no
// pulses apart: one long wave of that height.
func PulseOf(m Medium, mean, swing, firing float64) Pulse {
	high := 2 * m.Density * m.SoundSpeed * mean
	if swing <= 1 {
		return Pulse{high * swing, 1 / firing}
	}
	short, long := 0.0, 1.0
	for range 50 {
		if d := (short + long) / 2; trainSwing(d) > swing {
			short = d
		} else {
			long = d
		}
	}
	long = math.Max(long, shortestPulse)
	return Pulse{high / long, long / firing}
}

// shortestPulse is the least share of the firing interval that a pulse may last (judgement: an exhaust stays open longer).
const shortestPulse = 0.1

// trainSwing is the first order of a train of sin2 pulses over its mean; d is the share of the interval that one lasts, below 1.
func trainSwing(d float64) float64 { return 2 * math.Sin(math.Pi*d) / (math.Pi * d * (1 - d*d)) }
