package parts

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/report/reporttest"
	"hushwake/path/scene"
	"hushwake/path/study/sizing"
	"hushwake/silencer"
	"hushwake/source/said"
)

// What would help against mounts and hull stands beside the sizes with the figures of the same layout without a search; the
// word that it limits the element is said only where it does, and nothing of it outdoors.
func TestSizeTellsWhatHelpsBesideTheElement(t *testing.T) {
	boat, err := boatfile.LoadFile("../../../testdata/dry-stack.yaml")
	require.NoError(t, err)
	seat := func(name string) int {
		return slices.IndexFunc(boat.Listeners, func(l path.Listener) bool { return l.Name == name })
	}
	k := reporttest.Known(t, boat, 400)
	beside := func(layout, listener string) (d Size) {
		l, ok := boat.Layout(layout)
		require.True(t, ok)
		b := *boat
		b.Listeners = b.Listeners[seat(listener) : seat(listener)+1]
		require.NoError(t, d.beside(k, &b, l))
		return d
	}
	quiet := beside("two stages, reactive then absorptive", "helm")
	l, _ := boat.Layout("two stages, reactive then absorptive")
	p, err := scene.Predict(boat, l)
	require.NoError(t, err)
	p, err = k.Quick(p)
	require.NoError(t, err)
	borne, err := scene.StructureAt(boat, &p, &p.Listeners[seat("helm")])
	require.NoError(t, err)
	assert.Equal(t, HelpsOf(borne, "helm"), quiet.Helps)
	found := map[string]bool{}
	for _, c := range quiet.Helps[0].Changes {
		found[said.Plain(c.Change)] = true
	}
	for _, change := range []string{"softer mounts (6 mm)", "a flexible coupling", "a damping layer on the plates here", "a floating floor here"} {
		assert.True(t, found[change], change)
	}
	assert.Contains(t, quiet.Limit, fmt.Sprintf("brings helm under %.0f dB(A)", *quiet.Helps[0].LevelDBA))
	assert.Empty(t, beside("as found, door open", "helm").Limit, "the door lets in more than mounts and hull bring")
	outdoors := beside("two stages, reactive then absorptive", "wing deck")
	assert.Empty(t, outdoors.Helps)
	assert.Empty(t, outdoors.Limit)
}

// A dimension is told as it can be cut; inches stay as they are written elsewhere.
func TestDimensionsToTheMillimetre(t *testing.T) {
	metric := form.Units{}
	assert.Equal(t, "274 mm", toTheMillimetre(metric, 0.2741))
	assert.Equal(t, "2.1 mm", toTheMillimetre(metric, 0.0021), "a wall or a hole")
	size := Sized{Dimensions: map[string]form.Number{"chamber_bore": form.Num(0.2741)}}
	assert.Equal(t, "chamber bore 274 mm", size.dimensions(metric))
	imperial := form.Units{System: quantity.Imperial}
	assert.Equal(t, imperial.Show(0.2741, quantity.Length), toTheMillimetre(imperial, 0.2741))
}

// A size that keeps the back-pressure limit by an odd reading alone is refused as its layout is.
func TestNoSizeIsTakenByAnOddReading(t *testing.T) {
	boat, err := boatfile.LoadFile("../../../testdata/everything.yaml")
	require.NoError(t, err)
	k := reporttest.Known(t, boat, 100)
	l := k.Predictions[0].Layout
	one := *k.Boat
	one.Listeners = one.Listeners[:1]
	session := scene.NewSession(&one)
	tried := false
	for at, e := range l.Exhausts[0].Line.Elements {
		c := Chosen{l, 0, at, e}
		if s, err := silencer.SizeOf(e, c.Bore(), 0, 0); err == nil && !tried {
			tried = true
			out, err := outcome(k, session, c, s, path.Routes, s.Start)
			require.NoError(t, err)
			assert.Less(t, out.Pressure, *l.Engines[0].Limit, "by the figures it keeps it")
			assert.True(t, out.Refused)
		}
	}
	require.True(t, tried)
}

// A size is refused for what the moved prediction is refused for: by a limit under the back pressure that readings leave,
// and not by one over it.
func TestSizeIsRefusedAsThePredictionIs(t *testing.T) {
	for _, limit := range []float64{0.9, 1.3} {
		boat, err := boatfile.LoadFile("../../../testdata/dry-stack.yaml")
		require.NoError(t, err)
		l, _ := boat.Layout("two stages, reactive then absorptive")
		boat.Layouts, boat.Readings = []*path.Layout{l}, nil
		k := reporttest.Known(t, boat, 400)
		p, err := k.Quick(k.Central[0])
		require.NoError(t, err)
		most := limit * p.Exhausts[0].Rated.BackPressure
		l.Engines[0].Limit = &most
		at := slices.IndexFunc(l.Exhausts[0].Line.Elements, func(e silencer.Element) bool { return NameOf(e) == "first stage" })
		c := Chosen{l, 0, at, l.Exhausts[0].Line.Elements[at]}
		s, err := silencer.SizeOf(c.Element, c.Bore(), 0, 0)
		require.NoError(t, err)
		one := *k.Boat
		one.Listeners = one.Listeners[:1]
		session := scene.NewSession(&one)
		out, err := outcome(k, session, c, s, path.Routes, s.Start)
		require.NoError(t, err)
		p, err = session.Predict(c.With(s.Build(s.Start)), path.Routes)
		require.NoError(t, err)
		p, err = k.Quick(p)
		require.NoError(t, err)
		assert.Equal(t, limit < 1, out.Refused)
		assert.Equal(t, p.Refused, out.Refused)
		assert.Equal(t, p.Listeners[0].DBA(), out.Level)
	}
}

// What has no dimensions is refused with the elements of its layout that have some, as each answers for itself.
func TestWhatHasNoSizesNamesThoseThatHave(t *testing.T) {
	boat, err := boatfile.LoadFile("../../../testdata/generator-box.yaml")
	require.NoError(t, err)
	refused, open := 0, 0
	for _, l := range boat.Layouts {
		elements := l.Exhausts[0].Line.Elements
		for i, e := range elements {
			if _, err := silencer.SizeOf(e, 0.038, 0, 0); err == nil {
				open++
				continue
			}
			_, err := NewSize(t.Context(), nil, Chosen{l, 0, i, e}, 0, sizing.Budget{}, nil)
			require.ErrorIs(t, err, silencer.ErrNoDimensions)
			refused++
			_, hint, _ := strings.Cut(err.Error(), "hint: ")
			for _, other := range elements {
				_, err := silencer.SizeOf(other, 0.038, 0, 0)
				assert.Equal(t, err == nil, strings.Contains(hint, NameOf(other)), "%s of %q", NameOf(other), hint)
			}
		}
	}
	assert.Positive(t, refused)
	assert.Positive(t, open)
	assert.Equal(t, "no element of layout bare has any", sizable(&path.Layout{Name: "bare"}))
}
