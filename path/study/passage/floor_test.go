package passage

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// way is a route of one octave, whose A-weighted level it has.
func way(source string, by path.Way, dBA float64) path.Route {
	b := spectrum.Fill(spectrum.Silent)
	b[5] = dBA
	return path.Route{Source: source, Way: by, Bands: b, AWeight: spectrum.Fill(0)}
}

// seat is what is heard at the helm by some routes.
func seat(name string, routes ...path.Route) path.Prediction {
	return path.Prediction{Layout: &path.Layout{Name: name}, Listeners: []path.Heard{{Listener: path.Listener{Name: "helm"}, Routes: routes}}}
}

// The floor is what stays without the outlets, the lowest of the layouts; the shares are those of energy: a tenth of a
// decibel more of silencing lowers the seat by their part of it.
func TestFloorAndShares(t *testing.T) {
	loud := seat("dry", way("main exhaust", path.ByOutlet, 80), way("main casing", path.ByAir, 70), way("main exhaust", path.ByLineWall, 60))
	quiet := seat("wet", way("main exhaust", path.ByOutlet, 70), way("main casing", path.ByAir, 70), way("background", path.ByBackground, 40))
	floors := Floors([]path.Prediction{loud, quiet}, unlike)
	f := floors[0]
	require.InDelta(t, 70.004, f.Level, 1e-3)
	require.InDelta(t, 70.414, f.Most, 1e-3, "of the other layout, whose walls stay")
	require.Equal(t, "wet", f.Layout)
	require.Equal(t, "main casing", f.Rest[0].Source)
	require.Nil(t, f.Rest[0].Middle)
	require.InDelta(t, path.UsualBackground("").Bands.DBA(), *f.Rest[1].Middle, 1e-9, "nobody stated it")
	quiet.Listeners[0].Listener.Background = path.Background{Bands: path.BackgroundOf(40), SD: 2}
	require.Nil(t, Floors([]path.Prediction{quiet}, unlike)[0].Rest[1].Middle, "stated")
	require.InDelta(t, 0.5, f.Under[1].Share, 1e-3)
	require.Equal(t, "main exhaust walls", Floors([]path.Prediction{loud}, unlike)[0].Rest[1].Source)
	h := loud.Listeners[0]
	sum := 0.0
	for _, e := range h.ByWay() {
		sum += e
	}
	require.InDelta(t, h.DBA(), spectrum.Level(sum), 1e-9)
	less := seat("dry", way("main exhaust", path.ByOutlet, 79.9), h.Routes[1], h.Routes[2])
	require.InDelta(t, 0.1*f.Under[0].Share, h.DBA()-less.Listeners[0].DBA(), 1e-3)
	require.Empty(t, Floors(nil, unlike))
	silent := Floors([]path.Prediction{seat("sail")}, unlike)
	require.Less(t, silent[0].Level, 0.0)
	require.Zero(t, silent[0].Under[0].Share)
}

// A background of none changes nothing; one equal to the rest adds 3.01 dB to the floor.
func TestBackgroundInTheFloor(t *testing.T) {
	rest := way("main casing", path.ByAir, 66)
	with := func(level float64) float64 {
		return Floors([]path.Prediction{seat("dry", way("main exhaust", path.ByOutlet, 90), rest, way("background", path.ByBackground, level))}, unlike)[0].Level
	}
	require.InDelta(t, 66, with(spectrum.Silent), 1e-9)
	require.InDelta(t, 69.0103, with(66), 1e-4)
}

// unlike hears every difference.
func unlike(_, _, _ int) bool { return false }

// Layouts that nobody tells from the quietest of them are one group, by the rule that it is given, not by their levels.
func TestAlikeAtTheFloor(t *testing.T) {
	all := []Under{{Layout: "a", Level: 70}, {Layout: "b", Level: 75}, {Layout: "c", Level: 70.9}, {Layout: "d", Level: 71}, {Layout: "e", Level: 71.5}}
	near := func(a, b int) bool { return math.Abs(all[a].Level-all[b].Level) < 1 }
	require.Equal(t, [][]string{{"a", "c"}, {"d", "e"}}, alike(all, near))
	require.Equal(t, [][]string{{"a", "c", "d", "e"}}, alike(all, func(_, b int) bool { return b != 1 }))
	require.Empty(t, alike(all[:1], near))
	require.Empty(t, alike([]Under{{Layout: "a", Level: 70}, {Layout: "b", Level: 70, Asked: true}}, near), "no firm level")
	open := seat("open", way("main casing", path.ByAir, 66))
	open.Questions = []string{"what is its loss?"}
	f := Floors([]path.Prediction{seat("dry", way("main casing", path.ByAir, 66)), open}, func(_, _, _ int) bool { return true })[0]
	require.Equal(t, []bool{false, true}, []bool{f.Under[0].Asked, f.Under[1].Asked})
	require.Empty(t, f.Alike)
}

// The lines of the annex's engine: by the level and the critical band noise they stand over it by what is printed, 0.05 dB.
// (ISO/PAS 20065:2016 annex E, by a transcription; LS is the mean of lines of 2.7 Hz, so that the octave holds octave/2.7 of them.)
func TestAudibilityOfPublishedTones(t *testing.T) {
	for _, c := range []struct{ f, ls, lt, over float64 }{{118.4, 48.91, 64.56, 1.92}, {314.9, 52.85, 68.50, 1.78}, {592.2, 59.53, 78.31, 4.55}, {1582.7, 54.16, 71.07, 0.73}} {
		octave := spectrum.Exact[spectrum.BandOf(c.f)] / math.Sqrt2
		require.InDelta(t, c.over, audibility(c.f, c.lt, c.ls+10*math.Log10(octave/2.7)), 0.05, "%g Hz", c.f)
	}
	require.Less(t, audibility(100, 40, 60), 0.0)
	require.True(t, math.IsInf(audibility(3, 40, 60), -1), "below the octaves nobody hears a tone")
}

