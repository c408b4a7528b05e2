package order

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/dsp/window"
)

// The search scores a speed by how far the spectrum stands up at its orders, over what lies round them. Figures: judgement,
// held by synthetic engines.
const (
	blockSeconds = 2.0
	hopSeconds   = 0.5
	beside       = 12.0  // Hz either side whose median is what a line stands on
	tallest      = 6.0   // natural logarithm of power over which a line counts no more: firing orders must stand out from the others
	chance       = 0.379 // of that in noise alone on average: of the logarithm of an exponential distribution over its median, where over (derived)
	highest      = 700.0 // Hz up to which lines count
	others       = 0.1   // weight of an order that doesn't fire
	grid         = 1e-3  // relative step of speeds
	reachable    = 12    // steps of the grid from one block to the next
	moving       = 0.02  // what a step costs
)

// Track is the speed of an engine over time.
type Track struct {
	Kind   Engine
	Speeds []float64 // rpm, every half second from start
	Score  float64
}

// start is the middle of the first block, s.
const start = blockSeconds / 2

// Middle is the mean speed, rpm.
func (t Track) Middle() float64 {
	sum := 0.0
	for _, v := range t.Speeds {
		sum += v / float64(len(t.Speeds))
	}
	return sum
}

// Swing is half of what the speed varies, over its mean.
func (t Track) Swing() float64 {
	return (slices.Max(t.Speeds) - slices.Min(t.Speeds)) / 2 / t.Middle()
}

// Whitened is a sound's spectrum over time, each bin over the median of its neighbours.
type Whitened struct {
	each   float64 // Hz
	blocks [][]float64
	power  [][]float64 // what they are made from, natural logarithms
}

// Whiten prepares a search.
func Whiten(s *Signal) Whitened {
	n, hop := int(blockSeconds*s.Rate), int(hopSeconds*s.Rate)
	w := Whitened{each: s.Rate / float64(n)}
	fft, hann := fourier.NewFFT(n), make([]float64, n)
	for i := range hann {
		hann[i] = 1
	}
	window.Hann(hann)
	bins := min(int(math.Min(highest+beside, s.Reach())/w.each)+2, n/2)
	x, power := make([]float64, n), make([]float64, bins)
	var c []complex128
	for at := 0; at+n <= len(s.Samples); at += hop {
		for i, v := range s.Samples[at : at+n] {
			x[i] = v * hann[i]
		}
		c = fft.Coefficients(c, x)
		for k := range power {
			power[k] = math.Log(real(c[k])*real(c[k]) + imag(c[k])*imag(c[k]) + 1e-300)
		}
		w.blocks, w.power = append(w.blocks, overMedian(power, int(beside/w.each))), append(w.power, slices.Clone(power))
	}
	return w
}

// overMedian is each value over the median of those within so many places, from 0 up to the tallest.
func overMedian(power []float64, within int) []float64 {
	var sorted []float64
	insert := func(v float64) {
		i, _ := slices.BinarySearch(sorted, v)
		sorted = slices.Insert(sorted, i, v)
	}
	for _, v := range power[:min(within, len(power))] {
		insert(v)
	}
	out := make([]float64, len(power))
	for k, v := range power {
		if k+within < len(power) {
			insert(power[k+within])
		}
		if k > within {
			i, _ := slices.BinarySearch(sorted, power[k-within-1])
			sorted = slices.Delete(sorted, i, i+1)
		}
		out[k] = math.Min(math.Max(v-sorted[len(sorted)/2], 0), tallest)
	}
	return out
}

// Figures of how loud an engine fires: judgement.
const (
	line   = 3.0 // natural logarithm of power over the median from which a bin belongs to a line
	double = 3.0 // dB that twice the firing frequency counts less than it
)

