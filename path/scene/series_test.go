package scene_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/silencer"
	"hushwake/testdata/turns"
)

// demoFiles are all demos.
var demoFiles = []string{"dry-stack", "generator-box", "three-quotes", "everything"}

// eachElement visits every element of every line of every demo, as a test of its own; a line that two layouts share
// is visited once.
func eachElement(t *testing.T, visit func(t *testing.T, b *path.Boat, l *path.Layout, exhaust, element int)) {
	for _, name := range demoFiles {
		b, seen := demo(t, name), map[string]bool{}
		for _, l := range b.Layouts {
			for j, x := range l.Exhausts {
				if e, ok := l.Engine(x.Engine); !ok || e.Stopped {
					continue
				}
				for i, e := range x.Line.Elements {
					key := fmt.Sprintf("%s %d %T %+v", x.Engine, i, e, e)
					if seen[key] {
						continue
					}
					seen[key] = true
					t.Run(fmt.Sprintf("%s %s %s %d %s", name, l.Name, x.Engine, i+1, e.Kind()), func(t *testing.T) { visit(t, b, l, j, i) })
				}
			}
		}
	}
}

// withElement is a layout with another element in place of one of a line.
func withElement(l *path.Layout, exhaust, element int, e silencer.Element) *path.Layout {
	out := *l
	out.Exhausts = slices.Clone(l.Exhausts)
	line := &out.Exhausts[exhaust].Line
	line.Elements = slices.Clone(line.Elements)
	line.Elements[element] = e
	return &out
}

// Every element of every demo as a part with one branch: levels at every ear and flow noise to 0.01 dB, back pressure
// at running and rated, outlet temperature and heat to each space to 0.1 %. A run takes a quarter.
func TestOneBranchOfADemoIsSeries(t *testing.T) {
	visited, taken := -1, slices.Collect(turns.Of(t, 1000, 4))
	known, sessions := map[*path.Layout]path.Prediction{}, map[*path.Boat]*scene.Session{}
	eachElement(t, func(t *testing.T, b *path.Boat, l *path.Layout, j, i int) {
		if visited++; !slices.Contains(taken, visited) {
			return
		}
		e := l.Exhausts[j].Line.Elements[i]
		branch := &silencer.Parallel{Common: silencer.Common{In: e.Base().In}, Branches: [][]silencer.Element{{e}}}
		wrapped := withElement(l, j, i, branch)
		if sessions[b] == nil {
			sessions[b] = scene.NewSession(b)
		}
		q, err := sessions[b].Predict(wrapped, path.Fast)
		if e.Kind() == "water_injection" {
			require.ErrorContains(t, err, "inside a branch")
			return
		}
		require.NoError(t, err)
		p, ok := known[l]
		if !ok {
			p = quick(t, b, l)
			known[l] = p
		}
		for k, h := range p.Listeners {
			assert.InDeltaSlice(t, h.Bands[:], q.Listeners[k].Bands[:], 0.01, h.Listener.Name)
		}
		for k, x := range p.Exhausts {
			y := q.Exhausts[k]
			assert.InDeltaSlice(t, x.Acoustics.SelfNoise[:], y.Acoustics.SelfNoise[:], 0.01, "flow noise")
			assert.InEpsilon(t, x.Running.BackPressure, y.Running.BackPressure, 1e-3)
			assert.InEpsilon(t, x.Rated.BackPressure, y.Rated.BackPressure, 1e-3)
			assert.InEpsilon(t, x.Rated.OutletTemperature, y.Rated.OutletTemperature, 1e-3)
			engine, _ := l.Engine(x.Engine)
			heat := path.HeatTo(engine, &x)
			for place, w := range path.HeatTo(engine, &y) {
				assert.InDelta(t, heat[place], w, 1e-3*heat[place]+1e-6, place)
			}
		}
	})
}
