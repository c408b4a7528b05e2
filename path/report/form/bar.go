package form

import (
	"fmt"
	"math"
	"strings"
)

// Bar draws bands of levels in letters, all on one scale.
type Bar struct{ Low, High float64 } // dB(A) at its ends

// barWidth is in letters.
const barWidth = 20

// Head is the scale.
func (b Bar) Head() string {
	low, high := fmt.Sprintf("%.0f", b.Low), fmt.Sprintf("%.0f", b.High)
	return low + strings.Repeat("·", barWidth-len(low)-len(high)) + high
}

// Draw is a band from low to high with its level, all in dB, and a limit where there is one.
func (b Bar) Draw(low, level, high float64, limit *float64) string {
	letters := []rune(strings.Repeat("·", barWidth))
	at := func(v float64) int {
		share := (math.Max(0, v) - b.Low) / (b.High - b.Low)
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
