package order

import (
	"fmt"
	"math"
	"math/cmplx"
	"slices"

	"hushwake/path/recording/meter"
)

const (
	smoothing = 0.15 // s, least length of each of two means that a demodulated line passes
	passes    = 2    // of demodulation
	kernel    = 8    // samples on either side that an interpolation looks at
	phases    = 512  // places between two samples for which its weights are kept
)

// turns is how many working cycles have passed at each sample, by the speed of a track; it goes on at its ends as it was there.
func (s *Signal) turns(t Track, e Engine) []float64 {
	out, sum := make([]float64, len(s.Samples)), 0.0
	for i := range out {
		x := (float64(i)/s.Rate - start) / hopSeconds
		k := min(max(int(x), 0), len(t.Speeds)-1)
		v := t.Speeds[k]
		if k+1 < len(t.Speeds) && x > 0 {
			v += (x - float64(k)) * (t.Speeds[k+1] - v)
		}
		out[i] = sum
		sum += v / 60 * e.Cycle() / s.Rate
	}
	return out
}

// refine corrects the cycles by the phase of the strongest firing harmonic: demodulated, smoothed, unwrapped.
func (s *Signal) refine(turns []float64, e Engine) {
	k, z := s.strongest(turns, e)
	for pass := range passes {
		if pass > 0 {
			z = s.demodulated(turns, k)
		}
		last, jumps := cmplx.Phase(z[0]), 0.0
		first := last
		for i := range turns {
			p := cmplx.Phase(z[i])
			switch d := p - last; {
			case d > math.Pi:
				jumps -= 2 * math.Pi
			case d < -math.Pi:
				jumps += 2 * math.Pi
			}
			last = p
			turns[i] += (p + jumps - first) / (2 * math.Pi * float64(k))
		}
	}
}

// strongest is the firing harmonic that stands up most when demodulated, as a multiple of the cycle, with what it becomes.
func (s *Signal) strongest(turns []float64, e Engine) (k int, z []complex128) {
	cycle, top := turns[len(turns)-1]/s.Seconds(), 0.0
	for h := 1; h <= 4 && (h == 1 || float64(h*e.Cylinders)*cycle < s.Reach()); h++ {
		d, p := s.demodulated(turns, h*e.Cylinders), 0.0
		for _, v := range d {
			p += real(v)*real(v) + imag(v)*imag(v)
		}
		if z == nil || p > top {
			k, z, top = h*e.Cylinders, d, p
		}
	}
	return k, z
}

// demodulated is the sound brought from k times the cycle down to rest, twice over a mean of whole cycles: at all other
// multiples of the cycle the mean is blind.
func (s *Signal) demodulated(turns []float64, k int) []complex128 {
	z := make([]complex128, len(turns))
	for i, v := range s.Samples {
		sin, cos := math.Sincos(-2 * math.Pi * float64(k) * turns[i])
		z[i] = complex(v*cos, v*sin)
	}
	cycle := turns[len(turns)-1] / s.Seconds()
	n := int(math.Ceil(smoothing*cycle) / cycle * s.Rate)
	return mean(mean(z, n), n)
}

// mean is the running mean over n places, over fewer at the ends.
func mean(z []complex128, n int) []complex128 {
	out := make([]complex128, len(z))
	var sum complex128
	from, to := 0, 0
	for i := range out {
		for ; to < min(i+n/2+1, len(z)); to++ {
			sum += z[to]
		}
		for ; from < i-n/2; from++ {
			sum -= z[from]
		}
		each := 1 / float64(to-from)
		out[i] = complex(real(sum)*each, imag(sum)*each)
	}
	return out
}

// interpolation are the weights of a windowed sinc for every place between two samples.
var interpolation = interpolationTable()

func interpolationTable() (t [phases + 1][2 * kernel]float64) {
	for p := range t {
		sum := 0.0
		for i := range t[p] {
			x := float64(i-kernel+1) - float64(p)/phases
			t[p][i] = sinc(x) * (0.5 + 0.5*math.Cos(math.Pi*x/kernel))
			sum += t[p][i]
		}
		for i := range t[p] {
			t[p][i] /= sum
		}
	}
	return t
}

// at is the sound between two samples.
func (s *Signal) at(x float64) float64 {
	i := int(x)
	p := (x - float64(i)) * phases
	a, b := &interpolation[int(p)], &interpolation[min(int(p)+1, phases)]
	f, v := p-math.Floor(p), 0.0
	for j, y := range s.Samples[i-kernel+1 : i+kernel+1] {
		v += y * (a[j] + f*(b[j]-a[j]))
	}
	return v
}

// resample gives the sound at equal steps of the crank over whole cycles: so many of them, so many points each.
func (s *Signal) resample(turns []float64) (x []float64, cycles, points int, err error) {
	from, to := turns[kernel], turns[len(turns)-kernel-1]
	cycles = meter.Smooth(int(to - from))
	if cycles < leastCycles {
		return nil, 0, 0, fmt.Errorf("%d working cycles are too few to part lines\nhint: record 20 s", cycles)
	}
	least := math.Inf(1) // cycles a sample
	for i := 1; i < len(turns); i++ {
		least = math.Min(least, turns[i]-turns[i-1])
	}
	if !(least > 0) {
		return nil, 0, 0, fmt.Errorf("the speed can't be followed\nhint: state it nearer with --rpm, or record nearer to the outlet")
	}
	points = 1 << int(math.Ceil(math.Log2(float64(len(turns))/(turns[len(turns)-1]-turns[0]))))
	x = make([]float64, 0, cycles*points)
	i := kernel
	for j := range cycles * points {
		want := from + float64(j)/float64(points)
		for turns[i+1] < want {
			i++
		}
		x = append(x, s.at(float64(i)+(want-turns[i])/(turns[i+1]-turns[i])))
	}
	return x, cycles, points, nil
}

// leastCycles is how many working cycles part an order from its neighbours (judgement).
const leastCycles = 20

// steadiest cuts a signal and its track to the seconds in which the speed varies least.
func (s *Signal) steadiest(t Track, seconds float64) (*Signal, Track) {
	n := int((seconds-blockSeconds)/hopSeconds) + 1
	if n >= len(t.Speeds) {
		return s, t
	}
	at, least := 0, math.Inf(1)
	for i := 0; i+n <= len(t.Speeds); i++ {
		if v := slices.Max(t.Speeds[i:i+n]) / slices.Min(t.Speeds[i:i+n]); v < least {
			at, least = i, v
		}
	}
	hop := int(hopSeconds * s.Rate)
	return &Signal{Rate: s.Rate, Samples: s.Samples[at*hop : min(at*hop+int(seconds*s.Rate), len(s.Samples))]}, Track{t.Kind, t.Speeds[at : at+n], t.Score}
}
