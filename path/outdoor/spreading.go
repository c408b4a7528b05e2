package outdoor

import (
	"fmt"
	"math"

	"hushwake/source/published"
)

// SpreadingCited cites the spreading loss.
var SpreadingCited = published.By("-20 lg r - 11", "ISO 9613-2:1996, 7.1 (spherical spreading)", "read")

// Divergence is the loss by spherical spreading from a point source at r metres:
//
//	A = 10 lg(4 pi r^2) = 20 lg r + 11 dB
//
// It turns a sound power into a free-field pressure level. Source: ISO 9613-2:1996, 7.1.
func Divergence(r float64) (float64, error) {
	if !(r > 0) || math.IsInf(r, 0) {
		return 0, fmt.Errorf("distance %g m from the source: spreading needs a distance above zero\nhint: move the listener away from the outlet", r)
	}
	return 10 * math.Log10(4*math.Pi*r*r), nil
}

// distance is the distance between two points, m.
func distance(a, b Point) float64 { return norm(sub(b, a)) }

// Angle is the angle in rad between an outlet's own axis and the way to the receiver;
// pi/2 where one of them has no length.
func Angle(outlet, axis, receiver Point) float64 {
	way := sub(receiver, outlet)
	n := norm(way) * norm(axis)
	if n == 0 {
		return math.Pi / 2
	}
	return math.Acos(math.Max(-1, math.Min(1, dot(way, axis)/n)))
}
