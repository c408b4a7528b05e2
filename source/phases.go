package source

import (
	"math"
	"math/cmplx"
	"math/rand/v2"

	"hushwake/source/cycle"
)

// LinePhases are the phases of the lines of one pipe's volume velocity at the valves, rad, by multiple of the cycle frequency
// from the first: that of one cylinder's pulse and that of the pulse train, whose cylinders differ by the engine's scatter, by
// chance but always the same. They shape a waveform; no level hangs on them. The pulse is smooth where the cylinder's cycle
// does not hold.
func (e Engine) LinePhases(d Duty) []float64 {
	phases := cycle.Phases(e.pulse(d), cycleLines)
	step, r := 2*math.Pi/e.period(), rand.New(rand.NewPCG(1, 1))
	var heights []float64
	for range e.Pulses() {
		heights = append(heights, 1+e.scatter()*r.NormFloat64())
	}
	for k := range phases {
		var sum complex128
		for i, angle := range e.Pulses() {
			sum += cmplx.Rect(heights[i], -float64(k+1)*step*angle)
		}
		phases[k] += cmplx.Phase(sum)
	}
	return phases
}

// pulse is one cylinder's volume velocity over its cycle.
func (e Engine) pulse(d Duty) []float64 {
	rated, _ := e.ratedRates()
	res, err := cycle.Run(e.cylinder(), e.cylinderRunning(d, e.ratesAt(d, rated), rated, 0), cycle.FineStep)
	if err != nil {
		return smoothSignal(e.period())
	}
	return res.VolumeVelocity
}
