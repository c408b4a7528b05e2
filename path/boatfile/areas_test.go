package boatfile

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile/usual"
)

func areaOf(b *path.Boat, name string) (area float64) {
	for _, p := range b.Layouts[0].Partitions {
		if p.Name == name {
			area = p.Area
		}
	}
	return area
}

// A wall without an area fills what is free of where its spaces meet, 5.2 m2 here, if it is lighter than the usual sole, else half of that
// with the usual one beside it; what another wall states is not free, and two such walls share.
func TestAreaOfAWallWithoutOne(t *testing.T) {
	const hatch = "  - {between: [engine room, outside], name: hatch"
	with := func(walls string) *path.Boat { return loaded(t, hatch, walls+hatch) }
	const light, heavy = "build_up: [3 mm plywood]", "build_up: [6 mm steel, 100 mm mineral wool, 18 mm plywood], open_area: 0 m2"
	const sole = "  - {between: [wheelhouse, engine room], name: sole, "
	b := with(sole + light + "}\n")
	assert.InDelta(t, 5.2, areaOf(b, "sole"), 1e-9)
	assert.Empty(t, closed(b, "engine room", "wheelhouse"))
	b = with(sole + heavy + "}\n")
	assert.InDelta(t, 2.6, areaOf(b, "sole"), 1e-9)
	assert.InDelta(t, 2.6, closed(b, "engine room", "wheelhouse")["roof to wheelhouse"], 1e-9)
	b = with(sole + light + "}\n  - {between: [engine room, wheelhouse], name: trap, area: 1.2 m2, build_up: [6 mm glass]}\n")
	assert.InDelta(t, 4, areaOf(b, "sole"), 1e-9)
	b = with(sole + light + "}\n  - {between: [engine room, wheelhouse], name: trap, build_up: [3 mm plywood]}\n")
	assert.InDelta(t, 2.6, areaOf(b, "sole"), 1e-9)
	assert.InDelta(t, 2.6, areaOf(b, "trap"), 1e-9)
	b = with("  - {between: [engine room, outside], name: side, facing: port, " + light + "}\n")
	assert.InDelta(t, 3*1.1, areaOf(b, "side"), 1e-9, "what of its own face lies over the water")
	found := false
	for _, a := range b.Assumptions {
		found = found || a.Field == "partitions.side area" && a.PlusMinusDB == 3
	}
	assert.True(t, found, "with its price")
}

// A space of no known place meets the others by what their largest walls share, less what is stated; a wall larger than these is a deck.
func TestLooseSpacesKeepWhatIsNotStated(t *testing.T) {
	const at = "at: [1.0 m, -1.3 m, -0.4 m], "
	sole := func(area string) *path.Boat {
		return loaded(t, at, "", "  - {between: [engine room, outside], name: hatch", "  - {between: [engine room, wheelhouse], name: sole, area: "+area+", build_up: [18 mm plywood]}\n  - {between: [engine room, outside], name: hatch")
	}
	all := func(b *path.Boat) (area float64) { // stated and not
		for _, a := range closed(b, "engine room", "wheelhouse") {
			area += a
		}
		return area
	}
	assert.InDelta(t, 3*1.5, all(sole("2 m2")), 1e-9)
	assert.InDelta(t, 2.4*2.6, all(sole("5.5 m2")), 1e-9)
	b := loaded(t, at, "", "lining: furnished cabin}", "lining: furnished cabin, faces: {floor: [6 mm steel], port: [6 mm steel], starboard: [6 mm steel], forward: [6 mm steel], aft: [6 mm steel]}}")
	assert.InDelta(t, 3*1.5, all(b), 1e-9)
	for _, p := range b.Layouts[0].Partitions {
		if p.Between[0] == "engine room" && p.Between[1] == "wheelhouse" {
			require.NotNil(t, p.Usual, "nobody knows which face of the wheelhouse that is")
		}
	}
}

// The priors of what is not stated, as judged: a change of one is a change of the model.
func TestPriorsOfWhatIsNotStated(t *testing.T) {
	price := func(field string, changes ...string) float64 {
		t.Helper()
		for _, a := range loaded(t, changes...).Assumptions {
			if a.Field == field {
				return a.PlusMinusDB
			}
		}
		t.Errorf("%s is not listed", field)
		return 0
	}
	assert.Equal(t, 6.0, price("spaces.engine room at", "at: [1.0 m, -1.3 m, -0.4 m], ", ""))
	assert.Equal(t, 6.0, price("spaces.engine room size", "size: [3.0 m, 2.6 m, 1.5 m], ", ""))
	assert.Equal(t, 5.0, price("spaces.engine room lining", ", lining: bare steel", ""))
	assert.Equal(t, 2.0, price("partitions.hatch at, facing"))
	assert.Equal(t, 2.0, price("partitions.hatch at, facing", ", facing: up", ""))
	assert.Equal(t, 8.0, price("partitions.hatch build_up", ", build_up: [4 mm steel]", ""))
	assert.Equal(t, [3]float64{1.2, 0.8, 0.9}, leastEngineSpace)
	assert.Equal(t, [3]float64{2, 1, 1.2}, leastRoom)
	assert.Equal(t, [3]float64{0.4, 0.4, 1}, leastSpace)
	// by hand: 0.2 mm of 1 m in the middle; 4 mm all round a door of 0.6 m by 1.6 m are 1.8 % of it
	assert.InDelta(t, 4.4*0.004/(0.6*1.6), usual.CrackMost, 0.001)
	assert.InDelta(t, 10*1.9542/1.2816, usual.Crack.SD, 0.01, "10 lg(0.018/0.0002) by the 90th percentile of the normal curve")
}

// What looks inboard is a bulkhead, not the hull's side, and a hull that is not stated is none of the walls that are.
func TestInboardFacesAndUnstatedHull(t *testing.T) {
	kinds := func(b *path.Boat) map[string]string {
		out := map[string]string{}
		for _, p := range b.Layouts[0].Partitions {
			if p.Usual != nil {
				out[p.Name] = p.Usual.Kind
			}
		}
		return out
	}
	k := kinds(loaded(t, "size: [3.0 m, 2.6 m, 1.5 m]", "size: [3.0 m, 1.2 m, 1.5 m]"))
	assert.Equal(t, path.HullSide, k["engine room port, not stated"])
	assert.Equal(t, path.Bulkhead, k["engine room starboard, not stated"])
	for _, a := range loaded(t, "facing: up, area", "facing: port, area").Assumptions {
		if a.Field == "spaces.engine room.faces.port" {
			assert.Contains(t, a.Value, "hull not stated", "a hatch of steel tells nothing")
		}
	}
}
