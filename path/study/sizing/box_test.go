package sizing

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/panel"
	"hushwake/path/room"
	"hushwake/path/scene"
	"hushwake/path/study/readings"
	"hushwake/testdata"
)

func setBoat(t *testing.T, layout string) (*path.Boat, *path.Layout) {
	t.Helper()
	text, err := testdata.Files.ReadFile("generator-box.yaml")
	require.NoError(t, err)
	b, err := boatfile.Load("generator-box.yaml", text)
	require.NoError(t, err)
	l, ok := b.Layout(layout)
	require.True(t, ok)
	return b, l
}

// small is a grid of 16 boxes that can be predicted one by one.
func small(enc path.Enclosure) BoxGrid {
	g := UsualBoxes(enc)
	g.Walls, g.Linings, g.Lengths, g.DuctLinings, g.Sections = g.Walls[:2], g.Linings[1:2], []float64{0, 0.6}, g.DuctLinings[:1], []float64{0.02, 0.045}
	g.Fans = g.Fans[len(g.Fans)-2 : len(g.Fans)-1]
	return g
}

// The search comes to what whole predictions of every box of a small grid come to, one by one: the same best, its level
// to 0.3 dB (what no route list holds), its temperature exactly.
func TestBoxSearchAgainstBruteForce(t *testing.T) {
	b, l := setBoat(t, "lined ducts")
	ear := b.Listeners[0]
	enc := l.Enclosures[0]
	limit := 273.15 + 52
	mass := 60.0
	budget := BoxBudget{Temperature: &limit, Mass: &mass}
	r, err := Box(context.Background(), b, l, "sound box", ear, small(enc), budget, Middle{})
	require.NoError(t, err)
	require.NotNil(t, r.Best)
	require.Equal(t, 16, r.Tried)
	best := math.Inf(1)
	s := boxSearch{boat: b, budget: budget}
	for _, c := range small(enc).choices() {
		tried := *mounted(l, "sound box", c.Mounts)
		tried.Enclosures = []path.Enclosure{c.Box(enc)}
		p, err := scene.Predict(b, &tried)
		require.NoError(t, err)
		air := p.Exhausts[0].Box.Air
		f := BoxFound{Temperature: air.Outside + air.Rise, Lives: air.Verdicts[0].Code == "ok", Level: p.Listeners[0].DBA()}
		f.Mass, f.Price, f.Volume = s.weigh(tried.Enclosures[0])
		if s.keeps(&f) && f.Level < best {
			best = f.Level
			require.NotNil(t, r.Best)
		}
	}
	require.InDelta(t, best, r.Front[0].Level, 0.3, "the quietest")
	require.LessOrEqual(t, r.Best.Level, r.Front[0].Level+1, "nobody hears 1 dB")
	require.LessOrEqual(t, r.Best.Mass, r.Front[0].Mass)
	require.True(t, r.Best.Lives)
	require.LessOrEqual(t, r.Best.Temperature, limit)
}

// Nothing of the front is beaten; the best is on it or reaches the level asked for at less mass; a level under what
// passes the box is out of reach and says by which way.
func TestBoxFrontAndTarget(t *testing.T) {
	b, l := setBoat(t, "lined ducts")
	g := UsualBoxes(l.Enclosures[0])
	g.Lengths, g.Sections, g.DuctLinings = []float64{0.6, 0.9}, []float64{0.03, 0.045}, g.DuctLinings[:1]
	r, err := Box(context.Background(), b, l, "sound box", b.Listeners[1], g, BoxBudget{}, Middle{})
	require.NoError(t, err)
	require.NotEmpty(t, r.Front)
	require.True(t, r.Reached)
	for i, a := range r.Front {
		require.True(t, a.Lives)
		require.GreaterOrEqual(t, a.Level, r.Floor-1e-9)
		for k, o := range r.Front {
			require.False(t, i != k && a.Level > o.Level && a.Temperature > o.Temperature && a.Mass > o.Mass && a.Volume > o.Volume)
		}
	}
	require.LessOrEqual(t, r.Best.Level, r.Front[0].Level+1)
	for _, f := range r.Front {
		require.False(t, f.Level <= r.Front[0].Level+1 && f.Mass < r.Best.Mass, "none as quiet is lighter")
	}

	easy := r.Best.Level + 1
	light, err := Box(context.Background(), b, l, "sound box", b.Listeners[1], g, BoxBudget{Level: &easy}, Middle{})
	require.NoError(t, err)
	require.True(t, light.Reached)
	require.LessOrEqual(t, light.Best.Mass, r.Best.Mass)
	require.LessOrEqual(t, light.Best.Level, easy)

	never := r.Floor - 20
	no, err := Box(context.Background(), b, l, "sound box", b.Listeners[1], g, BoxBudget{Level: &never}, Middle{})
	require.NoError(t, err)
	require.False(t, no.Reached)
	require.Contains(t, no.Words(&never), "out of reach of any box")
	require.Contains(t, no.Words(&never), no.Rest[0].Source)

	cold := 273.15
	none, err := Box(context.Background(), b, l, "sound box", b.Listeners[1], g, BoxBudget{Temperature: &cold}, Middle{})
	require.NoError(t, err)
	require.Nil(t, none.Best)
	require.Contains(t, none.Notes[0], "the coolest of all")
	require.NotEmpty(t, none.Front, "the nearest are told")
	dear := 2000.0
	none, err = Box(context.Background(), b, l, "sound box", b.Listeners[1], g, BoxBudget{Level: &never, Price: &dear}, Middle{})
	require.NoError(t, err)
	require.Nil(t, none.Best)
	for i, f := range none.Front {
		require.Len(t, f.Misses, 2, "the air is well wherever it can be")
		require.Contains(t, f.Misses[0], "level by ")
		require.Equal(t, "price unknown", f.Misses[1])
		require.True(t, f.Lives)
		require.True(t, i == 0 || none.Front[i-1].Level <= f.Level)
	}
}

