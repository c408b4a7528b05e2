package scene_test

import (
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/boatfiletest"
	"hushwake/path/scene"
	"hushwake/silencer"
)

var demo = boatfiletest.Demo

func predict(t testing.TB, b *path.Boat, l *path.Layout) path.Prediction {
	t.Helper()
	p, err := scene.Predict(b, l)
	require.NoError(t, err)
	return p
}

// full are the demos with all their layouts in full, predicted once for all tests that only read them.
var full = sync.OnceValue(func() map[string][]path.Prediction {
	out := map[string][]path.Prediction{}
	for _, name := range demoFiles {
		b, err := boatfile.LoadFile("../../testdata/" + name + ".yaml")
		if err != nil {
			panic(err)
		}
		session := scene.NewSession(b)
		for _, l := range b.Layouts {
			p, err := session.Predict(l, path.Full)
			if err != nil {
				panic(err)
			}
			out[name] = append(out[name], p)
		}
	}
	return out
})

func at(t testing.TB, p path.Prediction, listener string) *path.Heard {
	t.Helper()
	for i := range p.Listeners {
		if p.Listeners[i].Listener.Name == listener {
			return &p.Listeners[i]
		}
	}
	t.Fatalf("no listener %s", listener)
	return nil
}

func layout(t testing.TB, b *path.Boat, name string) *path.Layout {
	t.Helper()
	l, ok := b.Layout(name)
	require.True(t, ok, name)
	return l
}

// Steps add up to routes and routes, as energy, to the level: a reader can do it by hand.
func TestRoutesAddUp(t *testing.T) {
	for _, name := range []string{"dry-stack", "generator-box", "three-quotes"} {
		for _, p := range full()[name] {
			addUp(t, p)
		}
	}
}

// Closing the door takes off at the helm what the open door let in (about 8 dB were read aboard;
// the file has the same 8 dB between its readings).
func TestClosingTheDoor(t *testing.T) {
	b := demo(t, "dry-stack")
	l := layout(t, b, "as found")
	open, err := l.ForReading(path.Reading{Open: []string{"wheelhouse door"}})
	require.NoError(t, err)
	shut, wide := at(t, predict(t, b, l), "helm"), at(t, predict(t, b, open), "helm")
	require.InDelta(t, 8, wide.DBA()-shut.DBA(), 3)
	require.Contains(t, wide.Routes[0].Route, "wheelhouse door", "the open door rules")
	require.Greater(t, doorRoute(wide).DBA(), doorRoute(shut).DBA()+10, "an open door lets in more than its panel")
}

func doorRoute(h *path.Heard) path.Route {
	for _, r := range h.Routes {
		if strings.HasPrefix(r.Route, "outlet > wheelhouse door") {
			return r
		}
	}
	return path.Route{}
}

// Doubling the mass of a wall takes off about 6 dB by the mass law and never adds anything.
func TestHeavierWall(t *testing.T) {
	b := demo(t, "dry-stack")
	l := layout(t, b, "as found")
	before := at(t, predict(t, b, l), "helm")
	heavy := *l
	heavy.Partitions = append([]path.Partition(nil), l.Partitions...)
	for i := range heavy.Partitions {
		p := &heavy.Partitions[i]
		if !strings.HasPrefix(p.Name, "wheelhouse") {
			continue
		}
		p.BuildUp = append(p.BuildUp[:0:0], p.BuildUp...)
		for k := range p.BuildUp {
			p.BuildUp[k].Mass *= 2
			if p.BuildUp[k].Mass == 0 {
				p.BuildUp[k].Thickness *= 2
			}
		}
	}
	after := at(t, predict(t, b, &heavy), "helm")
	require.Less(t, after.DBA(), before.DBA()-2)
	require.Greater(t, after.DBA(), before.DBA()-15)
}

// Turning and moving the outlet two metres further off is worth 20 lg of the distances, some dB.
func TestMovingTheOutlet(t *testing.T) {
	b := demo(t, "dry-stack")
	l := layout(t, b, "as found")
	before := at(t, predict(t, b, l), "wing deck")
	far := *l
	far.Exhausts = append([]path.Exhaust(nil), l.Exhausts...)
	far.Exhausts[0].Line.Outlet.At[0] -= 2
	after := at(t, predict(t, b, &far), "wing deck")
	gain := before.DBA() - after.DBA()
	require.Greater(t, gain, 1.0)
	require.Less(t, gain, 10.0)
}

