package outdoor

import (
	"math"

	"hushwake/source/spectrum"
)

// BigStackSource is where the pattern of metre-size hot stacks comes from.
const BigStackSource = "UFC 3-450-01 (1995), table C-23; stacks of metre size, an upper bound for small pipes"

// bigStack holds the table by angle from the axis in degrees; 135 holds beyond.
var bigStack = []struct {
	degrees float64
	gain    spectrum.Bands
}{
	{0, spectrum.Bands{8, 8, 8, 8, 9, 9, 10, 10, 10}},
	{45, spectrum.Bands{5, 5, 5, 6, 6, 6, 7, 7, 7}},
	{60, spectrum.Bands{2, 2, 2, 2, 2, 1, 0, -1, -2}},
	{90, spectrum.Bands{-2, -3, -4, -6, -8, -10, -12, -14, -16}},
	{135, spectrum.Bands{-3, -4, -6, -8, -10, -13, -16, -18, -20}},
}

// BigStack is the gain of a metre-size exhaust stack at theta rad from its axis, straight between the
// table's angles. It is an upper bound for the beaming of a small pipe and serves for comparison only;
// predictions use PipeDirectivity.
func BigStack(theta float64) spectrum.Bands {
	d := math.Abs(math.Remainder(theta, 2*math.Pi)) * 180 / math.Pi
	for i := 1; i < len(bigStack); i++ {
		if hi := bigStack[i]; d <= hi.degrees {
			lo := bigStack[i-1]
			x := (d - lo.degrees) / (hi.degrees - lo.degrees)
			b := lo.gain
			for k := range b {
				b[k] += x * (hi.gain[k] - lo.gain[k])
			}
			return b
		}
	}
	return bigStack[len(bigStack)-1].gain
}
