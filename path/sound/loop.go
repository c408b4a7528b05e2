package sound

import (
	"fmt"
	"math"
	"slices"
)

// Loop is a length of samples that holds whole cycles of every engine, so that it can be played on and on.
type Loop struct {
	Rate    int // samples a second
	Samples int
}

// Seconds is how long it takes.
func (l Loop) Seconds() float64 { return float64(l.Samples) / float64(l.Rate) }

// slack is by how much of itself a loop may be shorter than asked for, to fit the engines.
const slack = 0.2

// largest prime factor of a loop's length: with larger ones its transform takes too long.
const largestFactor = 13

// NewLoop finds the length of at most so many seconds that fits the cycles of the engines best, Hz. What does not fit to the last
// is put right by a change of the engine's speed, at most by half a line of the loop.
func NewLoop(rate int, seconds float64, s ...Sound) (Loop, error) {
	if rate < 8000 || rate > 192000 || !(seconds >= 0.5 && seconds <= 60) {
		return Loop{}, fmt.Errorf("a loop of %g s at %d samples a second\nhint: 0.5 to 60 s at 8000 to 192000 are rendered", seconds, rate)
	}
	cycles := cyclesOf(s...)
	best, least := Loop{}, math.Inf(1)
	longest := int(seconds*float64(rate)) / 2 * 2
	for n := longest; n >= int((1-slack)*float64(longest)); n -= 2 {
		l := Loop{rate, n}
		if miss := l.miss(cycles); miss < least-1e-12 && smooth(n) {
			best, least = l, miss
		}
	}
	return best, nil
}

// cyclesOf are the cycle frequencies of all engines, Hz.
func cyclesOf(all ...Sound) (cycles []float64) {
	for _, s := range all {
		for _, l := range s.Lines {
			if !slices.Contains(cycles, l.Cycle) {
				cycles = append(cycles, l.Cycle)
			}
		}
	}
	return cycles
}

// Miss is the largest relative change of speed that the loop asks of an engine of a sound.
func (l Loop) Miss(s Sound) float64 { return l.miss(cyclesOf(s)) }

// miss is the largest relative change of speed that the loop asks of an engine.
func (l Loop) miss(cycles []float64) (worst float64) {
	for _, c := range cycles {
		worst = math.Max(worst, math.Abs(float64(l.turns(c))/l.Seconds()/c-1))
	}
	return worst
}

// turns is how many cycles of an engine the loop holds.
func (l Loop) turns(cycle float64) int { return max(int(math.Round(cycle*l.Seconds())), 1) }

// smooth tells whether a length has small factors only.
func smooth(n int) bool {
	for _, p := range []int{2, 3, 5, 7, 11, largestFactor} {
		for n%p == 0 {
			n /= p
		}
	}
	return n == 1
}