// Under is by how much a track's firing line, or that of twice the frequency where it counts more, lies under the strongest line of
// the sound, dB, on average. How far lines stand up says which lines there are and not which of them fires: a cylinder that differs
// makes lines at all orders. An engine is heard most where it fires (judgement).
func (w Whitened) Under(t Track) float64 {
	sum := 0.0
	for i, power := range w.power {
		strongest := math.Inf(-1)
		for k, v := range power {
			if w.blocks[i][k] > line {
				strongest = math.Max(strongest, v)
			}
		}
		f := t.Kind.EngineFiring(t.Speeds[i])
		fires := math.Max(w.peak(power, f)*toDB, w.peak(power, 2*f)*toDB-double)
		sum += math.Max(strongest*toDB-fires, 0) / float64(len(w.power))
	}
	return sum
}

// toDB makes decibels of a natural logarithm of power.
const toDB = 10 / math.Ln10

// peak is the highest of a block within a bin of a frequency, Hz.
func (w Whitened) peak(block []float64, f float64) float64 {
	k := int(math.Round(f / w.each))
	if k < 1 || k+2 > len(block) {
		return math.Inf(-1)
	}
	return slices.Max(block[k-1 : k+2])
}

// at is how far a block stands up at a frequency, Hz.
func (w Whitened) at(block []float64, f float64) float64 {
	x := f / w.each
	k := int(x)
	if k+1 >= len(block) {
		return 0
	}
	return block[k] + (x-float64(k))*(block[k+1]-block[k])
}

// score is how well a speed fits one block: firing orders by 1/sqrt k, the others with little weight.
func (w Whitened) score(block []float64, e Engine, rpm float64) float64 {
	sum, squares := 0.0, 0.0
	cycle := e.Cycle() * rpm / 60
	for k := 1; float64(k)*cycle < highest && k < len(block); k++ {
		weight := others / math.Sqrt(float64(k)/float64(e.Cylinders))
		if k%e.Cylinders == 0 {
			weight = 1 / math.Sqrt(float64(k/e.Cylinders))
		}
		sum += weight * (w.at(block, float64(k)*cycle) - chance)
		squares += weight * weight
	}
	if squares == 0 {
		return 0
	}
	return sum / math.Sqrt(squares)
}

// Follow finds the course of the speed between two, rpm, that fits best: the best sum of scores less what changes cost.
func (w Whitened) Follow(e Engine, low, high float64) Track {
	n := int(math.Log(high/low)/grid) + 1
	speed := func(i int) float64 { return low * math.Exp(float64(i)*grid) }
	best, from := make([]float64, n), make([][]int32, len(w.blocks))
	for t, block := range w.blocks {
		was := slices.Clone(best)
		from[t] = make([]int32, n)
		for i := range best {
			top, at := math.Inf(-1), i
			for j := max(i-reachable, 0); j <= min(i+reachable, n-1); j++ {
				if v := was[j] - moving*math.Abs(float64(i-j)); v > top {
					top, at = v, j
				}
			}
			best[i], from[t][i] = top+w.score(block, e, speed(i)), int32(at)
		}
	}
	at := 0
	for i, v := range best {
		if v > best[at] {
			at = i
		}
	}
	out := Track{Kind: e, Speeds: make([]float64, len(w.blocks)), Score: best[at] / float64(max(len(w.blocks), 1))}
	for t := len(w.blocks) - 1; t >= 0; t-- {
		out.Speeds[t] = speed(at)
		at = int(from[t][at])
	}
	return out
}

// Candidates are up to three speeds between two, rpm, best first, over 3 % apart: of a wide range nobody can say without a hint
// which harmonic is the firing frequency.
func (w Whitened) Candidates(e Engine, low, high float64) (all []Track) {
	n := int(math.Log(high/low)/grid) + 1
	scores := make([]float64, n)
	for i := range scores {
		for _, block := range w.blocks {
			scores[i] += w.score(block, e, low*math.Exp(float64(i)*grid))
		}
	}
	const apart = int(0.03 / grid)
	for range 3 {
		at := 0
		for i, v := range scores {
			if v > scores[at] {
				at = i
			}
		}
		if !(scores[at] > 0) {
			break
		}
		rpm := low * math.Exp(float64(at)*grid)
		all = append(all, w.Follow(e, math.Max(rpm*0.96, low), math.Min(rpm*1.04, high)))
		clear(scores[max(at-apart, 0):min(at+apart+1, n)])
	}
	return all
}
