package boatfile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/testdata"
)

// Fahrenheit is Fahrenheit, 74 F are 23.3 °C by hand; no exhaust is that cold, and the outside has one name.
func TestFahrenheitAndOutdoors(t *testing.T) {
	data, err := testdata.Files.ReadFile("generator-box.yaml")
	require.NoError(t, err)
	text := string(data)
	swap := func(old, with string) (string, error) {
		require.Contains(t, text, old)
		b, err := Load("box.yaml", []byte(strings.Replace(text, old, with, 1)))
		if err != nil {
			return err.Error(), err
		}
		assert.InDelta(t, 273.15+(74-32)/1.8, b.Air.Temperature, 1e-9)
		return "", nil
	}
	_, err = swap("air: 27 °C", "air: 74 F")
	require.NoError(t, err)
	said, err := swap("temperature: 430 °C}", "temperature: 74 F}")
	require.Error(t, err)
	assert.Contains(t, said, "exhaust at 23 °C")
	assert.Contains(t, said, "hint: give the dry gas temperature at the manifold")
	said, err = swap("area: 50 cm2}", "area: 50 cm2, to: outdoors}")
	require.Error(t, err)
	assert.Contains(t, said, `no "outdoors"`)
	assert.Contains(t, said, `hint: did you mean "outside"?`)
}
