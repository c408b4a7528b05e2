package scene_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
)

// alone is one wall of an engine room in the open, everything else silent enough to leave out.
func wallAlone(t *testing.T, partition, space, ears string) path.Prediction {
	t.Helper()
	b := read(t, `boat: "one wall (invented)"
engines:
  main: {cycle: four-stroke, cylinders: 4, aspiration: natural, rated: {power: 40 kW, speed: 2600 rpm}, in: engine space}
spaces:
  engine space: {`+space+`size: [3 m, 3 m, 2 m], lining: furnished cabin}
partitions:
  - {between: [engine space, outside], name: hatch, area: 1 m2, build_up: [1.6 mm steel], open_area: 0.2 m2`+partition+`}
listeners:
`+ears+`
layouts:
  - name: plain
    exhausts:
      main: {line: [{pipe: {bore: 60 mm, length: 4 m, wall: 3 mm, material: mild steel, in: outside}}], outlet: {at: [-3000 m, 0 m, 0.5 m], pointing: aft}}
`)
	return predict(t, b, b.Layouts[0])
}

// byHatch is the loudest route through the hatch.
func byHatch(t *testing.T, h *path.Heard) path.Route {
	t.Helper()
	for _, r := range h.Routes {
		if strings.Contains(r.Route, "hatch") && r.Way == path.ByAir {
			return r
		}
	}
	t.Fatal("no route by the hatch")
	return path.Route{}
}

func doubtOf(r path.Route, term string) (sd float64) {
	for _, s := range r.Steps {
		for _, u := range s.Uncertain {
			if u.Term == term {
				sd = math.Max(sd, u.SD[5])
			}
		}
	}
	return sd
}

// A hatch of which nothing is known stands nowhere near the transom: it is as loud ahead as aft of the boat's middle,
// no louder than at half a boat's length anywhere, with a doubt of some dB near by that fades far off.
func TestPlaceNotStated(t *testing.T) {
	p := wallAlone(t, ", facing: up", "", "  near: {in: outside, at: [0.3 m, 0 m, 1 m]}\n  ahead: {in: outside, at: [9.7 m, 0 m, 1 m]}\n  far: {in: outside, at: [85 m, 0 m, 1 m]}")
	near, ahead, far := byHatch(t, at(t, p, "near")), byHatch(t, at(t, p, "ahead")), byHatch(t, at(t, p, "far"))
	require.InDelta(t, near.DBA(), ahead.DBA(), 0.01)
	require.Greater(t, doubtOf(near, "place"), 3.9) // 4.0 until the walls that nobody stated stood with it in one unknown place
	require.Less(t, doubtOf(far, "place"), 0.5)
	require.Greater(t, doubtOf(near, "place"), doubtOf(far, "place"))
	known := wallAlone(t, ", facing: up", "at: [-1 m, -1.5 m, -1 m], ", "  near: {in: outside, at: [0.5 m, 0 m, 1.5 m]}")
	hatch := byHatch(t, at(t, known, "near"))
	require.Zero(t, doubtOf(hatch, "place"))
	require.Greater(t, hatch.DBA(), near.DBA()+8, "half a metre over the middle of its roof")
}

// What a place not stated costs is listed.
func TestPlaceNotStatedIsListed(t *testing.T) {
	b := read(t, strings.Replace(twins, "at: [3.5 m, -1.5 m, -0.6 m], ", "", 1))
	found := 0.0
	for _, a := range b.Assumptions {
		if a.Field == "partitions.hatch two at" {
			found = a.PlusMinusDB
		}
	}
	require.Equal(t, 6.0, found)
}

// Without a facing a wall is met at 45 deg: 1.5 dB under one that looks straight at the outlet far off.
func TestFacingNotKnownCostsASlant(t *testing.T) {
	level := func(facing string) float64 {
		b := read(t, `boat: "a slant (invented)"
hull: {material: grp}
engines:
  main: {cycle: four-stroke, cylinders: 4, aspiration: natural, rated: {power: 40 kW, speed: 2600 rpm}, in: outside, at: [-40 m, 0 m, 1 m]}
spaces:
  cabin: {size: [3 m, 3 m, 2 m], lining: furnished cabin}
partitions:
  - {between: [cabin, outside], name: window, at: [0 m, 0 m, 1 m], area: 1 m2, build_up: [6 mm glass], open_area: 0 m2`+facing+`}
listeners:
  seat: {in: cabin, at: [1 m, 0 m, 1 m]}
layouts:
  - name: plain
    exhausts:
      main: {line: [{pipe: {bore: 60 mm, length: 4 m, in: outside}}], outlet: {at: [-40 m, 0 m, 1 m], pointing: aft}}
`)
		p := predict(t, b, b.Layouts[0])
		for _, r := range at(t, p, "seat").Routes {
			if r.Way == path.ByOutlet && strings.Contains(r.Route, "window") {
				return r.DBA()
			}
		}
		t.Fatal("no route")
		return 0
	}
	require.InDelta(t, 10*math.Log10(math.Sqrt2/2), level("")-level(", facing: aft"), 0.02)
	require.InDelta(t, 10*math.Log10(0.25), level(", facing: forward")-level(", facing: aft"), 0.02, "turned away: scattered sound alone")
}

// Farther off is never louder: a listener before a large wall, walking out along its normal or slantwise.
func TestFartherFromAWallIsNeverLouder(t *testing.T) {
	for _, slant := range []float64{0, 0.5, 2} {
		ears := ""
		for i := range 12 {
			d := 0.3 * math.Pow(1.4, float64(i))
			ears += fmt.Sprintf("  ear%d: {in: outside, at: [%.3f m, %.3f m, 0.6 m]}\n", i, 2+d, slant*d)
		}
		p := wallAlone(t, ", at: [2 m, 0 m, 0.6 m], facing: forward", "at: [-1 m, -1.5 m, -0.4 m], ", ears)
		last := math.Inf(1)
		for i := range 12 {
			level := byHatch(t, at(t, p, fmt.Sprintf("ear%d", i))).DBA()
			require.LessOrEqual(t, level, last+1e-9, "slant %g, ear %d", slant, i)
			last = level
		}
	}
}

// An outlet on the skin of a space is heard as one 2 cm before it or behind it, to 1 dB.
func TestOutletOnASkin(t *testing.T) {
	level := func(x float64) (out [2]float64) {
		b := read(t, strings.NewReplacer("at: [0 m, 3 m, 0.5 m], pointing: aft", fmt.Sprintf("at: [%.3f m, 0.4 m, 0.15 m], pointing: aft", x),
			"at: [0 m, 3 m, 0.5 m]}", fmt.Sprintf("at: [%.3f m, 0.4 m, 0.15 m]}", x),
			"deck: {in: outside, at: [3 m, 0 m, 2 m]}", "deck: {in: outside, at: [1 m, 25 m, 3.5 m]}\n  astern: {in: outside, at: [0 m, 25 m, 3.5 m]}").Replace(twins))
		p := predict(t, b, b.Layouts[0])
		for i, name := range []string{"deck", "astern"} {
			for _, r := range at(t, p, name).Routes {
				if r.Engine == "main" && r.Way == path.ByOutlet {
					out[i] = r.DBA()
				}
			}
		}
		return out
	}
	before, on, within := level(0.48), level(0.5), level(0.52)
	for i := range on {
		require.InDelta(t, on[i], before[i], 1)
		require.InDelta(t, on[i], within[i], 1)
	}
	require.InDelta(t, on[0], on[1], 3, "a metre along at 25 m is no other place")
}
