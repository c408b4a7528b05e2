package cycle

import "math"

// Result is one periodic cycle of one cylinder.
type Result struct {
	OpeningPressure    float64 // Pa, in the cylinder when the exhaust opens
	OpeningTemperature float64 // K
	PeakPressure       float64 // Pa
	Air                float64 // kg per cycle, net through the intake
	Fuel               float64 // kg per cycle
	ExhaustTemperature float64 // K, mean of the gas leaving by its enthalpy
	Work               float64 // J per cycle on the piston, gas exchange included
	BlowerWork         float64 // J per cycle that drives the blower
	FuelHeat           float64 // J per cycle released
	BoxPressure        float64 // Pa before the intake
	MassResidual       float64 // what came in less what went out, over what went out
	EnergyResidual     float64 // heat released less heat, work and enthalpy that left, over heat released

	// One value per crank step, from exhaust opening on.
	Theta          []float64 // rad
	Pressure       []float64 // Pa in the cylinder
	MassFlow       []float64 // kg/s out through the exhaust
	VolumeVelocity []float64 // m3/s out through the exhaust at line pressure
}

// finish takes over the balance of the last cycle.
func (s *solver) finish(start, y *balance, res *Result) {
	v := s.cyl.Volume(s.cyl.Exhaust.Opens)
	res.OpeningTemperature = temperatureAt(start[energy] / start[mass])
	res.OpeningPressure = start[mass] * gasConstant * res.OpeningTemperature / v
	res.Air, res.Fuel, res.Work = y[in], y[burn], y[work]
	res.ExhaustTemperature = s.meanOutTemperature(y)
	res.FuelHeat = y[burn] * s.burning * s.run.Fuel.HeatingValue
	res.BoxPressure = s.box
	if b := s.run.Blower; b != nil {
		res.BlowerWork = b.Work(s.box, s.run.IntakeTemperature)
	}
	res.MassResidual = (y[in] + y[burn] - y[out]) / y[out]
	res.EnergyResidual = (res.FuelHeat - y[wall] - y[work] + y[heatIn] - y[heatOut]) / res.FuelHeat
}

// MeanEffectivePressure is the net indicated mean effective pressure in Pa of a cylinder with a swept
// volume in m3.
func (r *Result) MeanEffectivePressure(swept float64) float64 { return r.Work / swept }

// Lines gives the relative amplitudes |Q_k|/Q_mean of the first n harmonics of the cycle frequency in
// the exhaust volume velocity (peak amplitude over mean), at most half the number of crank steps.
func (r *Result) Lines(n int) []float64 { return Lines(r.VolumeVelocity, n) }

// Lines gives the peak amplitude over the mean of the first n harmonics of a periodic signal with
// equal steps. A signal without mean gives zeros.
func Lines(signal []float64, n int) []float64 {
	n = min(n, len(signal)/2)
	lines := make([]float64, max(n, 0))
	mean := 0.0
	for _, q := range signal {
		mean += q
	}
	if mean == 0 {
		return lines
	}
	for k := range lines {
		sin, cos := math.Sincos(2 * math.Pi * float64(k+1) / float64(len(signal)))
		s1, s2 := goertzel(signal, cos)
		lines[k] = 2 * math.Hypot(s1-s2*cos, s2*sin) / math.Abs(mean)
	}
	return lines
}

// Phases gives the phases of the first n harmonics of a periodic signal with equal steps, rad.
func Phases(signal []float64, n int) []float64 {
	phases := make([]float64, min(n, len(signal)/2))
	for k := range phases {
		sin, cos := math.Sincos(2 * math.Pi * float64(k+1) / float64(len(signal)))
		s1, s2 := goertzel(signal, cos)
		phases[k] = math.Atan2(s1*sin, s1*cos-s2)
	}
	return phases
}

// goertzel is Goertzel's recurrence: over a whole number of cycles s1 e^{j phi} - s2 is sum q_i e^{-j i phi}.
func goertzel(signal []float64, cos float64) (s1, s2 float64) {
	for _, q := range signal {
		s1, s2 = q+2*cos*s1-s2, s1
	}
	return s1, s2
}
