package boatfile

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/source/said"
)

const standing = `engines:
  main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 3000 rpm}, in: engine room, at: [2.5 m, 0 m, 0.3 m]}
spaces:
  engine room: {at: [1.0 m, -1.3 m, -0.4 m], size: [3.0 m, 2.6 m, 1.5 m], lining: bare steel}
  wheelhouse:  {at: [2.0 m, -1.3 m, 1.2 m], size: [2.4 m, 2.6 m, 2.0 m], lining: furnished cabin}
partitions:
  - {between: [engine room, outside], name: hatch, facing: up, area: 1 m2, build_up: [4 mm steel]}
listeners:
  helm: {in: wheelhouse, at: [3.0 m, 0 m, 2.4 m]}
layouts:
  - name: dry
    exhausts:
      main:
        line: [pipe: {bore: 102 mm, length: 3 m}]
        outlet: {at: [3.6 m, 0.3 m, 3.9 m], pointing: up}
`

func loaded(t *testing.T, changes ...string) *path.Boat {
	t.Helper()
	b, err := Load("boat.yaml", []byte(strings.NewReplacer(changes...).Replace(standing)))
	require.NoError(t, err)
	return b
}

func closed(b *path.Boat, space, beyond string) (area map[string]float64) {
	area = map[string]float64{}
	for _, p := range b.Layouts[0].Partitions {
		if p.Between == [2]string{space, beyond} && p.Name != "hatch" && !strings.HasPrefix(p.Name, "cracks of ") {
			area[strings.TrimSuffix(strings.TrimSuffix(strings.TrimPrefix(p.Name, space+" "), ", not stated"), " face")] += p.Area
		}
	}
	return area
}

// By hand: the wheelhouse stands 0.1 m over 2 m by 2.6 m of the engine room; what of the roof is neither that nor hatch looks
// out; the walls do above the water, 1.1 m of 1.5 m; the bottom does not, nor the sole of the wheelhouse but for 0.4 m of it.
func TestGapsByHand(t *testing.T) {
	b := loaded(t)
	assert.InDeltaMapValues(t, map[string]float64{"roof to wheelhouse": 2 * 2.6}, closed(b, "engine room", "wheelhouse"), 1e-9)
	assert.InDeltaMapValues(t, map[string]float64{"roof": 3*2.6 - 2*2.6 - 1, "forward": 2.6 * 1.1, "aft": 2.6 * 1.1, "port": 3 * 1.1, "starboard": 3 * 1.1}, closed(b, "engine room", path.Outside), 1e-9)
	assert.InDeltaMapValues(t, map[string]float64{"roof": 2.4 * 2.6, "forward": 2.6 * 2, "aft": 2.6 * 2, "port": 2.4 * 2, "starboard": 2.4 * 2, "floor": 0.4 * 2.6}, closed(b, "wheelhouse", path.Outside), 1e-9)
	kinds := map[string]string{}
	for _, p := range b.Layouts[0].Partitions[1:] {
		kinds[p.Name] = p.Usual.Kind
	}
	assert.Equal(t, path.Sole, kinds["engine room roof to wheelhouse, not stated"])
	assert.Equal(t, path.Deck, kinds["engine room roof, not stated"])
	assert.Equal(t, path.HullSide, kinds["engine room port, not stated"])
	assert.Equal(t, path.Bulkhead, kinds["engine room forward, not stated"])
	assert.Equal(t, path.HouseSide, kinds["wheelhouse roof, not stated"])
}

// A stated partition is taken out of the face it lies in, and what it is more than that out of the walls beside it; one
// between two spaces out of where they touch. Whole faces leave nothing.
func TestPartitionsAreTakenOut(t *testing.T) {
	with := func(entry string) *path.Boat { return loaded(t, "listeners:", "  - {"+entry+"}\nlisteners:") }
	windows := closed(with("between: [outside, wheelhouse], name: hatch, facing: port, area: 3 m2, build_up: [6 mm glass]"), "wheelhouse", path.Outside)
	assert.InDelta(t, 2.4*2-3, windows["port"], 1e-9)
	assert.InDelta(t, 2.4*2, windows["starboard"], 1e-9)
	placed := closed(with("between: [wheelhouse, outside], name: hatch, at: [3 m, -1.3 m, 2 m], area: 3 m2, build_up: [6 mm glass]"), "wheelhouse", path.Outside)
	assert.InDeltaMapValues(t, windows, placed, 1e-9, "by its place as by its facing")
	sides := closed(with("between: [wheelhouse, outside], name: walls, facing: port, area: 19 m2, build_up: [12 mm plywood]"), "wheelhouse", path.Outside)
	assert.InDelta(t, 20-19, sides["port"]+sides["starboard"]+sides["forward"]+sides["aft"], 1e-9)
	assert.InDelta(t, 2.4*2.6, sides["roof"], 1e-9)
	floor := with("between: [engine room, wheelhouse], name: sole, area: 5 m2, build_up: [18 mm plywood]")
	assert.InDelta(t, 0.2, closed(floor, "engine room", "wheelhouse")["roof to wheelhouse"], 1e-9)
	faces := loaded(t, "lining: furnished cabin}", "lining: furnished cabin, faces: {roof: [12 mm plywood], floor: [18 mm plywood], port: none}}")
	for _, p := range faces.Layouts[0].Partitions {
		switch p.Name {
		case "wheelhouse roof face":
			assert.Nil(t, p.Usual)
			assert.InDelta(t, 0.012, p.BuildUp[0].Thickness, 1e-12)
		case "engine room roof to wheelhouse face":
			assert.Nil(t, p.Usual, "the floor of the one is the roof of the other")
			assert.InDelta(t, 0.018, p.BuildUp[0].Thickness, 1e-12)
		case "wheelhouse port face":
			assert.Equal(t, p.Area, p.OpenArea)
		}
	}
}