// The ducts alone: everything else stays as it is.
func TestDuctsAlone(t *testing.T) {
	b, l := setBoat(t, "lined ducts")
	g := UsualBoxes(l.Enclosures[0]).DuctsOnly(l.Enclosures[0])
	r, err := Box(context.Background(), b, l, "sound box", b.Listeners[0], g, BoxBudget{}, Middle{})
	require.NoError(t, err)
	require.Equal(t, (4*2+1)*6, r.Tried)
	if r.Best != nil {
		require.Equal(t, l.Enclosures[0].BuildUp, r.Best.Walls)
		require.Equal(t, l.Enclosures[0].Fan, r.Best.Fan)
	}
	_, err = Box(context.Background(), b, l, "no box", b.Listeners[0], g, BoxBudget{}, Middle{})
	require.Error(t, err)
}

// Mass by hand: plywood of 600 kg/m3 and a mat on five faces, a duct of plywood.
func TestMassOfABox(t *testing.T) {
	b, l := setBoat(t, "two bare holes")
	enc := l.Enclosures[0]
	enc.BuildUp, enc.Lining, enc.Thickness, enc.Size = UsualBoxes(enc).Walls[2], "", 0, [3]float64{1, 1, 1}
	enc.Openings = []path.Opening{{Role: "inlet", Duct: &path.LinedDuct{Length: 2, Size: [2]float64{0.3, 0.2}}}}
	mass, price, volume := boxSearch{boat: b}.weigh(enc)
	require.InDelta(t, 5*(0.016*600+5)+2*1.0*7, mass, 1e-9)
	require.Nil(t, price)
	require.InDelta(t, 1.032*1.032*1.016, volume, 1e-9)
}

// Softer mounts make no place louder, and bring in a search what they bring by themselves, whatever readings move.
func TestMountsBringTheSameInASearch(t *testing.T) {
	b, l := setBoat(t, "as is")
	k, err := readings.Know(b, readings.Options{})
	require.NoError(t, err)
	g := BoxGrid{Walls: []panel.BuildUp{l.Enclosures[0].BuildUp}, Linings: []Lining{{"foam", 0.025}}, Lengths: []float64{0.6}, DuctLinings: []float64{0.025},
		Sections: []float64{0.03}, Fans: []*path.Fan{{Fan: room.Fan{Flow: 0.2, Pressure: 100}}}}
	borne := func(mounts string, m Middle) (structure, all float64) {
		g.Mounts = []string{mounts}
		r, err := Box(context.Background(), b, l, "sound box", b.Listeners[0], g, BoxBudget{}, m)
		require.NoError(t, err)
		require.NotNil(t, r.Best)
		for _, w := range r.Rest {
			if w.Way == path.ByStructure {
				structure = w.DBA
			}
		}
		return structure, r.Floor
	}
	stiff, loud := borne(asTheyAre, Middle{Levels: k.Quick, Air: k.Box})
	soft, quiet := borne(softMounts, Middle{Levels: k.Quick, Air: k.Box})
	was, _ := borne(asTheyAre, Middle{})
	is, _ := borne(softMounts, Middle{})
	require.InDelta(t, is-was, soft-stiff, 0.5, "readings move bands, not mounts")
	require.Less(t, soft, stiff-1)
	require.Less(t, quiet, loud)
}
