package report

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
)

// bar draws bands of levels in letters, all on one scale.
type bar struct{ low, high float64 } // dB(A) at its ends

// barWidth is in letters.
const barWidth = 20

func boxed(r path.ExhaustResult) bool { return r.Box != nil }

// bar is the scale of the first place: tens of dB about all bands and the limit.
func (w Brief) bar() bar {
	b := bar{math.Inf(1), math.Inf(-1)}
	hold := func(v float64) {
		if v = math.Max(0, v); !math.IsNaN(v) {
			b.low, b.high = math.Min(b.low, 10*math.Floor(v/10)), math.Max(b.high, 10*math.Ceil(v/10))
		}
	}
	for i := range w.Predictions {
		s := w.Spread.Layouts[i].Listeners[w.Listener]
		hold(s.Low)
		hold(s.High)
	}
	if l := w.Boat.Listeners[w.Listener].Limit; l != nil {
		hold(*l)
	}
	b.high = math.Max(b.high, b.low+10)
	return b
}

// head is the scale.
func (b bar) head() string {
	low, high := fmt.Sprintf("%.0f", b.low), fmt.Sprintf("%.0f", b.high)
	return low + strings.Repeat("·", barWidth-len(low)-len(high)) + high
}

// draw is a band with its level, and a limit where there is one.
func (b bar) draw(low, level, high float64, limit *float64) string {
	letters := []rune(strings.Repeat("·", barWidth))
	at := func(v float64) int {
		share := (math.Max(0, v) - b.low) / (b.high - b.low)
		return min(max(int(math.Round(share*(barWidth-1))), 0), barWidth-1)
	}
	for k := at(low); k <= at(high); k++ {
		letters[k] = '─'
	}
	if limit != nil {
		letters[at(*limit)] = '┊'
	}
	if !math.IsNaN(level) {
		letters[at(level)] = '●'
	}
	return string(letters)
}
