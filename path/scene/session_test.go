package scene_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/silencer"
	"hushwake/testdata/turns"
)

// A point of a sweep is within 0.01 dB(A) at every seat of the full form, with the same back pressure and
// the same refusals, on every layout of the demos.
func TestPointsAreThoseOfTheFullForm(t *testing.T) {
	for _, name := range demoFiles {
		b := demo(t, name)
		session := scene.NewSession(b)
		for n, l := range b.Layouts {
			full := full()[name][n]
			points, err := session.Predict(l, path.Points)
			require.NoError(t, err)
			require.Empty(t, points.Findings, "levels at many speeds are not judged")
			for i, h := range full.Listeners {
				require.InDelta(t, h.DBA(), points.Listeners[i].DBA(), 0.01, "%s at %s", l.Name, h.Listener.Name)
			}
			for i, x := range full.Exhausts {
				require.Equal(t, x.Running.BackPressure, points.Exhausts[i].Running.BackPressure)
				for band, v := range x.Acoustics.InsertionLoss {
					require.InDelta(t, v, points.Exhausts[i].Acoustics.InsertionLoss[band], 0.02, "%s, band %d", l.Name, band)
				}
			}
		}
	}
}

// A session remembers ways, not levels: a quiet engine, a loud one and the quiet one again each get what a session of
// their own gives, in any form, though other ways end as too faint.
func TestSessionForgetsNothing(t *testing.T) {
	b := demo(t, "dry-stack")
	l := b.Layouts[0]
	at := func(db float64) *path.Layout {
		out := *l
		out.Engines = append([]path.Engine(nil), l.Engines...)
		for i := range out.Engines {
			e := &out.Engines[i]
			r, err := e.Engine.At(e.Running)
			require.NoError(t, err)
			level, casing := r.Exhaust.Bands.Shift(db), r.Casing.Bands.Shift(db)
			e.ExhaustLevel, e.CasingLevel = &level, &casing
		}
		return &out
	}
	quiet, loud := at(-50), at(20)
	forms := []path.Form{path.Full, path.Fast, path.Routes, path.Points}
	for i := range turns.Of(t, len(forms), 2) {
		form := forms[i]
		session, alone := scene.NewSession(b), map[*path.Layout]path.Prediction{}
		for _, as := range []*path.Layout{quiet, loud} {
			p, err := scene.PredictIn(b, as, form)
			require.NoError(t, err)
			alone[as] = p
		}
		for _, as := range []*path.Layout{quiet, loud, quiet, loud} {
			want := alone[as]
			got, err := session.Predict(as, form)
			require.NoError(t, err)
			for i, h := range want.Listeners {
				require.InDelta(t, h.DBA(), got.Listeners[i].DBA(), 1e-9, h.Listener.Name)
				require.Len(t, got.Listeners[i].Routes, len(h.Routes), h.Listener.Name)
				for k, r := range h.Routes {
					require.Equal(t, len(r.Steps), len(got.Listeners[i].Routes[k].Steps))
					require.Equal(t, r.Route, got.Listeners[i].Routes[k].Route)
				}
			}
		}
	}
}

// Layouts of one session that differ in their walls do not share what lies between sources and listeners.
func TestSessionTellsLayoutsApart(t *testing.T) {
	b := demo(t, "dry-stack")
	session := scene.NewSession(b)
	for _, l := range []*path.Layout{b.Layouts[0], b.Layouts[1], b.Layouts[0]} {
		want := predict(t, b, l)
		got, err := session.Predict(l, path.Full)
		require.NoError(t, err)
		require.Equal(t, want.Listeners[0].DBA(), got.Listeners[0].DBA())
		require.Equal(t, want.Warnings, got.Warnings)
	}
	_, err := session.Predict(&path.Layout{Name: "empty", Spaces: []path.Space{{Name: "room", Lining: "no such lining"}}}, path.Points)
	require.ErrorContains(t, err, "no such lining")
}