// Lagging the stack does nothing for the firing tone at the helm (a pipe's wall is not what rules).
func TestLaggingTheStack(t *testing.T) {
	b := demo(t, "dry-stack")
	l := layout(t, b, "as found")
	lagged := *l
	lagged.Exhausts = append([]path.Exhaust(nil), l.Exhausts...)
	x := &lagged.Exhausts[0]
	x.Line.Elements = append([]silencer.Element(nil), x.Line.Elements...)
	for i, e := range x.Line.Elements {
		if p, ok := e.(*silencer.Pipe); ok {
			thick := *p
			thick.Lagging = silencer.Lagging{Thickness: 0.05, Material: "mineral wool"}
			x.Line.Elements[i] = &thick
		}
	}
	before, after := at(t, predict(t, b, l), "helm"), at(t, predict(t, b, &lagged), "helm")
	require.InDelta(t, before.DBA(), after.DBA(), 1.5)
}

// A hole cut into a tight box makes the casing louder outside it.
func TestHoleInTheBox(t *testing.T) {
	b := demo(t, "generator-box")
	l := layout(t, b, "as is")
	tight, holed := *l, *l
	tight.Enclosures = append([]path.Enclosure(nil), l.Enclosures...)
	holed.Enclosures = append([]path.Enclosure(nil), l.Enclosures...)
	tight.Enclosures[0].Openings = nil
	holed.Enclosures[0].Openings = []path.Opening{{Role: "inlet", Area: 0.06}, {Role: "outlet", Area: 0.06}}
	casing := func(l *path.Layout) float64 {
		p := predict(t, b, l)
		return p.Exhausts[0].Box.Sound.DBA
	}
	require.Greater(t, casing(&tight), casing(l))
	require.Greater(t, casing(l), casing(&holed)+3)
}

// Adding a way in never makes a place quieter, and moving away outdoors never makes it louder.
func TestMonotony(t *testing.T) {
	b := demo(t, "dry-stack")
	l := layout(t, b, "as found")
	more := *l
	more.Partitions = append(append([]path.Partition(nil), l.Partitions...), path.Partition{
		Name: "vent", Between: [2]string{path.Outside, "wheelhouse"}, Area: 0.05, OpenArea: 0.05})
	require.GreaterOrEqual(t, at(t, predict(t, b, &more), "helm").DBA(), at(t, predict(t, b, l), "helm").DBA()-1e-9)

	away := *b
	away.Edges = nil
	open := *l
	open.Spaces = append([]path.Space(nil), l.Spaces...)
	for i := range open.Spaces {
		open.Spaces[i].AtStated = false // no bodies in the way
	}
	last := 1e9
	for _, x := range []float64{-5, -10, -25, -60, -200} {
		away.Listeners = []path.Listener{{Name: "off", In: path.Outside, At: path.Point{x, 0, 1.5}}}
		level := predict(t, &away, &open).Listeners[0].DBA()
		require.Less(t, level, last)
		last = level
	}
}

// A stopped engine gives off nothing and needs no exhaust: what is heard is the background alone.
func TestStoppedEngine(t *testing.T) {
	b := demo(t, "dry-stack")
	off := *layout(t, b, "as found")
	off.Engines = append([]path.Engine(nil), off.Engines...)
	off.Engines[0].Stopped = true
	off.Exhausts = nil
	for _, h := range predict(t, b, &off).Listeners {
		require.Len(t, h.Routes, 1)
		require.Equal(t, path.ByBackground, h.Routes[0].Way)
		require.InDelta(t, map[bool]float64{true: 35, false: 30}[h.Listener.In == path.Outside], h.DBA(), 1e-9, "the usual one of %s", h.Listener.Name)
	}
}

// What the owner must not buy is refused in words: too wide for its trunk.
func TestRefusals(t *testing.T) {
	b := demo(t, "dry-stack")
	p := predict(t, b, layout(t, b, "reactive 406 mm in the trunk"))
	require.True(t, p.Refused)
	require.NotNil(t, p.Fits)
	require.False(t, *p.Fits)
	p = predict(t, b, layout(t, b, "reactive 356 mm in the trunk"))
	require.False(t, p.Refused, "27 mm each side is a caution")
	require.True(t, *p.Fits)
}

func TestMissingExhaustIsAnError(t *testing.T) {
	b := demo(t, "dry-stack")
	l := *layout(t, b, "as found")
	l.Exhausts = nil
	_, err := scene.Predict(b, &l)
	require.ErrorContains(t, err, "has no exhaust")
	require.ErrorContains(t, err, "hint:")
}
