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

// What people promise and measure, as they write it. Expected values are worked by hand.
func TestStatedQuantities(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		text             string
		dim              Dim
		says             Hedge
		low, value, high float64
	}{
		{"< 40 mbar", Pressure, AtMost, -inf, 4000, 4000},
		{"<40 mbar", Pressure, AtMost, -inf, 4000, 4000},
		{"≤ 18 mbar", Pressure, AtMost, -inf, 1800, 1800},
		{"max 12 inH2O", Pressure, AtMost, -inf, 12 * 249.08891, 12 * 249.08891},
		{"40 mbar max", Pressure, AtMost, -inf, 4000, 4000},
		{"at most 82 dBA", LevelA, AtMost, -inf, 82, 82},
		{"30 dB or more", Level, AtLeast, 30, 30, inf},
		{">= 25 dB", Level, AtLeast, 25, 25, inf},
		{"3 to 5 kPa", Pressure, Between, 3000, 4000, 5000},
		{"3 kPa to 50 mbar", Pressure, Between, 3000, 4000, 5000},
		{"3-5 kPa", Pressure, Between, 3000, 4000, 5000},
		{"between 3 and 5 kPa", Pressure, Between, 3000, 4000, 5000},
		{"25–35 dB", Level, Between, 25, 30, 35},
		{"78 dBA ± 2", LevelA, Between, 76, 78, 80},
		{"3 kPa +/- 0.5 kPa", Pressure, Between, 2500, 3000, 3500},
		{"-5 to -3 °C", Temperature, Between, 268.15, 269.15, 270.15},
		{"about 3 kPa", Pressure, About, 3000 * (1 - 0.12816), 3000, 3000 * (1 + 0.12816)},
		{"~80 dBA", LevelA, About, 80 - 2.5632, 80, 80 + 2.5632},
		{"62 Pa", Pressure, Exactly, 62, 62, 62},
		{"2-1/2 in", Length, Exactly, 0.0635, 0.0635, 0.0635},
		{"5 in sch 40", Length, Exactly, (5.563 - 2*0.258) * 0.0254, (5.563 - 2*0.258) * 0.0254, (5.563 - 2*0.258) * 0.0254},
	} {
		q, err := ParseStated(c.text, c.dim)
		require.NoError(t, err, c.text)
		assert.Equal(t, c.says, q.Says, c.text)
		assert.InDelta(t, c.value, q.Value, 1e-6*math.Abs(c.value), c.text)
		for _, pair := range [][2]float64{{c.low, q.Low}, {c.high, q.High}} {
			if math.IsInf(pair[0], 0) {
				assert.Equal(t, pair[0], pair[1], c.text)
				continue
			}
			assert.InDelta(t, pair[0], pair[1], 1e-6*math.Abs(pair[0]), c.text)
		}
		assert.Equal(t, c.text, q.Text)
	}
}

// Eight of ten normal draws lie within a span: its deviation is half of it over 1.2816.
func TestStatedDeviation(t *testing.T) {
	q, err := ParseStated("3 to 5 kPa", Pressure)
	require.NoError(t, err)
	assert.InDelta(t, 0.8, math.Erf(1000/q.SD()/math.Sqrt2), 1e-4)
	for _, s := range []string{"4 kPa", "< 4 kPa"} {
		q, err := ParseStated(s, Pressure)
		require.NoError(t, err)
		assert.Zero(t, q.SD(), "a bound has no deviation of its own")
	}
}

func TestStatedBad(t *testing.T) {
	for _, s := range []string{"5 to 3 kPa", "< ", "about", "3 to 5 apples", "3 kPa to 5 m", "<< 4 kPa", "maxi 4 kPa", "NaN to 5 kPa"} {
		_, err := ParseStated(s, Pressure)
		assert.Error(t, err, s)
	}
	_, err := ParseQuantity("< 40 mm", Length)
	assert.ErrorContains(t, err, "write 40 mm")
	_, err = ParseQuantity("1 to 2 m", Length)
	assert.ErrorContains(t, err, "write 1.5 m")
	_, err = ParseQuantity("1,5 m", Length)
	assert.ErrorContains(t, err, "write 1.5 m")
}

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
