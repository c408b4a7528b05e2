// Package variates draws random numbers by the row: bit for bit those of the language's permuted congruential generator and
// of its normal distribution, without a call for each.
package variates

import (
	"math"
	"math/bits"
)

// generator is a permuted congruential generator of 128 bits (PCG-DXSM; O'Neill, Harvey Mudd College HMC-CS-2014-0905), that of
// rand.PCG: begun with the same two numbers it gives the same. It is handed on by value, so that it stays in registers.
type generator struct{ hi, lo uint64 }

func (g generator) next() generator {
	const mulHi, mulLo, addHi, addLo = 2549297995355413924, 4865540595714422341, 6364136223846793005, 1442695040888963407
	hi, lo := bits.Mul64(g.lo, mulLo)
	hi += g.hi*mulLo + g.lo*mulHi
	lo, carry := bits.Add64(lo, addLo, 0)
	hi, _ = bits.Add64(hi, addHi, carry)
	return generator{hi, lo}
}

// number is what the generator stands at.
func (g generator) number() uint64 {
	hi := g.hi ^ g.hi>>32
	hi *= 0xda942042e4dd58b5
	return (hi ^ hi>>48) * (g.lo | 1)
}

// even is that as a number from 0 to 1, 1 left out.
func (g generator) even() float64 { return float64(g.number()<<11>>11) / (1 << 53) }

// Shuffle puts a row in a random order, as rand.Rand.Shuffle does (Fisher and Yates; numbers under a bound by Lemire 2019).
func Shuffle(row []float64, seed1, seed2 uint64) {
	g := generator{seed1, seed2}
	for i := len(row) - 1; i > 0; i-- {
		g = g.next()
		n, u := uint64(i+1), g.number()
		j, rest := bits.Mul64(u, n)
		if n&(n-1) == 0 {
			j = u & (n - 1)
		} else if rest < n {
			for least := -n % n; rest < least; {
				g = g.next()
				j, rest = bits.Mul64(g.number(), n)
			}
		}
		row[i], row[j] = row[j], row[i]
	}
}

// layers of the ziggurat, and where its tail begins.
const (
	layers = 128
	tail   = 3.442619855899
)

// layer is one of the ziggurat: a whole number under inside lies under the curve, width brings it to a variate, height is that
// of the curve at its side.
type layer struct {
	inside uint32
	width  float64 // rounded to single, as all of the published code is
	height float32
}

// ziggurat holds the layers of the normal distribution of one area (Marsaglia and Tsang 2000).
var ziggurat = func() (t [layers]layer) {
	const area, whole = 9.91256303526217e-3, 1 << 31
	curve := func(x float64) float64 { return math.Exp(-x * x / 2) }
	x := tail
	base := area / curve(x)
	t[0] = layer{uint32(x / base * whole), float64(float32(base / whole)), 1}
	t[layers-1].width, t[layers-1].height = float64(float32(x/whole)), float32(curve(x))
	for i := layers - 2; i > 0; i-- {
		next := math.Sqrt(-2 * math.Log(area/x+curve(x)))
		t[i+1].inside = uint32(next / x * whole)
		t[i].width, t[i].height = float64(float32(next/whole)), float32(curve(next))
		x = next
	}
	return t
}()

// Normals fills a row with unit normals, those of rand.Rand.NormFloat64.
func Normals(row []float64, seed1, seed2 uint64) {
	g := generator{seed1, seed2}
	for d := 0; d < len(row); {
		g = g.next()
		u := g.number()
		l, j := &ziggurat[u>>32%layers], int32(u)
		x, taken := float64(j)*l.width, true
		if uint32(max(j, -j)) >= l.inside {
			x, taken, g = g.rim(u>>32%layers, x)
		}
		if taken {
			row[d] = x
			d++
		}
	}
}

// rim tells whether a variate at the rim of a layer lies under the curve; in the bottom layer it becomes one of the tail.
func (g generator) rim(i uint64, x float64) (float64, bool, generator) {
	if l := &ziggurat[i]; i > 0 {
		g = g.next()
		return x, l.height+float32(g.even())*(ziggurat[i-1].height-l.height) < float32(math.Exp(-.5*x*x)), g
	}
	for {
		g = g.next()
		far := -math.Log(g.even()) * (1.0 / tail)
		g = g.next()
		if y := -math.Log(g.even()); y+y >= far*far {
			return math.Copysign(tail+far, x), true, g
		}
	}
}
