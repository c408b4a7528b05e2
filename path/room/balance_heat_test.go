package room

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Where all heat goes, from flow, temperatures and walls as they are told: it is all there to 1 %, in a cool box, one far too hot,
// one that breathes the air of a hot locker, and after readings that put heat, flow and rise right one by one.
func TestHeatOfABoxCloses(t *testing.T) {
	hot := &Space{Name: "locker", Open: 0.05, Walls: 8, Height: 1, Heat: 12e3}
	for name, v := range map[string]Ventilation{
		"cool":            {Heat: []Heat{{Stated: 900}}, Walls: 4, Openings: []Opening{{Role: "inlet", Area: 0.06}, {Role: "outlet", Area: 0.06}}},
		"one hole":        {Heat: []Heat{{Stated: 3100, Combustion: 0.012}}, Walls: 2.35, Openings: []Opening{{Role: "inlet", Area: 0.005}}},
		"in a hot locker": inLocker(hot, hot, nil),
	} {
		for _, c := range []Correction{{1, 1, 1}, {0.75, 1.2, 0.7}} {
			a, err := v.Corrected(c)
			require.NoError(t, err)
			m := 101325 / (287.05 * 300) * cpAir
			assert.InEpsilon(t, m*a.Flow*(a.Outside+a.Rise-a.Inlet), a.ByAir, 1e-9, name)
			if v.In == nil {
				assert.InEpsilon(t, v.Walls*a.Rise, a.ByWalls, 1e-9, name)
			}
			straight, _ := Straight(a.Rise)
			assert.InDelta(t, a.Heat*(1-a.Rise/straight), a.Kept, 1e-6*a.Heat, "%s: heat falls as the rise does", name)
			assert.InEpsilon(t, a.Heat, a.ByAir+a.ByWalls+a.Kept, 0.01, name)
			assert.Equal(t, a.Rise > tooHot, a.Kept > 1, name)
		}
	}
	one := Ventilation{Heat: []Heat{{Stated: 2000}}, Walls: 10, In: hot, Fan: &Fan{Curve: []FanPoint{{0, 100}, {0.3, 0}}},
		Openings: []Opening{{Role: "inlet", Area: 0.04, Mouth: hot}, {Role: "outlet", Area: 0.04}}}
	a, err := one.Corrected(Correction{1, 1, 1})
	require.NoError(t, err)
	require.Greater(t, a.Inlet-a.Outside, 50.0)
	assert.Greater(t, a.Rise-a.Inlet+a.Outside, 2.0, "air that comes in hot still takes heat")
	assert.Contains(t, a.Verdicts[0].Text, "outdoors")
}
