package quantity

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
		assert.Equal(t, strings.ContainsAny(c.text, "±+"), q.PlusMinus, c.text)
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
	_, err := Parse("< 40 mm", Length)
	assert.ErrorContains(t, err, "write 40 mm")
	_, err = Parse("1 to 2 m", Length)
	assert.ErrorContains(t, err, "write 1.5 m")
	_, err = Parse("1,5 m", Length)
	assert.ErrorContains(t, err, "write 1.5 m")
}
