//go:build !js

package audibility

import "hushwake/source/published"

// Checks are the published values of this package.
var Checks = published.Values{
	"audibility.Index": published.One(Index),
	// frequency, level of the tone, mean level of the noise in a line, width of a line
	"audibility.InLines": published.Args(4, func(a []float64) (float64, error) {
		return excess(a[0], a[1], a[2]+lines(a[0], a[3])), nil
	}),
	"audibility.excess": published.Args(3, func(a []float64) (float64, error) { return excess(a[0], a[1], a[2]), nil }),
}
