package scene_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
	"hushwake/silencer"
	"hushwake/silencer/safety"
	"hushwake/source/said"
)

// wetBoat is a boat of the kind that a published figure is about; the sizes in its file are usual ones, not measured.
func wetBoat(t testing.TB, name string) *path.Boat {
	t.Helper()
	b, err := boatfile.LoadFile("testdata/wetboats/" + name + ".yaml")
	require.NoError(t, err)
	return b
}

// Displacement boats with inboard engines are accepted without a pass-by test: the model must not say they fail it.
func TestDisplacementBoatsPass(t *testing.T) {
	for file, limit := range map[string]float64{"sail-2700": 72, "trawler-yacht": 75} {
		b := wetBoat(t, file)
		p, ok, err := scene.PassAtFullPower(b, b.Layouts[0])
		require.NoError(t, err)
		require.True(t, ok)
		require.Equal(t, limit, p.Limit)
		require.Less(t, p.Level, p.Limit, file)
		found := predict(t, b, b.Layouts[0])
		require.NoError(t, scene.PassBy(b, &found))
		noted := false
		for _, f := range found.Findings {
			if f.Code == "PASS-BY" {
				noted = true
				require.Contains(t, f.Text, "at full power")
				require.Contains(t, said.Plain(f.Text), fmt.Sprintf("%.0f dB(A) come out at 25 m", p.Level))
				require.Contains(t, f.Text, "within the")
				require.Equal(t, safety.Note, f.Severity)
			}
		}
		require.True(t, noted)
	}
	// A dry boat keeps the note at the duty predicted, a moored generator passes nobody.
	b := demo(t, "dry-stack")
	dry := predict(t, b, b.Layouts[0])
	before := dry.Findings
	require.NoError(t, scene.PassBy(b, &dry))
	require.Equal(t, before, dry.Findings)
	set := demo(t, "generator-box")
	_, ok, err := scene.PassAtFullPower(set, set.Layouts[0])
	require.NoError(t, err)
	require.False(t, ok)
}

// outletLevel is the level at a quay with the sailing boat's outlet and water changed.
func outletLevel(t *testing.T, in *scene.Session, b *path.Boat, depth, litres float64) float64 {
	l := *b.Layouts[0]
	l.Exhausts = append([]path.Exhaust(nil), l.Exhausts...)
	x := &l.Exhausts[0]
	x.Line.Elements = append([]silencer.Element(nil), x.Line.Elements...)
	w := *x.Line.Elements[1].(*silencer.WaterInjection)
	w.Flow = litres / 60000
	x.Line.Elements[1] = &w
	x.Line.Outlet.At[2], x.Line.Outlet.BelowWater = -depth, math.Max(0, depth)
	p, err := in.Predict(&l, path.Fast)
	require.NoError(t, err)
	return p.Listeners[0].DBA()
}

// From 150 mm above to 600 mm below the water in 5 mm the level at a quay never steps by more than 0.7 dB, and water never
// makes it louder by more than 0.5 dB as its flow grows.
func TestOutletDepthAndWaterFlow(t *testing.T) {
	b := wetBoat(t, "sail-2700")
	b.Listeners = []path.Listener{{Name: "quay", In: path.Outside, At: path.Point{-20, 5, 1.5}}}
	past, in := math.NaN(), scene.NewSession(b)
	for i := -30; i <= 120; i++ {
		l := outletLevel(t, in, b, float64(i)*.005, 20)
		if !math.IsNaN(past) {
			require.LessOrEqual(t, math.Abs(l-past), .7, "%d mm", 5*i)
			require.LessOrEqual(t, l, past+.2, "deeper is louder at %d mm", 5*i)
		}
		past = l
	}
	least := math.Inf(1)
	for _, litres := range []float64{10, 15, 20, 30, 45, 65, 90, 130, 200} {
		l := outletLevel(t, in, b, -.15, litres)
		require.LessOrEqual(t, l, least+.5, "%g L/min", litres)
		least = math.Min(least, l)
	}
}

// Every cause of error that a line names reaches the ear's chain, and a wet step says what it comes from.
func TestWetDoubtsReachTheChain(t *testing.T) {
	b := wetBoat(t, "sail-2700")
	p := predict(t, b, b.Layouts[0])
	keys := map[string]bool{}
	for _, r := range at(t, p, "cockpit").Routes {
		for _, s := range r.Steps {
			for _, u := range s.Uncertain {
				keys[u.Key] = true
			}
			if s.Name == "insertion loss of the line" {
				require.NotEmpty(t, s.Notes)
			}
		}
	}
	for _, d := range p.Exhausts[0].Acoustics.Doubts {
		require.True(t, keys[d.Key], d.Key)
	}
	require.True(t, keys["outlet at the water"])
}

// At part load the pump turns slower: the line of the running duty gets the stated water times the share of the speed.
func TestWaterAtPartLoad(t *testing.T) {
	b := wetBoat(t, "sail-750")
	r := predict(t, b, b.Layouts[0]).Exhausts[0]
	march := func(share float64) float64 {
		f := path.Feed(r.Source, b.Air)
		f.WaterShare = share
		m, err := b.Layouts[0].Exhausts[0].Line.March(f, silencer.Options{Ceiling: true})
		require.NoError(t, err)
		return m.BackPressure
	}
	require.InDelta(t, march(750.0/3600), r.Running.BackPressure, 1e-6)
	require.Greater(t, march(1), r.Running.BackPressure+50)
}