// A measured background covers an order; a usual one, which nobody measured, covers nothing.
func TestMasking(t *testing.T) {
	p := toned("dry", 30, [2]float64{1800, 1700})
	p.Listeners[0].Listener.Background = path.Background{Bands: spectrum.Fill(60), SD: 2, When: "sailing at 6 kn"}
	found := Floors([]path.Prediction{p}, unlike)[0].Masked
	require.Len(t, found, 2)
	require.Equal(t, 90.0, found[0].Frequency)
	require.Equal(t, "sailing at 6 kn", found[0].When)
	p.Listeners[0].Listener.Background.Usual = true
	require.Empty(t, Floors([]path.Prediction{p}, unlike)[0].Masked)
	loud := toned("dry", 90, [2]float64{1800, 1700})
	loud.Listeners[0].Listener.Background = path.Background{Bands: spectrum.Fill(60), SD: 2}
	require.Empty(t, Floors([]path.Prediction{loud}, unlike)[0].Masked)
}

// toned is two six-cylinder four-strokes whose third order reaches the helm at a level, dB.
func toned(name string, level float64, rpm [2]float64) path.Prediction {
	p := seat(name)
	p.Listeners[0].Routes = nil
	for i, engine := range []string{"port", "starboard"} {
		f := 3 * rpm[i] / 60
		s := source.Result{Duty: source.Duty{Speed: rpm[i], Power: 1e5}, FiringFrequency: source.PipeFiring(f), CycleFrequency: f / 6, Orders: []source.PipeOrder{{Order: 3, Frequency: f, Level: 120}}}
		x := path.ExhaustResult{Engine: engine, Source: s, OutletPower: spectrum.Fill(110)}
		x.Acoustics.LineLoss = []float64{10}
		p.Exhausts = append(p.Exhausts, x)
		b := spectrum.Fill(spectrum.Silent)
		b[spectrum.BandOf(f)] = level
		p.Listeners[0].Routes = append(p.Listeners[0].Routes, path.Route{Source: engine + " exhaust", Engine: engine, Way: path.ByOutlet, Bands: b, AWeight: spectrum.Fill(spectrum.AAt(f)),
			Steps: []path.Step{{Bands: spectrum.Fill(110)}, {Bands: spectrum.Fill(level - 110)}}})
	}
	return p
}

// Beats in closed form: equal lines peak 6.02 dB over one and 3.01 over their mean, with silence between; the mean energy
// of the extremes is that of the sum; other sound fills the troughs.
func TestSwing(t *testing.T) {
	low, high := swing(80, 80, spectrum.Silent)
	require.InDelta(t, 86.02, high, 0.01)
	require.Less(t, low, 0.0)
	low, high = swing(80, 74, spectrum.Silent)
	require.InDelta(t, 20*math.Log10(1e4+math.Pow(10, 74.0/20)), high, 0.01)
	require.InDelta(t, 20*math.Log10(1e4-math.Pow(10, 74.0/20)), low, 0.01)
	require.InDelta(t, spectrum.Sum(80, 74), spectrum.Level((spectrum.Power(low)+spectrum.Power(high))/2), 0.01)
	a, b := swing(74, 80, spectrum.Silent)
	require.Equal(t, []float64{low, high}, []float64{a, b}, "whichever is the first")
	filled, _ := swing(80, 80, 78)
	require.InDelta(t, 78, filled, 0.01)
}

// Six-cylinder four-strokes, order 3: 1800 against 1803 rpm beat at 0.15 Hz, against 1840 at 2 Hz; turned alike the
// phase is chance; far apart nothing beats.
func TestBeatsOfTwins(t *testing.T) {
	require.InDelta(t, 0.15, beatFrequency(3, 1800, 1803), 0.01)
	require.InDelta(t, 2, beatFrequency(3, 1840, 1800), 0.01)
	for _, c := range []struct {
		next, hz float64
		together bool
	}{{1803, 0.15, false}, {1840, 2, false}, {1800, 0, true}, {1801, 0.05, true}} {
		b := Beats([]path.Prediction{toned("dry", 70, [2]float64{1800, c.next})})
		require.Len(t, b, 1)
		require.InDelta(t, c.hz, b[0].Frequency, 0.01)
		require.Equal(t, c.together, b[0].Together)
		require.Equal(t, 200.0, b[0].Part, "ten a second")
		peak := math.Pow(10, spectrum.AAt(90)/20) + math.Pow(10, spectrum.AAt(c.next/20)/20)
		require.InDelta(t, 70+20*math.Log10(peak), b[0].High, 0.01)
	}
	require.Empty(t, Beats([]path.Prediction{toned("dry", 70, [2]float64{1800, 2100})}))
	one := toned("dry", 70, [2]float64{1800, 1800})
	one.Exhausts = one.Exhausts[:1]
	require.Empty(t, Beats([]path.Prediction{one}))
}

// The layout that swings most tells it.
func TestTheWorstLayoutTellsTheBeat(t *testing.T) {
	drowned := toned("drowned", 70, [2]float64{1800, 1803})
	drowned.Listeners[0].Routes = append(drowned.Listeners[0].Routes, way("main casing", path.ByAir, 60))
	b := Beats([]path.Prediction{drowned, toned("bare", 70, [2]float64{1800, 1803})})
	require.Len(t, b, 1)
	require.Equal(t, "bare", b[0].Layout)
	require.Equal(t, "drowned", Beats([]path.Prediction{drowned})[0].Layout)
}