// Spaces within each other by a slip of the tape touch along one axis; one within another touches it all round; apart they
// don't. Turned round in the file they are the same.
func TestNeighbours(t *testing.T) {
	touch := func(at, size string) map[string]float64 {
		b := loaded(t, "[2.0 m, -1.3 m, 1.2 m], size: [2.4 m, 2.6 m, 2.0 m]", at+", size: "+size, "[3.0 m, 0 m, 2.4 m]", "[2 m, 0 m, 0.5 m]")
		out := closed(b, "engine room", "wheelhouse")
		for k, v := range closed(b, "wheelhouse", "engine room") {
			out[k] += v
		}
		return out
	}
	assert.InDeltaMapValues(t, map[string]float64{"roof to wheelhouse": 2 * 2.6}, touch("[2.0 m, -1.3 m, 0.9 m]", "[2.4 m, 2.6 m, 2.0 m]"), 1e-9)
	assert.InDeltaMapValues(t, map[string]float64{"forward to wheelhouse": 2.6 * 1.5}, touch("[4.2 m, -1.3 m, -0.4 m]", "[2 m, 2.6 m, 1.5 m]"), 1e-9)
	assert.Empty(t, touch("[4.6 m, -1.3 m, -0.4 m]", "[2 m, 2.6 m, 1.5 m]"), "0.6 m apart")
	assert.Empty(t, touch("[4.2 m, -1.3 m, 1.3 m]", "[2 m, 2.6 m, 2 m]"), "only near an edge")
	assert.InDeltaMapValues(t, map[string]float64{"forward to engine room": 1, "aft to engine room": 1, "starboard to engine room": 1, "port to engine room": 1, "roof to engine room": 1},
		touch("[2.0 m, -0.5 m, -0.4 m]", "[1 m, 1 m, 1 m]"), 1e-9, "a locker on its bottom")
}

// A space without place or size has walls and a roof in the open, and a wall to every other space, as far as no partition
// stands there; what is stated of them counts.
func TestUnplacedSpace(t *testing.T) {
	area := func(walls map[string]float64) (sum float64) {
		for _, a := range walls {
			sum += a
		}
		return sum
	}
	b := loaded(t, "at: [2.0 m, -1.3 m, 1.2 m], size", "size")
	assert.InDelta(t, 3*1.5, area(closed(b, "wheelhouse", "engine room")), 1e-9, "the largest that both have")
	assert.InDelta(t, 2*2.6*2+2*2.4*2+2.4*2.6, area(closed(b, "wheelhouse", path.Outside)), 1e-9)
	b = loaded(t, "at: [2.0 m, -1.3 m, 1.2 m], size", "size", "listeners:", "  - {between: [engine room, wheelhouse], area: 3 m2, build_up: [6 mm glass]}\nlisteners:")
	assert.InDelta(t, 3*1.5-3, area(closed(b, "wheelhouse", "engine room")), 1e-9)
	assert.InDelta(t, 2*2.6*2+2*2.4*2+2.4*2.6-3, area(closed(b, "wheelhouse", path.Outside)), 1e-9)
}

// A space without a size is the smallest usual one for what is in it, grown to hold its partitions.
func TestUnsizedSpace(t *testing.T) {
	size := func(more ...string) [3]float64 {
		b := loaded(t, append([]string{", size: [2.4 m, 2.6 m, 2.0 m]", ""}, more...)...)
		return findSpace(b.Layouts[0].Spaces, "wheelhouse").Size
	}
	assert.Equal(t, leastRoom, size())
	skin := 2 * (2*1 + 2*1.2 + 1*1.2)
	grown := size("listeners:", "  - {between: [outside, wheelhouse], area: 25 m2, build_up: [6 mm glass]}\nlisteners:")
	assert.InDelta(t, leastRoom[0]*math.Sqrt(25/skin), grown[0], 1e-9)
}

