package scene_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile/layers"
	"hushwake/path/panel"
	"hushwake/path/room"
	"hushwake/source/spectrum"
)

// twinSets is a layout of the generator demo with a second set like the first in the same box.
func twinSets(t *testing.T, name string) (*path.Boat, *path.Layout, *path.Layout) {
	t.Helper()
	b := demo(t, "generator-box")
	one := *layout(t, b, name)
	one.Enclosures = append([]path.Enclosure(nil), one.Enclosures...)
	one.Enclosures[0].Heat = 0 // to be reckoned
	two := one
	second, line := one.Engines[0], one.Exhausts[0]
	second.Name, line.Engine = "second set", "second set"
	two.Engines = append([]path.Engine{one.Engines[0]}, second)
	two.Exhausts = append([]path.Exhaust{one.Exhausts[0]}, line)
	return b, &one, &two
}

func verdicts(a room.Air) (codes string) {
	for _, v := range a.Verdicts {
		codes += v.Code + " "
	}
	return codes
}

// Two sets in one box: heat and air of both against the same holes, and one loss for the sound of both.
func TestTwoSetsInABox(t *testing.T) {
	b, one, two := twinSets(t, "smaller lined ducts with a fan")
	p, q := predict(t, b, one), predict(t, b, two)
	single, both := p.Exhausts[0].Box, q.Exhausts[0].Box
	require.Same(t, both, q.Exhausts[1].Box)
	require.Equal(t, "set and second set", both.Names())
	require.InEpsilon(t, 2*single.Air.Heat, both.Air.Heat, 1e-9)
	require.InEpsilon(t, 2*single.Air.CombustionAir, both.Air.CombustionAir, 1e-9)
	require.Equal(t, "ok ", verdicts(single.Air))
	require.Equal(t, "cooked ", verdicts(both.Air))
	require.Equal(t, single.Sound.Loss, both.Sound.Loss)
	require.InDelta(t, single.Sound.DBA, both.Sound.DBA, 1e-9, "equal sources twice")
	casing := func(engine string) spectrum.Bands {
		for _, r := range at(t, q, "cockpit").Routes {
			if r.Source == engine+" casing" {
				for _, s := range r.Steps {
					if strings.HasPrefix(s.Name, "enclosure ") {
						return s.Bands
					}
				}
			}
		}
		t.Fatal("no casing of " + engine)
		return spectrum.Bands{}
	}
	require.Equal(t, casing("set"), casing("second set"))
	cooked := 0
	for _, f := range q.Findings {
		if f.Code == "BOX-COOKED" {
			cooked++
		}
	}
	require.Equal(t, 1, cooked, "said once for the box")

	two.Engines[1].Cylinders = 6
	require.Contains(t, strings.Join(predict(t, b, two).Exhausts[0].Box.Sound.Warnings, "; "), "firing frequency 37.5 Hz", "the lower of the two")
	two.Engines[1].Stopped = true
	two.Exhausts = two.Exhausts[:1]
	require.Equal(t, *single, *predict(t, b, two).Exhausts[0].Box, "a set that stands still gives nothing")
}

// A stated heat is that of the whole box, however many sets run in it; the air they burn still adds up.
func TestStatedHeatOfTheBox(t *testing.T) {
	b, one, two := twinSets(t, "two bare holes")
	one.Enclosures[0].Heat = 2000 // shared by both layouts
	single, both := predict(t, b, one).Exhausts[0].Box.Air, predict(t, b, two).Exhausts[0].Box.Air
	require.Equal(t, 2000.0, both.Heat)
	require.InEpsilon(t, 2*single.CombustionAir, both.CombustionAir, 1e-9)
	one.Engines[0].Stopped = true
	none, err := path.Boxes(b, one)
	require.NoError(t, err)
	require.Empty(t, none, "nothing runs in it")
}

// What passes a box's walls follows its build-up and its lining: 100 W stays cool behind bare steel and does not
// behind lined plywood.
func TestHeatPassesTheWallsOfABox(t *testing.T) {
	b, one, _ := twinSets(t, "tight box, water-cooled")
	enc := &one.Enclosures[0]
	enc.Heat, enc.Lining = 100, ""
	area := 1.15*0.68 + 2*0.75*(1.15+0.68)
	air := func(layers ...string) room.Air {
		enc.BuildUp = nil
		for _, l := range layers {
			enc.BuildUp = append(enc.BuildUp, layer(t, l))
		}
		return predict(t, b, one).Exhausts[0].Box.Air
	}
	steel, wood := air("1.5 mm steel"), air("12 mm plywood", "50 mm foam", "5 kg/m2 limp mat")
	require.InEpsilon(t, area/0.17, steel.Walls, 0.01)
	require.InEpsilon(t, 3.1*area/4.7, wood.Walls, 0.2)
	require.InEpsilon(t, 100/steel.Walls, steel.Rise, 1e-9)
	require.Equal(t, "ok ", verdicts(steel))
	require.Equal(t, "cooked ", verdicts(wood))
	enc.Lining, enc.Thickness = "foam", 0.05
	require.InEpsilon(t, wood.Walls, air("12 mm plywood", "5 kg/m2 limp mat").Walls, 1e-9, "a lining holds heat back like a layer")
}

func layer(t *testing.T, text string) panel.Layer {
	t.Helper()
	l, err := layers.Parse(text, nil)
	require.NoError(t, err)
	return l
}
