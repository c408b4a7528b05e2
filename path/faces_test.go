package path

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hushwake/path/panel"
)

// box is a space by place and size.
func box(name string, x, y, z, l, w, h float64) Space {
	return Space{Name: name, At: Point{x, y, z}, Size: [3]float64{l, w, h}, AtStated: true, SizeStated: true}
}

func wallOf(a, b string, area float64, facing string) Partition {
	return Partition{Name: "wall", Between: [2]string{a, b}, Area: area, Facing: facing, BuildUp: panel.BuildUp{}}
}

// gapArea sums the gaps of a space towards another.
func gapArea(l *Layout, space, beyond string) (area float64) {
	for _, g := range l.Gaps() {
		if g.Space == space && g.Beyond == beyond || g.Space == beyond && g.Beyond == space {
			area += g.Area
		}
	}
	return area
}

// A box over the water that nobody says more of has six faces; all of it is a gap, and what a partition states is none.
func TestGapsAndPartitionsAreTheSkin(t *testing.T) {
	l := &Layout{Spaces: []Space{box("saloon", 1, -1, 1, 3, 2, 2)}}
	skin := 2 * (3*2 + 3*2 + 2*2.0)
	assert.InDelta(t, skin, gapArea(l, "saloon", Outside), 1e-12)

	l.Partitions = []Partition{wallOf("saloon", Outside, 4, "up")}
	assert.InDelta(t, skin-4, gapArea(l, "saloon", Outside), 1e-12)

	// more wall than its face is a wall round a corner: the rest comes off the others
	l.Partitions = []Partition{wallOf("saloon", Outside, 5, "aft")}
	assert.InDelta(t, skin-5, gapArea(l, "saloon", Outside), 1e-12)
	// of a roof it doesn't: no wall is the roof's
	l.Partitions = []Partition{wallOf("saloon", Outside, 8, "up")}
	assert.InDelta(t, skin-6, gapArea(l, "saloon", Outside), 1e-12)
}

// Of boxes beside each other, whatever their sizes: stated walls and gaps are the skins less what they share, counted
// once, whatever the order of the file.
func TestEverySquareMetreIsAccountedFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string) float64 { return rapid.Float64Range(0.8, 4).Draw(t, name) }
		l1, l2, w1, w2, h1, h2 := size("l1"), size("l2"), size("w1"), size("w2"), size("h1"), size("h2")
		apart := rapid.Float64Range(0, beside-0.01).Draw(t, "apart")
		a, b := box("a", 0, 0, 1, l1, w1, h1), box("b", l1+apart, 0, 1, l2, w2, h2)
		shared := math.Min(w1, w2) * math.Min(h1, h2)
		skin := func(l, w, h float64) float64 { return 2 * (l*w + l*h + w*h) }
		wall := rapid.Float64Range(0.1, 0.9).Draw(t, "wall") * shared
		l := &Layout{Spaces: []Space{a, b}, Partitions: []Partition{wallOf("a", "b", wall, "")}}
		back := &Layout{Spaces: []Space{b, a}, Partitions: []Partition{wallOf("b", "a", wall, "")}}

		sum := func(l *Layout) (all float64) {
			for _, g := range l.Gaps() {
				all += g.Area
			}
			return all
		}
		want := skin(l1, w1, h1) + skin(l2, w2, h2) - shared - wall
		if got := sum(l); math.Abs(got-want) > 6*leastFace { // slips of the tape are left out
			t.Fatalf("%.3f m2 are accounted for, %.3f expected", got, want)
		}
		if math.Abs(sum(l)-sum(back)) > 1e-9 {
			t.Fatalf("the order of the file changes %.3f to %.3f", sum(l), sum(back))
		}
	})
}

// What is smaller than a slip of the tape is no gap, what is larger is one.
func TestASlipOfTheTapeIsNoGap(t *testing.T) {
	for _, c := range []struct {
		left float64
		gaps int
	}{{0.04, 5}, {0.06, 6}} {
		l := &Layout{Spaces: []Space{box("saloon", 1, -1, 1, 3, 2, 2)}, Partitions: []Partition{wallOf("saloon", Outside, 6-c.left, "up")}}
		assert.Len(t, l.Gaps(), c.gaps, "%.2f m2 left", c.left)
		// two rooms that share less than that are no neighbours
		beyond := box("locker", 4, 1-c.left/2, 1, 1, 1, 2)
		l = &Layout{Spaces: []Space{box("saloon", 1, -1, 1, 3, 2, 2), beyond}}
		assert.Equal(t, c.gaps == 6, gapArea(l, "saloon", "locker") > 0)
	}
}

// Under water nothing looks out: of a hull's side the part above it counts, of its floor none.
func TestWallsUnderWaterAreNoGaps(t *testing.T) {
	l := &Layout{Spaces: []Space{box("cabin", 0, -1, -0.5, 3, 2, 2)}}
	assert.InDelta(t, 3*2+1.5*(2*3+2*2), gapArea(l, "cabin", Outside), 1e-12)
	for _, g := range l.Gaps() {
		if g.Side.Upright() {
			assert.InDelta(t, 0.75, g.At[2], 1e-12, "the middle of what is dry")
			assert.True(t, g.Part)
		}
	}
}

