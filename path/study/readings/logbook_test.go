package readings

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws/drawstest"
)

func TestRepeatedReadings(t *testing.T) {
	open := drawstest.HeardAt(4, "layout 1", "helm", 84, 2, "phone")
	open.Open = []string{"door"}
	stated := drawstest.HeardAt(6, "layout 1", "helm", 82, 2, "phone")
	stated.RunEngine, stated.RunSpeed = "main", 1700 // the running duty, said outright
	list := []path.Reading{drawstest.HeardAt(1, "layout 1", "helm", 76, 2, "phone"), drawstest.HeardAt(2, "layout 1", "deck", 80, 2, "phone"),
		drawstest.PressureAt(3, "layout 1", 3000, 60), open, drawstest.HeardAt(5, "layout 1", "helm", 79, 2, "phone"), stated, drawstest.PressureAt(7, "layout 1", 3900, 60)}
	p := drawstest.Boat(1, 0)
	p[0].Exhausts[0].Source.Duty.Speed = 1700
	m := model(t, p)
	base, later := repeated(m, list)
	require.Len(t, base, 2)
	require.Equal(t, []int{1, 3}, []int{base[0].Index, base[1].Index})
	require.Equal(t, []int{6, 7}, []int{later[0].Index, later[1].Index})
	same := func(string, path.Reading) (path.Prediction, error) { return p[0], nil }
	d, err := diagnose(m, nil, base, later, same)
	require.NoError(t, err)
	require.Contains(t, d.Sentences()[0], "+6.0 dB")
	require.Contains(t, d.Sentences()[1], "+30.0 %")
	none, _ := repeated(m, list[:4])
	require.Empty(t, none)
	struck := slices.Clone(list)
	for i := range struck[:4] {
		struck[i].Strike = true
	}
	base, later = repeated(m, struck)
	require.Len(t, base, 1, "what its owner struck is no baseline")
	require.Equal(t, []int{5, 6}, []int{base[0].Index, later[0].Index})
}

func TestCalibrateLogKeepsLaterReadingsApartWhenSomethingChanged(t *testing.T) {
	m := model(t, drawstest.Boat(1, 0))
	helm := c0(m)
	log := []path.Reading{drawstest.HeardAt(1, "layout 1", "helm", helm, 2, "phone"), drawstest.PressureAt(2, "layout 1", 3000, 60)}
	first := calibrated(t, m, log...)
	c, d, err := CalibrateLog(m, drawn(t, m), append(log, drawstest.HeardAt(3, "layout 1", "helm", helm+10, 2, "phone"), drawstest.PressureAt(4, "layout 1", 2800, 60)), nil)
	require.NoError(t, err)
	require.Equal(t, "baffle", d.Causes[0].Name)
	require.Equal(t, m.Spread(first.Draws), m.Spread(c.Draws))
	require.Len(t, c.Residuals, 4)
	require.False(t, c.Residuals[2].Used)
	require.Contains(t, c.Residuals[2].Reason, "not fitted")
	c, d, err = CalibrateLog(m, drawn(t, m), append(log, drawstest.HeardAt(3, "layout 1", "helm", helm+0.3, 2, "phone"), drawstest.PressureAt(4, "layout 1", 3010, 60)), nil)
	require.NoError(t, err)
	require.Equal(t, noFault, d.Causes[0].Name)
	require.True(t, c.Residuals[2].Used)
	c, d, err = CalibrateLog(m, drawn(t, m), []path.Reading{log[0], drawstest.PressureAt(2, "layout 1", 3, 0.1), drawstest.PressureAt(3, "layout 1", 3000, 60)}, nil)
	require.NoError(t, err, "no fault explains a slip of the pen")
	require.Nil(t, d)
	require.Contains(t, c.Warnings[0], "no known pattern")
	require.True(t, c.Residuals[2].Used)
	_, d, err = CalibrateLog(m, drawn(t, m), log, nil)
	require.NoError(t, err)
	require.Nil(t, d)
}