// What a wall is made of leaves the ways through the open air as they are, to the bit; its area, place and space don't. A run takes
// half of them.
func TestSessionKeepsTheGround(t *testing.T) {
	b := demo(t, "dry-stack")
	session := scene.NewSession(b)
	as, err := session.Predict(b.Layouts[0], path.Fast)
	require.NoError(t, err)
	changes := map[string]func(l *path.Layout, p *path.Partition){
		"build-up": func(_ *path.Layout, p *path.Partition) { p.BuildUp = append(p.BuildUp[:0:0], p.BuildUp[0]) },
		"open":     func(_ *path.Layout, p *path.Partition) { p.OpenArea += 0.01 },
		"area":     func(_ *path.Layout, p *path.Partition) { p.Area *= 2 },
		"place":    func(_ *path.Layout, p *path.Partition) { p.At[0]++ },
		"space":    func(l *path.Layout, _ *path.Partition) { l.Spaces[0].At[2] += 0.2 },
		"engine":   func(l *path.Layout, _ *path.Partition) { l.Engines[0].At[0] += 0.3 },
	}
	names := slices.Sorted(maps.Keys(changes))
	for i := range turns.Of(t, len(names), 2) {
		name, change := names[i], changes[names[i]]
		l := *b.Layouts[0]
		l.Spaces, l.Partitions, l.Engines = slices.Clone(l.Spaces), slices.Clone(l.Partitions), slices.Clone(l.Engines)
		for i := range l.Partitions {
			if p := &l.Partitions[i]; p.Usual == nil && slices.Contains(p.Between[:], path.Outside) {
				change(&l, p)
			}
		}
		got, err := session.Predict(&l, path.Fast)
		require.NoError(t, err, name)
		want, err := scene.PredictIn(b, &l, path.Fast)
		require.NoError(t, err, name)
		require.Equal(t, want.Listeners, got.Listeners, name)
		require.NotEqual(t, as.Listeners[0].DBA(), got.Listeners[0].DBA(), name)
	}
}

// Ways that emitters of a room share, and what unchanged emitters bring, are to the bit those of a session of its own, the first time
// and the fourth, after a layout whose line differs.
func TestSessionKeepsWhatStays(t *testing.T) {
	b := demo(t, "dry-stack")
	session := scene.NewSession(b)
	for _, by := range []float64{0, 0.2, 0, 0, 0} {
		l := longer(b.Layouts[4], by)
		got, err := session.Predict(l, path.Routes)
		require.NoError(t, err)
		want, err := scene.PredictIn(b, l, path.Routes)
		require.NoError(t, err)
		require.Equal(t, want.Listeners, got.Listeners, "%g m longer", by)
	}
}

// Two alike engines in the room of the ear: the nearer is louder there, whichever of them the file names first.
func TestTwoSourcesInTheRoomOfTheEar(t *testing.T) {
	text := small(1, "")
	block := text[strings.Index(text, "  main:"):strings.Index(text, "spaces:")]
	second := strings.NewReplacer("main:", "second:", "[2 m, 0 m, 0 m]", "[2.9 m, 0.9 m, 0 m]").Replace(block)
	line := text[strings.LastIndex(text, "      main:"):]
	text += strings.NewReplacer("main:", "second:", "0.4 m, 0.6 m]", "-0.4 m, 0.6 m]").Replace(line)
	text = strings.Replace(text, "listeners:\n", "listeners:\n  beside: {in: engine room, at: [2.7 m, 0.7 m, 0.3 m]}\n", 1)
	for _, engines := range []string{block + second, second + block} {
		b := read(t, strings.Replace(text, block, engines, 1))
		level := map[string]float64{}
		for _, r := range at(t, predict(t, b, b.Layouts[0]), "beside").Routes {
			if r.Way == path.ByAir {
				level[r.Source] = max(level[r.Source], r.DBA())
			}
		}
		require.Greater(t, level["second casing"], level["main casing"]+0.5, "in bare steel the field of the room is most of it (1 dB was asked first: 0.9 came)")
	}
}