// Walls tell what they are by where they stand.
func TestWallsAreOfAKind(t *testing.T) {
	engine := box("engine room", 1, -1, -0.5, 2, 2, 1.5)
	l := &Layout{Spaces: []Space{engine, box("saloon", 1, -1, 1, 2, 2, 2), box("cabin", 3, -1, -0.4, 2, 2, 1.8), box("trunk", 4, 0, 1.5, 0.4, 0.4, 2)},
		Engines: []Engine{{In: "engine room"}}}
	kinds := map[[3]string]string{}
	for _, g := range l.Gaps() {
		kinds[[3]string{g.Space, g.Side.Name, g.Beyond}] = g.Kind
	}
	assert.Equal(t, Sole, kinds[[3]string{"engine room", "roof", "saloon"}])
	assert.Equal(t, Bulkhead, kinds[[3]string{"engine room", "forward", "cabin"}])
	assert.Equal(t, HullSide, kinds[[3]string{"engine room", "port", Outside}])
	assert.Equal(t, Bulkhead, kinds[[3]string{"engine room", "aft", Outside}], "one metre forward of the transom")
	assert.Equal(t, HouseSide, kinds[[3]string{"saloon", "starboard", Outside}])
	assert.Equal(t, Deck, kinds[[3]string{"cabin", "roof", Outside}])
	assert.Equal(t, Trunk, kinds[[3]string{"trunk", "port", Outside}])
}

// A room within another lies with all faces in it, but for those in the outer one's skin.
func TestARoomWithinARoom(t *testing.T) {
	l := &Layout{Spaces: []Space{box("hall", 0, -2, 1, 6, 4, 2), box("locker", 1, -1, 1, 1, 1, 1)}}
	assert.InDelta(t, 5, gapArea(l, "locker", "hall"), 1e-12)
	assert.InDelta(t, 1, gapArea(l, "locker", Outside), 1e-12, "its floor is the hall's")
}

// A wall may be twice the face that it stands in at most; between two rooms twice the smaller of the two that meet.
func TestAWallIsHeldToItsFace(t *testing.T) {
	l := &Layout{Spaces: []Space{box("a", 0, 0, 1, 3, 2, 2), box("b", 3, 0, 1, 3, 1, 2)}}
	p := wallOf("a", "b", 60, "")
	face, has, most, ok := l.FaceFor(&p)
	require.True(t, ok)
	assert.Equal(t, "wall where a and b meet", face)
	assert.InDelta(t, 2, has, 1e-12)
	assert.InDelta(t, 4, most, 1e-12)
	p = wallOf("b", Outside, 60, "up")
	face, has, most, _ = l.FaceFor(&p)
	assert.Equal(t, "roof of b", face)
	assert.InDelta(t, 3, has, 1e-12)
	assert.InDelta(t, 6, most, 1e-12)
	p = wallOf("nowhere", Outside, 60, "")
	_, _, _, ok = l.FaceFor(&p)
	assert.False(t, ok)
}

// Rooms further apart than frames and linings are thick share no wall.
func TestRoomsThatLieApart(t *testing.T) {
	for _, c := range []struct{ gap, apart float64 }{{0, 0}, {0.49, 0}, {0.7, 0.7}} {
		l := &Layout{Spaces: []Space{box("below", 0, 0, 0, 2, 2, 1), box("above", 0, 0, 1+c.gap, 2, 2, 2)}}
		p := wallOf("below", "above", 4, "")
		assert.InDelta(t, c.apart, l.Apart(&p), 1e-12)
		assert.Equal(t, c.apart == 0, gapArea(l, "below", "above") > 0)
	}
}

// A partition stands where it says, else in the face it looks out of, else in the middle of its space.
func TestPlaceOfAPartition(t *testing.T) {
	l := &Layout{Spaces: []Space{box("a", 0, 0, 1, 4, 2, 2)}}
	p := wallOf("a", Outside, 1, "")
	at, known := l.Position(&p)
	assert.Equal(t, Point{2, 1, 2}, at)
	assert.False(t, known)
	p.Facing = "starboard"
	at, _ = l.Position(&p)
	assert.Equal(t, Point{2, 2, 2}, at)
	p.At, p.AtStated = Point{1, 0, 1}, true
	at, known = l.Position(&p)
	assert.Equal(t, p.At, at)
	assert.True(t, known)
	for _, s := range Sides {
		assert.Equal(t, s, s.Opposite().Opposite())
		assert.Equal(t, s.axis, s.Opposite().axis)
		assert.NotEqual(t, s, s.Opposite())
		assert.InDelta(t, s.way, Facings[s.Facing][s.axis], 0, "a side and its facing look the same way")
	}
}
