package scene_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/silencer"
	"hushwake/silencer/safety"
)

// lagged is a copy of an element with mineral wool of a thickness round it, 0 = bare.
func lagged(e silencer.Element, name string, thickness float64) silencer.Element {
	v := reflect.New(reflect.TypeOf(e).Elem())
	v.Elem().Set(reflect.ValueOf(e).Elem())
	out := v.Interface().(silencer.Element)
	out.Base().Name, out.Base().Lagging = name, silencer.Lagging{Thickness: thickness, Material: "mineral wool"}
	return out
}

// surface is the row of one part of a lagged line at rated, with lagging of its own, and whether its surface is
// said to ignite or to want a guard.
func surface(t *testing.T, b *path.Boat, l *path.Layout, exhaust, element int, thickness float64) (row silencer.Row, said bool) {
	x := l.Exhausts[exhaust]
	x.Line.Elements = slices.Clone(x.Line.Elements)
	for i, e := range x.Line.Elements {
		x.Line.Elements[i] = lagged(e, "", 0.05)
		if i == element {
			x.Line.Elements[i] = lagged(e, "the part", thickness)
		}
	}
	engine, _ := l.Engine(x.Engine)
	rated, err := engine.Engine.QuickAt(engine.Rated)
	require.NoError(t, err)
	f := path.Feed(rated, b.Air)
	m, err := x.Line.March(f, silencer.Options{})
	require.NoError(t, err)
	for _, r := range m.Rows {
		if r.Index == element+1 {
			row = r
		}
	}
	for _, f := range safety.Findings(&x.Line, safety.Circumstances{Engine: engine.Engine, Rated: m, Running: m, RatedFeed: f}) {
		surface := strings.HasPrefix(f.Code, "SURFACE-") && f.Code != "SURFACE-BURNS"
		said = said || surface && strings.Contains(strings.ToLower(f.Text), "the part")
	}
	return row, said
}

// Every element of every demo is cooler outside with lagging than bare, and with more of it; its metal is no cooler,
// and what was said of its surface goes away. In wet gas there is nothing to lag, and what has no wall has none.
func TestLaggingOfEveryDemo(t *testing.T) {
	cooler := map[string]bool{}
	eachElement(t, func(t *testing.T, b *path.Boat, l *path.Layout, j, i int) {
		bare, said := surface(t, b, l, j, i, 0)
		thin, _ := surface(t, b, l, j, i, 0.02)
		thick, quiet := surface(t, b, l, j, i, 0.05)
		assert.False(t, quiet)
		if bare.Wet {
			assert.Equal(t, bare.SkinTemperature, thick.SkinTemperature)
			assert.False(t, said)
			return
		}
		cooler[bare.Kind] = true
		assert.True(t, said || bare.Length == 0, "bare it is spoken of")
		assert.Less(t, thin.SkinTemperature, bare.SkinTemperature)
		assert.Less(t, thick.SkinTemperature, thin.SkinTemperature)
		assert.GreaterOrEqual(t, thick.WallTemperature, bare.WallTemperature)
	})
	assert.Greater(t, len(cooler), 8, "%v", cooler)
}
