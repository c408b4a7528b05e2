// Package loudness computes the loudness of stationary sound by the method of Zwicker, ISO 532-1:2017, from third-octave
// levels in a free field: how many times as loud one sound is as another. Source: ISO 532-1:2017, stationary
// (algorithm read in an open implementation, tables from memory, held against its test signals).
package loudness

import (
	"fmt"
	"math"

	"hushwake/source/spectrum"
)

// thirds are levels of third octaves from 25 Hz to 12.5 kHz, dB.
type thirds [28]float64

// centres are the exact centres of the thirds, Hz (IEC 61260-1, base ten).
var centres = func() (f thirds) {
	for i := range f {
		f[i] = 1000 * math.Pow(10, 0.1*float64(i-16))
	}
	return f
}()

// sonesOf is the loudness of stationary sound, sone. Levels over Loudest below 300 Hz are outside the method: an error.
func sonesOf(t thirds) (float64, error) {
	sone, _, err := specific(t)
	return sone, err
}

// Phon is the loudness level of a loudness: that of the 1 kHz tone that is as loud, dB.
func Phon(sone float64) float64 {
	if sone >= 1 {
		return 40 + 10*math.Log2(sone)
	}
	return math.Max(3, 40*math.Pow(sone, 0.35))
}

func (t thirds) check() error {
	for i, l := range t {
		switch {
		case math.IsNaN(l) || math.IsInf(l, 1):
			return fmt.Errorf("the level of the third octave of %.0f Hz is %v", centres[i], l)
		case i < below && l > loudest:
			return fmt.Errorf("%.0f dB in the third octave of %.0f Hz: the loudness of ISO 532-1 reaches to %.0f dB below 300 Hz\nhint: compare by dB(A) instead", l, centres[i], loudest)
		}
	}
	return nil
}

// exponent of loudness, and the share of the threshold of which it is counted from.
const (
	exponent = 0.25
	factor   = 0.25
)

// core is the specific loudness that each critical band excites by itself, sone/Bark; the last is that beyond all.
func (t thirds) core() (n [len(bands{}) + 1]float64) {
	for i, level := range t.critical() {
		b := table[i]
		level -= b.ear
		if level <= b.quiet {
			continue
		}
		level -= b.width
		part := 0.0635 * math.Pow(10, 0.025*b.quiet) * (math.Pow(1-factor+factor*spectrum.Power(level-b.quiet), exponent) - 1)
		n[i] = math.Max(part, 0)
	}
	n[0] *= math.Min(1, 0.4+0.32*math.Pow(n[0], 0.2))
	return n
}

// critical are the levels of the critical bands: those up to 250 Hz hold several thirds, weighed by equal loudness.
func (t thirds) critical() (out [len(bands{})]float64) {
	var energy [3]float64
	for i, l := range t[:below] {
		k := 0
		switch {
		case i >= 9:
			k = 2
		case i >= 6:
			k = 1
		}
		energy[k] += spectrum.Power(l + weight(i, l))
	}
	for k, e := range energy {
		out[k] = spectrum.Level(e)
	}
	copy(out[3:], t[below:])
	return out
}

// weight is what equal loudness takes off a level of a third up to 250 Hz, dB.
func weight(third int, level float64) float64 {
	for _, r := range ranges[:len(ranges)-1] {
		if level <= r.upTo-r.off[third] {
			return r.off[third]
		}
	}
	return ranges[len(ranges)-1].off[third]
}

// resolution is how many values of specific loudness stand in a Bark.
const resolution = 10

// specific is the loudness and its parts, sone/Bark every tenth of a Bark: each band masks those over it down a slope.
func specific(t thirds) (sone float64, at [24 * resolution]float64, err error) {
	if err := t.check(); err != nil {
		return 0, at, err
	}
	core := t.core()
	z, n, row, next := 0.0, 0.0, 0, 0
	for i, own := range core {
		upper, column := 24.0, min(max(i-1, 0), 7)
		if i < len(table) {
			upper = table[i].upper
		}
		for upper += 1e-4; z < upper; {
			end, to, steep := upper, own, 0.0
			if n > own {
				steep = slopes[row].steep[column]
				to = math.Max(slopes[row].from, own)
				if end = z + (n-to)/steep; end > upper {
					end, to = upper, n-(upper-z)*steep
				}
			} else if n < own {
				row = rowOf(own)
				n = own
			}
			sone += (end - z) * (n + to) / 2
			for ; next < len(at) && float64(next+1)/resolution <= end; next++ {
				at[next] = n - (float64(next+1)/resolution-z)*steep
			}
			for row < len(slopes)-1 && to <= slopes[row].from {
				row++
			}
			z, n = end, to
		}
	}
	return math.Max(sone, 0), at, nil
}

// rowOf is the row of slopes that a specific loudness lies in.
func rowOf(n float64) int {
	for i, s := range slopes {
		if s.from <= n {
			return i
		}
	}
	return len(slopes) - 1
}
