package parts

import (
	"context"
	"slices"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/report/reporttest"
	"hushwake/path/scene"
	"hushwake/path/study/sizing"
	"hushwake/silencer"
)

// What the gas tells of sizes is what the whole prediction tells of them but for the level, also where readings move back
// pressures; a search that leaves the sound out of what is refused finds what one finds that leaves out nothing.
func TestRulesAreThoseOfThePrediction(t *testing.T) {
	for file, layout := range map[string]string{"dry-stack": "reactive 406 mm in the trunk", "everything": "dry, everything in line"} {
		boat, err := boatfile.LoadFile("../../../testdata/" + file + ".yaml")
		require.NoError(t, err)
		k := reporttest.Known(t, boat, 100)
		one := *k.Boat
		one.Listeners = one.Listeners[:1]
		session, l := scene.NewSession(&one), k.Predictions[0].Layout
		for _, p := range k.Predictions {
			if p.Layout.Name == layout {
				l = p.Layout
			}
		}
		at := slices.IndexFunc(l.Exhausts[0].Line.Elements, func(e silencer.Element) bool { _, err := silencer.SizeOf(e, 0.1, 0, 0); return err == nil })
		c := Chosen{l, 0, at, l.Exhausts[0].Line.Elements[at]}
		s, err := silencer.SizeOf(c.Element, c.Bore(), 0, 0)
		require.NoError(t, err)
		vars := make([]sizing.Variable, len(s.Dimensions))
		for i, d := range s.Dimensions {
			vars[i] = sizing.Variable{Name: d.Name, Low: d.Low, High: d.High, Steps: 1}
		}
		rules := ruled(k, session, c, s)
		var heard atomic.Int64
		whole := func(x []float64) (sizing.Outcome, error) {
			heard.Add(1)
			return outcome(k, session, c, s, path.Fast, x)
		}
		want, err := sizing.Search(context.Background(), vars, func(x []float64) (sizing.Outcome, error) {
			out, err := whole(x)
			got, ruleErr := rules(x)
			assert.NoError(t, ruleErr)
			got.Level = out.Level
			assert.Equal(t, out, got)
			return out, err
		}, sizing.Budget{}, nil)
		require.NoError(t, err)
		all := heard.Swap(0)
		got, err := sizing.Search(context.Background(), vars, rulesFirst(rules, whole), sizing.Budget{}, nil)
		require.NoError(t, err)
		assert.Equal(t, want, got)
		assert.Less(t, heard.Load(), all, "some are refused unheard")
	}
}
