package advice

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile/boatfiletest"
	"hushwake/path/panel"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
)

var demo = boatfiletest.Demo

// level is that of the routes of one way from one source that pass some word, at the first seat.
func level(t *testing.T, b *path.Boat, l *path.Layout, r path.Route) float64 {
	t.Helper()
	p, err := scene.Predict(b, l)
	require.NoError(t, err)
	for _, x := range p.Listeners[0].Routes {
		if x.Source == r.Source && x.Way == r.Way && x.Route == r.Route {
			return x.DBA()
		}
	}
	return -100 // too quiet to be listed
}

// Every change that is offered against a route makes that very route quieter: through a line's wall, through a box, through
// its ducts and out of an air pipe.
func TestChangesActOnTheRouteTheyAreOfferedFor(t *testing.T) {
	b := demo(t, "generator-box")
	b.Listeners = b.Listeners[:1]
	for _, c := range []struct {
		layout string
		way    path.Way
		least  int // changes: to what it leaves by, and to the walls that it passes
	}{{"as is", path.ByLineWall, 3}, {"lined ducts", path.ByAir, 2}, {"tight box, water-cooled", path.ByIntake, 2}} {
		l, ok := b.Layout(c.layout)
		require.True(t, ok)
		p, err := scene.Predict(b, l)
		require.NoError(t, err)
		found := false
		for _, r := range p.Listeners[0].Routes {
			if r.Way != c.way || found {
				continue
			}
			found = true
			changes := against(l, &p, r)
			assert.GreaterOrEqual(t, len(changes), c.least, c.way)
			for _, a := range changes {
				assert.Less(t, level(t, b, a.to, r), r.DBA()-0.3, "%s against %s", a.text, r.Route)
			}
		}
		assert.True(t, found, c.way)
	}
	l, _ := b.Layout("as is")
	p, err := scene.Predict(b, l)
	require.NoError(t, err)
	assert.Empty(t, against(l, &p, path.Route{Way: path.ByStructure, Engine: "set", Route: "mounts and hull"}), "mounts are asked elsewhere")
	assert.Empty(t, against(l, &p, path.Route{Way: path.ByBackground, Route: "background"}))
	assert.Empty(t, against(l, &p, path.Route{Way: path.ByBoxOpening, Engine: "set", Route: "casing > inlet of sound box"}), "no duct there to lengthen")
	assert.Empty(t, against(l, &p, path.Route{Way: path.ByLineWall, Engine: "nobody", Route: "wall of hose 4"}))
}

// What rules the pillow of the demo is a hose's wall behind a bulkhead: both are among what would help, and help there.
func TestWhatRulesASeatIsAmongWhatHelps(t *testing.T) {
	b := demo(t, "generator-box")
	k, err := readings.Know(b, readings.Options{Options: draws.Options{N: 400}})
	require.NoError(t, err)
	l, _ := b.Layout("as is")
	rules := k.At(l.Name).Listeners[0].Routes[0]
	require.Equal(t, "wall of hose 4 > cabin bulkhead", rules.Route)
	all, err := Helps(k, l, []Seat{{Name: "pillow", Hours: 8}, {Name: "cockpit"}, {Name: "quay"}})
	require.NoError(t, err)
	for _, part := range []string{"mat on cabin bulkhead", "cover round hose 4", "twice as thick for hose 4"} {
		found := false
		for _, h := range all {
			if strings.Contains(h.Change, part) {
				found = true
				assert.Less(t, h.DB[0], -unheard/2, h.Change)
			}
		}
		assert.True(t, found, part)
	}
}

// A window gets a second pane, anything else foam and a mat; the build-up as it was stays.
func TestHeavierPanel(t *testing.T) {
	glass := panel.BuildUp{{Text: "6 mm glass", Material: "glass", Thickness: 0.006}}
	text, b := heavierPanel(glass)
	assert.Contains(t, text, "second pane")
	require.Len(t, b, 3)
	assert.Equal(t, glass[0], b[2])
	text, b = heavierPanel(panel.BuildUp{{Text: "10 mm grp", Material: "GRP", Thickness: 0.01}})
	assert.Contains(t, text, "mat")
	require.Len(t, b, 3)
	assert.Len(t, glass, 1)
}

// Longer ducts act on what comes out of the mouth of one.
func TestLongerDuctsActOnTheirMouths(t *testing.T) {
	b := demo(t, "generator-box")
	b.Listeners = b.Listeners[2:3] // the quay
	is, _ := b.Layout("lined ducts")
	l := *is
	l.Enclosures = slices.Clone(l.Enclosures)
	enc := &l.Enclosures[0]
	enc.Openings = slices.Clone(enc.Openings)
	for i := range enc.Openings {
		enc.Openings[i].To, enc.Openings[i].At, enc.Openings[i].AtStated = path.Outside, path.Point{1.5, -2.5, 0.6 + 0.2*float64(i)}, true
	}
	p, err := scene.Predict(b, &l)
	require.NoError(t, err)
	heard := 0
	for _, r := range p.Listeners[0].Routes {
		if r.Way != path.ByBoxOpening {
			continue
		}
		heard++
		changes := against(&l, &p, r)
		require.Len(t, changes, 1)
		assert.Less(t, level(t, b, changes[0].to, r), r.DBA()-1, r.Route)
	}
	assert.Positive(t, heard)
}

// What is nothing but open, the cracks of walls, is not offered to be sealed: the model has no other wall to put there, so that
// no level would move.
func TestCracksAreNotOfferedSealed(t *testing.T) {
	b := demo(t, "three-quotes")
	l := b.Layouts[0]
	cracks := slices.IndexFunc(l.Partitions, func(p path.Partition) bool { return strings.HasPrefix(p.Name, "cracks of ") && p.OpenArea > 0 })
	require.GreaterOrEqual(t, cracks, 0)
	gaps := 0
	for _, a := range alterations(l) {
		require.False(t, strings.HasPrefix(a.sealed, "cracks of "), a.text)
		if a.sealed != "" {
			gaps++
		}
	}
	require.Positive(t, gaps)
	to := *l
	to.Partitions = slices.Clone(l.Partitions)
	to.Partitions[cracks].OpenArea = 0
	session := scene.NewSession(b)
	was, err := session.Predict(l, path.Fast)
	require.NoError(t, err)
	p, err := session.Predict(&to, path.Fast)
	require.NoError(t, err)
	for j := range was.Listeners {
		assert.Equal(t, was.Listeners[j].DBA(), p.Listeners[j].DBA())
	}
}
