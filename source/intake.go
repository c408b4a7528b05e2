package source

import (
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Air at the mouth of an intake pipe, and what is taken of its level.
const (
	intakeDensity    = 1.2   // kg/m3
	intakeSound      = 343.0 // m/s
	referencePower   = 1e-12 // W
	intakeHighest    = 10e3  // Hz, over which no order is counted
	intakeUnderBody  = 10.0  // dB under the casing's octaves: what valves and filter let through of flow noise (judgement)
	intakeSD         = 8.0   // dB: filter, resonances of the pipe, valve timing (judgement)
	intakePulseWords = "W = rho c k^2 Q^2/(4 pi) over the orders o, Q = sqrt(2) Qm |cos(o pi/2)/(1 - o^2)| s(o), Qm the mean flow, s the pulse train of the cylinders"
)

// intakePulse is the strength of a crank order in half sines of flow, each half a turn of the crank long, against twice
// their mean: |cos(o pi/2)/(1 - o^2)|, by the Fourier series of the half-wave rectified sine; 1 at order 0, pi/4 at 1.
func intakePulse(order float64) float64 {
	if math.Abs(order-1) < 1e-6 {
		return math.Pi / 4
	}
	return math.Abs(math.Cos(order*math.Pi/2) / (1 - order*order))
}

// pulsatingFlow is the sound power in W of a small mouth that breathes a flow of q m3/s rms at a frequency in Hz, into free
// space: rho c k^2 q^2/(4 pi), the monopole of any textbook. Valid while the mouth is small against the wave.
func pulsatingFlow(q, f float64) float64 {
	k := 2 * math.Pi * f / intakeSound
	return intakeDensity * intakeSound * k * k * q * q / (4 * math.Pi)
}

// IntakeMouth is the sound power at the open end of an intake pipe of the engine at the duty of a result. A turbocharger
// has the manual's inlet; any other breathes half sines of its air, plain pipe, without a filter; what goes on above them
// is taken as a tenth of the casing's, within which the manual holds the intake of an engine that breathes freely.
// +-8 dB: no published level of the intake of a small set was at hand.
func (e Engine) IntakeMouth(r Result) Part {
	if r.Intake != nil {
		return *r.Intake
	}
	air := float64(r.EngineFlow-r.FuelFlow) / intakeDensity
	var power spectrum.Bands
	step, turns, angles := 2*math.Pi/e.period(), r.Duty.Speed/60, e.firingAngles()
	for o := step; o*turns < intakeHighest; o += step {
		if b := spectrum.BandOf(o * turns); b >= 0 {
			power[b] += pulsatingFlow(math.Sqrt2*air*intakePulse(o)*pulseTrain(angles, o, e.scatter()), o*turns)
		}
	}
	pulses := Term{Name: "intake pulses", Cited: published.By(intakePulseWords, "half-wave rectified sine, monopole: textbooks", "judgement")}
	above := Term{Name: "above the pulses", Cited: published.By("energy sum with the casing's octaves less 10 dB", "no published level at hand", "judgement")}
	for b := range power {
		pulses.Bands[b] = spectrum.Level(power[b] / referencePower)
		above.Bands[b] = spectrum.Sum(pulses.Bands[b], r.Casing.Bands[b]-intakeUnderBody) - pulses.Bands[b]
	}
	return partOf(spectrum.Fill(intakeSD), pulses, above)
}
