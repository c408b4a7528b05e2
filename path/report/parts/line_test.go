package parts

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/path/scene"
)

// A line on its own is fed as in a prediction: at part load less water is injected, and an offer's flow and promised
// level are those at rated (before: 6.5 kPa for 2.7, and a loss of 15 dB for 20, of two offers of the demo).
func TestLineIsFedAsInPredictions(t *testing.T) {
	for _, c := range [][2]string{{"dry-stack", "wet with lift chamber"}, {"three-quotes", "new silencer + offer A"}, {"three-quotes", "new silencer + offer C"}} {
		b, err := boatfile.LoadFile("../../../testdata/" + c[0] + ".yaml")
		require.NoError(t, err)
		l, ok := b.Layout(c[1])
		require.True(t, ok)
		x, err := FeedOf(b, l, "")
		require.NoError(t, err)
		p, err := scene.Predict(b, l)
		require.NoError(t, err)
		m, err := x.Line.March(x.Feed, x.Options)
		require.NoError(t, err)
		assert.InEpsilon(t, p.Exhausts[0].Running.BackPressure, m.BackPressure, 1e-9, c[1])
		x.Options.Ceiling = true
		a, err := x.Line.Acoustics(x.Feed, x.Options)
		require.NoError(t, err)
		for b, want := range p.Exhausts[0].Acoustics.InsertionLoss { // at the seat what flanks along the pipe is heard with it
			assert.LessOrEqual(t, want, a.InsertionLoss[b]+1e-9, c[1])
			assert.InDelta(t, want, a.InsertionLoss[b], 0.02, c[1])
		}
	}
}

// In full each element that takes pressure stands with the formula and source of its loss; else none is cited.
func TestLineCitesInFull(t *testing.T) {
	b, err := boatfile.LoadFile("../../../testdata/dry-stack.yaml")
	require.NoError(t, err)
	fed, err := FeedOf(b, b.Layouts[0], "")
	require.NoError(t, err)
	a, err := NewLineAlone("as found", fed, []float64{100, 200})
	require.NoError(t, err)
	short := len(a.Text(form.Units{}).Blocks)
	a.Full = true
	blocks := a.Text(form.Units{}).Blocks
	require.Len(t, blocks, short+2)
	var cited [][]string
	for _, row := range blocks[short+1].Table.Rows {
		for _, name := range strings.Split(row[0], ", ") {
			cited = append(cited, append([]string{name}, row[1:]...))
		}
	}
	for _, r := range a.march.Rows {
		if r.PressureLoss > 0 {
			require.Contains(t, cited, []string{r.Name, r.Formula, r.Source, r.Mark})
			require.NotEmpty(t, r.Formula+r.Source)
		}
	}
}
