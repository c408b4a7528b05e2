package path

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer/safety"
	"hushwake/source/spectrum"
)

// Where no hours are stated the caution tells how many reach the action values, by 8 h x 10^((value - L)/10); stated ones are
// judged as they are, and no one is warned of where nobody stays.
func TestHearingWhereNoHoursAreStated(t *testing.T) {
	one := func(l Listener, dBA float64) []safety.Finding {
		flat := spectrum.Fill(dBA)
		r := Route{Bands: flat.Plus(spectrum.Fill(dBA - flat.DBA()))}
		return hearing(&Prediction{Listeners: []Heard{{Listener: l, Routes: []Route{r}, Bands: r.Bands}}})
	}
	helm := Listener{Name: "helm", In: "wheelhouse"}
	assert.Empty(t, one(helm, 79.9), "a day there stays under the lower action value")
	for level, want := range map[float64][2]string{
		80.1: {safety.Caution, "7.8 h a day there reach the lower action value for hearing, 80 dB(A)"},
		87.9: {safety.Caution, "78 min a day there reach the lower"},
		88.1: {safety.Warning, "3.9 h a day there reach the upper action value for hearing, 85 dB(A)"},
		98:   {safety.Warning, "24 min a day there reach the upper"},
		130:  {safety.Warning, "1 min a day there reach the upper"},
	} {
		f := one(helm, level)
		require.Len(t, f, 1, "%g", level)
		assert.Equal(t, want[0], f[0].Severity)
		assert.Contains(t, f[0].Text, want[1])
		assert.Contains(t, f[0].Action, "hours: 4 h")
	}
	helm.Hours = 1
	assert.Empty(t, one(helm, 88.1), "the stated hour")
	f := one(helm, 90)
	assert.Equal(t, safety.Caution, f[0].Severity)
	assert.Contains(t, f[0].Text, "the stated 1 h a day there are enough for the lower")
	helm.Hours = 8
	assert.Equal(t, safety.Warning, one(helm, 86)[0].Severity)
	for _, l := range []Listener{{Name: "ear", In: "engine room"}, {Name: "next boat"}, {Name: "quay"}, {Name: "in the saloon", Probe: true}} {
		assert.Empty(t, one(l, 100), l.Name)
	}
}