// Other air is other ground: in hot and dry air the next session hears what one hears that knows of no other.
func TestGroundIsThatOfItsAir(t *testing.T) {
	b := demo(t, "dry-stack")
	predict(t, b, b.Layouts[0])
	b.Air.Temperature, b.Air.Humidity = 313.15, 0.2
	hot := predict(t, b, b.Layouts[0])
	scene.ForgetGrounds()
	require.Equal(t, predict(t, b, b.Layouts[0]).Listeners, hot.Listeners)
}

// BenchmarkEdit predicts one layout anew at all seats after a room of its silencer has changed, with all steps.
func BenchmarkEdit(b *testing.B) {
	boat := demo(b, "dry-stack")
	session := scene.NewSession(boat)
	n := 0.0
	for b.Loop() {
		n++
		l := longer(boat.Layouts[4], 1e-4*n)
		if _, err := session.Predict(l, path.Full); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSpeeds predicts levels of one layout at a new engine speed each time.
func BenchmarkSpeeds(b *testing.B) {
	boat := demo(b, "dry-stack")
	session := scene.NewSession(boat)
	rpm := 1000.0
	for b.Loop() {
		rpm += 0.1
		l := *boat.Layouts[4]
		l.Engines = append([]path.Engine(nil), l.Engines...)
		l.Engines[0].Running = l.Engines[0].DutyAt(rpm)
		if _, err := session.Predict(&l, path.Points); err != nil {
			b.Fatal(err)
		}
	}
}

// longer is a layout whose chambers have a longer first room, m.
func longer(l *path.Layout, by float64) *path.Layout {
	out := *l
	out.Exhausts = append([]path.Exhaust(nil), l.Exhausts...)
	for i := range out.Exhausts {
		line := &out.Exhausts[i].Line
		line.Elements = append([]silencer.Element(nil), line.Elements...)
		for k, e := range line.Elements {
			if c, ok := e.(*silencer.Chamber); ok {
				with := *c
				with.Rooms = append([]float64(nil), c.Rooms...)
				with.Rooms[0] += by
				line.Elements[k] = &with
			}
		}
	}
	return &out
}

// A set that keeps its speed while the other engine is swept gives at each speed what it gives in a session of its own, and
// so does the engine that is swept, also when it comes back to a speed that it had, or is rated for less on the same line.
func TestSweptLinesAreTheirOwn(t *testing.T) {
	b := demo(t, "everything")
	l := b.Layouts[0]
	rated := l.Engines[0].Rated.Power
	at := func(rpm float64) *path.Layout {
		out := *l
		out.Engines = slices.Clone(l.Engines)
		out.Engines[0].Rated.Power = rated
		out.Engines[0].RunAt(out.Engines[0].DutyAt(rpm))
		return &out
	}
	session := scene.NewSession(b)
	var seen []path.Prediction
	for k, rpm := range []float64{1200, 1900, 1200, 1200} {
		if k == 3 {
			rated *= 0.8
		}
		got, err := session.Predict(at(rpm), path.Points)
		require.NoError(t, err)
		alone, err := scene.PredictIn(b, at(rpm), path.Points)
		require.NoError(t, err)
		require.Len(t, got.Exhausts, 2)
		for i, x := range alone.Exhausts {
			require.Equal(t, x.Running, got.Exhausts[i].Running)
			require.Equal(t, x.Rated, got.Exhausts[i].Rated)
			require.Equal(t, x.OutletPower, got.Exhausts[i].OutletPower)
			require.Equal(t, x.Shells, got.Exhausts[i].Shells)
		}
		for j := range alone.Listeners {
			require.Equal(t, alone.Listeners[j].Bands, got.Listeners[j].Bands)
		}
		seen = append(seen, got)
	}
	require.NotEqual(t, seen[0].Exhausts[0].Running, seen[1].Exhausts[0].Running)
	require.Equal(t, seen[0].Exhausts[0].Rated, seen[1].Exhausts[0].Rated)
	require.NotEqual(t, seen[0].Exhausts[0].Rated, seen[3].Exhausts[0].Rated)
	require.Equal(t, seen[0].Exhausts[1].Running, seen[1].Exhausts[1].Running)
}
