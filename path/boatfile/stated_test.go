package boatfile

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/silencer"
)

// A reading that is stated as a span or about is as sure as that and its instrument together; a bound is no reading.
func TestStatedReadings(t *testing.T) {
	text := likeBase + `readings:
  - {listener: helm, layout: as is, level: 74 to 82 dBA, plus_minus: 2 dB}
  - {listener: helm, layout: as is, level: about 80 dBA, plus_minus: 1.5 dB}
  - {listener: helm, layout: as is, level: < 80 dBA}
  - {engine: main, layout: as is, back_pressure: 3 to 5 kPa}
`
	b, err := Load("like.yaml", []byte(text))
	require.NoError(t, err)
	require.Len(t, b.Readings, 4)
	assert.InDelta(t, 78, *b.Readings[0].Level, 1e-9)
	assert.InDelta(t, math.Hypot(2, 4/1.2816), b.Readings[0].PlusMinus, 1e-3)
	assert.InDelta(t, 2.5, b.Readings[1].PlusMinus, 1e-9, "2 dB of about, 1.5 of the meter")
	assert.Equal(t, "at most", b.Readings[2].Bound)
	assert.InDelta(t, 1000/1.2816, b.Readings[3].PlusMinus, 0.1)
	assert.Contains(t, strings.Join(b.Warnings, "\n"), "is a bound and no figure")
}

// The error of a temperature is a difference in K; a point on the scale of °C is refused.
func TestErrorOfATemperature(t *testing.T) {
	at := func(pm string) (*path.Boat, error) {
		return Load("like.yaml", []byte(likeBase+"readings:\n  - {engine: main, layout: as is, temperature: 74 °C, plus_minus: "+pm+"}\n"))
	}
	b, err := at("3 K")
	require.NoError(t, err)
	assert.Equal(t, 3.0, b.Readings[0].PlusMinus)
	_, err = at("3 °C")
	assert.ErrorContains(t, err, "write it in K")
	_, err = at("3 dB")
	require.Error(t, err)
}

// What stands under a quote as a span or bound reaches the element with its doubt; 95 % of holes is all that fits.
func TestStatedQuotes(t *testing.T) {
	text := likeBase + `  - {name: quoted, like: as is, replace: {box: [{quote: A}, {packed: {porosity: 95 %}}]}}
quotes:
  A: {insertion_loss: 25 to 35 dB, pressure_drop: 3 to 5 kPa, at_flow: 0.1 kg/s, at_temperature: 400 °C, level: {level: at most 82 dBA, distance: 3 m}}
`
	b, err := Load("like.yaml", []byte(text))
	require.NoError(t, err)
	var g *silencer.Given
	b.Layouts[1].Exhausts[0].Line.Each(func(e silencer.Element) {
		if q := e.Quoted(); q != nil {
			g = q
		}
	})
	require.NotNil(t, g)
	assert.InDelta(t, 30, *g.Overall, 1e-9)
	assert.InDelta(t, 5/1.2816, g.OneSD, 1e-3)
	assert.InDelta(t, 4000, g.Loss.Drop, 1e-9)
	assert.InDelta(t, 0.25/1.2816, g.Loss.SD, 1e-4)
	assert.InDelta(t, 82, b.Quotes[0].Level.Level, 1e-9)
}

// What stands behind a ± is the error of the reading, as its plus_minus would be: nothing else is taken beside it.
func TestErrorBesideALevel(t *testing.T) {
	at := func(reading string) path.Reading {
		b, err := Load("like.yaml", []byte(likeBase+"readings:\n  - {layout: as is, "+reading+"}\n"))
		require.NoError(t, err, reading)
		require.Len(t, b.Readings, 1)
		for _, a := range b.Assumptions {
			assert.False(t, strings.Contains(reading, "±") && strings.HasSuffix(a.Field, "plus_minus"), "%s: %s %s", reading, a.Field, a.Value)
		}
		return b.Readings[0]
	}
	for beside, apart := range map[string]string{
		"listener: helm, level: 66 dBA ± 0.5":       "listener: helm, level: 66 dBA, plus_minus: 0.5 dB",
		"engine: main, back_pressure: 3 kPa ± 0.5":  "engine: main, back_pressure: 3 kPa, plus_minus: 0.5 kPa",
		"engine: main, temperature: 400 °C ± 10 °C": "engine: main, temperature: 400 °C, plus_minus: 10 K",
	} {
		assert.InDelta(t, at(apart).PlusMinus, at(beside).PlusMinus, 1e-9, beside)
	}
	assert.Equal(t, 3.0, at("listener: helm, level: 66 dBA").PlusMinus)
	assert.Greater(t, at("listener: helm, level: 64 to 68 dBA").PlusMinus, 3.0, "a needle that swings says nothing of the phone")
}
