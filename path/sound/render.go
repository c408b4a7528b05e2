package sound

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/dsp/fourier"

	"hushwake/source/spectrum"
)

// cycleVariation is the relative rms by which the pulses of successive cycles differ: 3 to 5 % is called a usual limit of stable
// burning, 3 % is a diesel under load (from memory). It gives life; the levels of the octaves are kept.
const cycleVariation = 0.03

// Render gives the samples of the sound in the loop, in units of 20 µPa. The same sound, loop and seed give the same samples;
// equal seeds and loops have equal noise, so that of two sounds only what differs is heard to differ.
func Render(s Sound, l Loop, seed uint64) []float64 {
	ring := newRing(l)
	ring.addLines(s.Lines)
	ring.vary(s.Lines, seed)
	ring.addNoise(s.Broad, seed)
	ring.hold(s.Broad)
	return ring.samples()
}

// ring is the spectrum of a loop: of a bin 2|c|^2 is its mean square.
type ring struct {
	Loop
	lines []complex128 // the orders
	rest  []complex128 // what fills the octaves beside them
}

func newRing(l Loop) *ring {
	n := l.Samples/2 + 1
	return &ring{l, make([]complex128, n), make([]complex128, n)}
}

func (r *ring) frequency(k int) float64 { return float64(k) / r.Seconds() }

// bin is where a line lies, 0 where the loop can't hold it.
func (r *ring) bin(l Line) int {
	if k := r.turns(l.Cycle) * l.Multiple; k < len(r.lines)-1 {
		return k
	}
	return 0
}

// addLines puts the orders on their bins. Where several meet on one, as of engines that turn alike, their energies add up.
func (r *ring) addLines(lines []Line) {
	for _, l := range lines {
		k := r.bin(l)
		if k == 0 {
			continue
		}
		was := r.lines[k]
		size := math.Sqrt((spectrum.Power(l.Level) + 2*square(was)) / 2)
		phase := l.Phase
		if was != 0 {
			phase = math.Atan2(imag(was), real(was))
		}
		r.lines[k] = polar(size, phase)
	}
}

func polar(size, phase float64) complex128 {
	sin, cos := math.Sincos(phase)
	return complex(size*cos, size*sin)
}

func square(c complex128) float64 { return real(c)*real(c) + imag(c)*imag(c) }

// vary lets the pulses of each engine differ from cycle to cycle: a modulation, white up to half the cycle frequency, that all
// its orders share.
func (r *ring) vary(lines []Line, seed uint64) {
	by := map[float64][]complex128{}
	for _, l := range lines {
		half := (r.turns(l.Cycle) - 1) / 2
		if half < 1 {
			continue
		}
		m, ok := by[l.Cycle]
		if !ok {
			m = noise(half, seed^math.Float64bits(l.Cycle))
			for d := range m {
				m[d] *= complex(cycleVariation/math.Sqrt(2*float64(half)), 0)
			}
			by[l.Cycle] = m
		}
		k := r.bin(l)
		size := polar(math.Sqrt(spectrum.Power(l.Level)/2), l.Phase)
		for d, v := range m {
			if up, down := k+d+1, k-d-1; k > 0 && up < len(r.rest) && down > 0 {
				r.rest[up] += size * v
				r.rest[down] += size * complex(real(v), -imag(v))
			}
		}
	}
}

// noise are complex normal numbers of mean square 1.
func noise(n int, seed uint64) []complex128 {
	rnd, out := rand.New(rand.NewPCG(seed, 0x736f756e64)), make([]complex128, n)
	for i := range out {
		size := math.Sqrt(-math.Log(1 - rnd.Float64()))
		out[i] = polar(size, 2*math.Pi*rnd.Float64())
	}
	return out
}

// addNoise fills the nine octaves between the orders, by a density that goes in dB straight over lg f from one octave's middle
// to the next, flat beyond the last.
func (r *ring) addNoise(broad spectrum.Bands, seed uint64) {
	var density spectrum.Bands
	for b := range density {
		low, high := spectrum.Edges(b)
		density[b] = math.Max(broad[b], spectrum.Silent) - 10*math.Log10((high-low)*r.Seconds())
	}
	for k, v := range noise(len(r.rest), seed) {
		if spectrum.BandOf(r.frequency(k)) < 0 || k == len(r.rest)-1 {
			continue
		}
		x := math.Max(0, math.Min(math.Log10(r.frequency(k)/spectrum.Exact[0])/0.3, spectrum.N-1))
		c := min(int(x), spectrum.N-2)
		level := density[c] + (x-float64(c))*(density[c+1]-density[c])
		r.rest[k] += v * complex(math.Sqrt(spectrum.Power(level)/2), 0)
	}
}

// samples goes from the spectrum to time. Bins are rounded to 24 bits first: what other processors reckon otherwise in the
// last bit of a float then does not reach the file.
func (r *ring) samples() []float64 {
	all := make([]complex128, len(r.lines))
	for k := range all {
		c := r.lines[k] + r.rest[k]
		all[k] = complex(float64(float32(real(c))), float64(float32(imag(c))))
	}
	all[0], all[len(all)-1] = 0, 0
	return fourier.NewFFT(r.Samples).Sequence(nil, all)
}