// Where the place of the engine is not stated the outlet is measured from what is taken for it, less how far off that may be.
func TestOutletFarFromAnEngineOfNoPlace(t *testing.T) {
	const engine, room, seat = ", at: [2.5 m, 0 m, 0.3 m]", "at: [1.0 m, -1.3 m, -0.4 m], ", "in: wheelhouse, at: [3.0 m, 0 m, 2.4 m]"
	warned := func(outlet string, changes ...string) string {
		for _, w := range loaded(t, append(changes, "at: [3.6 m, 0.3 m, 3.9 m]", "at: "+outlet)...).Warnings {
			if strings.Contains(w, "of pipe are not in the line") {
				return said.Plain(w)
			}
		}
		return ""
	}
	// 5 + 9 m, 5 m of doubt, 3.3 m of line and 1.5 m
	text := warned("[-9 m, 0 m, 1 m]", engine, "", room, "")
	assert.Contains(t, text, "lies 14 m from the middle of a usual boat of 10 m (5 m forward of the transom)")
	assert.Contains(t, text, "about 4.2 m of pipe")
	assert.Empty(t, warned("[-4.7 m, 0 m, 1 m]", engine, "", room, ""))
	// 3 + 9 m from the listener, half the diagonal of the room for doubt
	text = warned("[-9 m, 0 m, 2.4 m]", engine, "", room, "", seat, "in: engine room, at: [3.0 m, 0 m, 2.4 m]")
	assert.Contains(t, text, "lies 12 m from the listener in its space")
	assert.Contains(t, text, fmt.Sprintf("about %.3f m of pipe", 12-math.Sqrt(9+2.6*2.6+1.5*1.5)/2-3.3-1.5))
}

// What is possible but not likely is warned of with its figures.
func TestUnlikelyGeometry(t *testing.T) {
	for want, change := range map[string][2]string{
		"lies 11.504 m from the engine, but the line is 3 m long (1.8 m more are allowed for the way to the manifold and the tape): about 6.704 m of pipe": {"[3.6 m, 0.3 m, 3.9 m]", "[-9 m, 0.3 m, 0.2 m]"},
		"lies inside the space":                                 {"[3.6 m, 0.3 m, 3.9 m]", "[3.6 m, 0.3 m, 2.9 m]"},
		"without both every face counts":                        {"at: [2.0 m, -1.3 m, 1.2 m], size: [2.4 m, 2.6 m, 2.0 m]", "size: [2.4 m, 2.6 m, 2.0 m], faces: {roof: none}"},
		"has more section (0.04 m2) than its opening (0.01 m2)": {"listeners:", "enclosures:\n  box: {size: [1 m, 1 m, 1 m], openings: [{role: inlet, area: 0.01 m2, lined_duct: {size: [0.2 m, 0.2 m]}}]}\nlisteners:"},
	} {
		assert.Contains(t, said.Plain(strings.Join(loaded(t, change[:]...).Warnings, "\n")), want)
		assert.NotContains(t, said.Plain(strings.Join(loaded(t).Warnings, "\n")), want)
	}
}

// An engine whose place is unknown stands about the middle of its space: an outlet far from there is warned of too. By hand
// that is (2.5, 0, 0.35) m, 11.505 m from the outlet.
func TestAnOutletFarFromTheEnginesSpace(t *testing.T) {
	unplaced := []string{", at: [2.5 m, 0 m, 0.3 m]}", "}"}
	far := loaded(t, append(unplaced, "[3.6 m, 0.3 m, 3.9 m]", "[-9 m, 0.3 m, 0.2 m]")...)
	assert.Contains(t, said.Plain(strings.Join(far.Warnings, "\n")), "lies 11.505 m from the middle of the engine's space, but the line is 3 m long")
	assert.NotContains(t, said.Plain(strings.Join(loaded(t, unplaced...).Warnings, "\n")), "the engine's space")
	nowhere := loaded(t, append(unplaced, "engine room: {at: [1.0 m, -1.3 m, -0.4 m], ", "engine room: {", "[3.6 m, 0.3 m, 3.9 m]", "[-9 m, 0.3 m, 0.2 m]")...)
	assert.NotContains(t, said.Plain(strings.Join(nowhere.Warnings, "\n")), "the engine's space", "nothing is known of where it stands")
}

// What nothing stated lies beside is checked by itself: a wall larger than any boat's, an outlet deep under water, a wide bore.
func TestTheImpossibleWithoutNeighboursIsWarnedOf(t *testing.T) {
	text, err := os.ReadFile(data + "mine.yaml")
	require.NoError(t, err)
	for change, want := range map[[2]string]string{
		{"area: unknown, build", "area: 60 m2, build"}:    "a wall of 60 m2 is larger",
		{"[0.5 m, 0.8 m, 1.0 m]", "[0.5 m, 0.8 m, -5 m]"}: "lies 5 m under the water",
		{"bore: 76 mm", "bore: 760 mm"}:                   "a bore of 760 mm is wider",
	} {
		for _, changed := range []bool{false, true} {
			now := string(text)
			require.Contains(t, now, change[0])
			if changed {
				now = strings.Replace(now, change[0], change[1], 1)
			}
			b, err := Load("mine.yaml", []byte(now))
			require.NoError(t, err)
			assert.Equal(t, changed, strings.Contains(said.Plain(strings.Join(b.Warnings, "\n")), want), want)
		}
	}
}
