// Package recordingtest makes the sound of engines whose speed, lines and noise are known, for tests of what listens to them.
package recordingtest

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
)

// Engine is an engine as a recorder hears it.
type Engine struct {
	Cylinders int
	TwoStroke bool
	Speed     float64 // rpm
	Drift     float64 // share that the speed varies either way
	Period    float64 // s, of that; 0 = 11
	Scatter   float64 // relative rms difference between cylinders
	Weak      float64 // share by which the first cylinder is weaker
	Noise     float64 // dB, total level of the noise re that of the lines
	HighPass  float64 // Hz, as recorders have it; 0 = none
	Level     float64 // rms of all lines before the high-pass
	Seed      uint64
}

// Sound is what was recorded, with what it is made of.
type Sound struct {
	Samples []float64
	Orders  map[float64]float64 // mean square of each
	Mean    float64             // rpm over the whole
}

func (e Engine) cycle() float64 {
	if e.TwoStroke {
		return 1
	}
	return 0.5
}

// lines are the complex amplitudes at the multiples of the cycle: even firing of unequal cylinders, falling with the order.
func (e Engine) lines(r *rand.Rand, rate int) []complex128 {
	weights := make([]float64, e.Cylinders)
	for i := range weights {
		weights[i] = 1 + e.Scatter*r.NormFloat64()
	}
	weights[0] *= 1 - e.Weak
	cycle := e.Speed / 60 * e.cycle()
	all := []complex128{0}
	for k := 1; k <= 6*e.Cylinders && float64(k)*cycle*(1+e.Drift) < 0.4*float64(rate); k++ {
		var sum complex128
		for i, w := range weights {
			sum += cmplx.Rect(w, -2*math.Pi*float64(k*i)/float64(e.Cylinders))
		}
		f := float64(k) * cycle
		all = append(all, sum*cmplx.Rect(1/(1+math.Pow(f/120, 2)), 2*math.Pi*r.Float64()))
	}
	return all
}

// Record is the sound over so many seconds.
func (e Engine) Record(rate int, seconds float64) Sound {
	r := rand.New(rand.NewPCG(e.Seed, 99))
	lines, n := e.lines(r, rate), int(seconds*float64(rate))
	power := 0.0
	for _, a := range lines {
		power += real(a)*real(a)/2 + imag(a)*imag(a)/2
	}
	level := e.Level
	if level == 0 {
		level = 0.1
	}
	scale := level / math.Sqrt(power)
	out := Sound{Samples: make([]float64, n), Orders: map[float64]float64{}}
	for k := range lines {
		lines[k] *= complex(scale*e.highPass(float64(k)*e.Speed/60*e.cycle()), 0)
		if a := cmplx.Abs(lines[k]); k > 0 {
			out.Orders[float64(k)*e.cycle()] = a * a / 2
		}
	}
	period := e.Period
	if period == 0 {
		period = 11
	}
	turn, phase := 0.0, 2*math.Pi*r.Float64()
	for i := range out.Samples {
		z := cmplx.Rect(1, 2*math.Pi*math.Mod(turn, 1))
		var sum complex128
		for k := len(lines) - 1; k >= 0; k-- {
			sum = sum*z + lines[k]
		}
		out.Samples[i] = real(sum)
		turn += e.Speed / 60 * e.cycle() * (1 + e.Drift*math.Sin(2*math.Pi*float64(i)/float64(rate)/period+phase)) / float64(rate)
	}
	out.Mean = turn / e.cycle() * 60 / seconds
	e.addNoise(r, out.Samples, level, rate)
	return out
}

// highPass is the gain of a first-order recorder's filter, twice.
func (e Engine) highPass(f float64) float64 {
	if e.HighPass == 0 {
		return 1
	}
	q := (f / e.HighPass) * (f / e.HighPass)
	return q / (1 + q)
}

// addNoise adds noise that falls with frequency as that of engines does, through the recorder's filter.
func (e Engine) addNoise(r *rand.Rand, x []float64, level float64, rate int) {
	noise, state, power := make([]float64, len(x)), 0.0, 0.0
	fall := math.Exp(-2 * math.Pi * 200 / float64(rate))
	for i := range noise {
		state = fall*state + (1-fall)*r.NormFloat64()
		noise[i] = state
		power += state * state / float64(len(x))
	}
	a, was := math.Exp(-2*math.Pi*e.HighPass/float64(rate)), [2]float64{}
	var y [2]float64
	for i, v := range noise {
		if v *= level * math.Pow(10, e.Noise/20) / math.Sqrt(power); e.HighPass > 0 {
			for j := range y {
				y[j], was[j], v = a*(y[j]+v-was[j]), v, a*(y[j]+v-was[j])
			}
		}
		x[i] += v
	}
}
