package scene

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/tones"
	"hushwake/silencer"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// An order at a place is its level less the line's loss and the way's gain at its own frequency, whatever steps come
// behind; routes from outlet and pipe wall add up; other engines and ways bring none.
func TestOrdersAtAPlace(t *testing.T) {
	silent := spectrum.Fill(spectrum.Silent)
	level, orders := silent, []source.PipeOrder{{Order: 6, Frequency: 170, Level: 120}}
	level[2] = 110
	e := newEmitter("main exhaust", "outlet", path.Outside, path.Point{}, path.Step{Name: "source", Bands: level})
	e.engine, e.way, e.tones = "main", path.ByOutlet, tones.New(orders, []float64{10}, silent, level)
	r := trail{}.with("outlet", e.steps...).with("open air", path.Step{Name: "spreading", Bands: spectrum.Fill(-40)}).route(&e, nil)
	r.Steps = append(r.Steps, path.Step{Name: "middle of the draws", Bands: spectrum.Fill(2)})
	x := path.ExhaustResult{Engine: "main", Source: source.Result{Orders: orders, Exhaust: source.PipePart{Part: source.Part{Bands: spectrum.Fill(120)}}},
		Acoustics: silencer.Acoustics{LineLoss: []float64{10}}, OutletPower: level}
	p := path.Prediction{Exhausts: []path.ExhaustResult{x}}
	other := r
	other.Engine = "set"
	casing := r
	casing.Way = path.ByAir
	got := p.LinesAt(&path.Heard{Routes: []path.Route{r, other, casing}}, "main")
	require.Len(t, got, 1)
	require.InDelta(t, 72, got[0].Level, 1e-6)
	wall := path.Route{Engine: "main", Way: path.ByLineWall, Steps: []path.Step{{Bands: spectrum.Fill(120)}, {Bands: spectrum.Fill(-48)}}}
	require.InDelta(t, 72, p.LinesAt(&path.Heard{Routes: []path.Route{wall}}, "main")[0].Level, 1e-6)
	require.InDelta(t, 75.01, p.LinesAt(&path.Heard{Routes: []path.Route{r, wall}}, "main")[0].Level, 0.01)
	require.Empty(t, p.LinesAt(&path.Heard{Routes: []path.Route{r}}, "set"), "no such engine")
	require.Empty(t, p.LinesAt(&path.Heard{}, "main"))
}

// firing is an engine at a speed: a six-cylinder four-stroke.
func firing(name string, rpm float64) path.ExhaustResult {
	f := rpm / 20
	return path.ExhaustResult{Engine: name, Source: source.Result{FiringFrequency: source.PipeFiring(f), CycleFrequency: f / 6, Duty: source.Duty{Speed: rpm}}}
}

// Engines that turn alike share a doubt of their phase, 3 dB on what sits on orders; those that beat, or fire otherwise, don't.
func TestThePhaseOfTwins(t *testing.T) {
	broad := spectrum.Fill(60)
	outlet := func(name string) emitter {
		e := newEmitter(name+" exhaust", "outlet", path.Outside, path.Point{}, path.Step{Name: "source", Bands: broad})
		e.engine, e.way = name, path.ByOutlet
		e.tones = tones.New([]source.PipeOrder{{Order: 3, Frequency: 90, Level: 60}}, nil, broad, broad)
		return e
	}
	phase := func(a, b path.ExhaustResult) []path.Uncertain {
		all := []emitter{outlet(a.Engine), outlet(b.Engine), {engine: a.Engine, way: path.ByAir}}
		kept := all[0].steps[0].Uncertain
		synchronise(all, []path.ExhaustResult{a, b})
		require.Equal(t, len(all[0].steps[0].Uncertain), len(all[1].steps[0].Uncertain))
		require.Empty(t, kept, "the steps of others stay")
		if u := all[0].steps[0].Uncertain; len(u) > 0 {
			require.Equal(t, u[0].Key, all[1].steps[0].Uncertain[0].Key)
			return u
		}
		return nil
	}
	same := phase(firing("port", 1800), firing("starboard", 1800))
	require.Len(t, same, 1)
	require.InDelta(t, 1.5, same[0].SD[2], 1e-9, "half of the octave sits on orders")
	require.Zero(t, same[0].SD[4])
	require.Len(t, phase(firing("port", 1800), firing("starboard", 1801)), 1)
	require.Empty(t, phase(firing("port", 1800), firing("starboard", 1803)))
	odd := firing("set", 1800)
	odd.Source.CycleFrequency = 45
	require.Empty(t, phase(firing("port", 1800), odd), "two cylinders more")
}
