package weigh_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/silencer/weigh"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// One loss at all frequencies is the loss of every octave and of every line, whatever the source.
func TestOneLossEverywhere(t *testing.T) {
	x := weigh.Source{Lines: []source.PipeOrder{{Frequency: 90, Level: 110}, {Frequency: 177.5, Level: 100}}, Broadband: spectrum.Fill(80)}
	flat := make([]float64, len(weigh.Octaves))
	for i := range flat {
		flat[i] = 7
	}
	for _, v := range weigh.Average(x.Samples(), func(i int) float64 { return flat[i] }) {
		assert.InDelta(t, 7, v, 1e-12)
	}
	assert.InDeltaSlice(t, []float64{7, 7}, weigh.LineLosses(x.Lines, flat), 1e-12)
	assert.Equal(t, []float64{0}, weigh.LineLosses([]source.PipeOrder{{Frequency: 5}}, flat), "outside the octaves")
}

// Half of an octave's points lose nothing and half all: an even source keeps half its energy, 3.01 dB; a line among the
// points that lose nothing, 30 dB over the rest, keeps all but a thousandth of it.
func TestALineRulesItsOctave(t *testing.T) {
	loss := func(i int) float64 {
		if f := weigh.Octaves[i]; f > spectrum.Exact[4] {
			return 200
		}
		return 0
	}
	even := weigh.Source{Broadband: spectrum.Fill(80)}
	assert.InDelta(t, 10*math.Log10(2), weigh.Average(even.Samples(), loss)[4], 1e-9)
	line := even
	line.Lines = []source.PipeOrder{{Frequency: 0.85 * spectrum.Exact[4], Level: 110}}
	assert.InDelta(t, 10*math.Log10(1.001/1.0005), weigh.Average(line.Samples(), loss)[4], 1e-9)
	assert.InDelta(t, 10*math.Log10(2), weigh.Average(weigh.Even(line.Samples()), loss)[4], 1e-9, "its broadband part is as before")
	assert.InDelta(t, spectrum.Level(spectrum.Power(80)+spectrum.Power(110)), line.Level()[4], 1e-12)
}

// A loss that is not defined counts for nothing, and a source of which nothing is known weighs evenly.
func TestUndefinedAndUnknown(t *testing.T) {
	a := weigh.Average(weigh.Source{}.Samples(), func(i int) float64 {
		if i%2 == 0 {
			return math.NaN()
		}
		return 5
	})
	for _, v := range a {
		assert.InDelta(t, 5, v, 1e-12)
	}
}
