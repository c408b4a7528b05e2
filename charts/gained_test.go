package charts

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What takes more off makes it quieter: the sign is that of the level, as the words are.
func TestGainedIsOfTheLevel(t *testing.T) {
	assert.Equal(t, "−12\u00a0dB, about half as loud", gained(f64(20), f64(32)))
	assert.Equal(t, "+12\u00a0dB, about twice as loud", gained(f64(32), f64(20)))
	assert.Equal(t, "–", gained(nil, f64(20)))
}

// The title names who likelier keeps the limit where that is not the quietest by the median, as the chances are printed.
func TestTitleNamesTheSurer(t *testing.T) {
	r := sample(2, 1)
	r.Layouts[0].Refused, r.Layouts[1].Refused = false, false
	points := []tradeoffPoint{{layout: 0, x: 2, y: 60}, {layout: 1, x: 3, y: 61}}
	for _, c := range []struct {
		first, second *float64
		want          string
	}{{f64(0.5), f64(0.4), "; " + tag(r, 1) + " likelier keeps the limit (chance to be over it 40\u00a0%, with " + tag(r, 0) + " 50\u00a0%)"}, {f64(0.4), f64(0.5), ""}, {f64(0.404), f64(0.4), ""}, {nil, nil, ""}} {
		r.Layouts[0].Heard[0].ProbabilityOverLimit, r.Layouts[1].Heard[0].ProbabilityOverLimit = c.first, c.second
		assert.Equal(t, c.want, surer(r, points, 0))
	}
}
