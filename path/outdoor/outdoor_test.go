package outdoor

import (
	"math"
	"testing"

	"hushwake/source/spectrum"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestBadInput(t *testing.T) {
	for _, r := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err := Divergence(r)
		assert.Error(t, err, "%g", r)
	}
	for _, a := range [][3]float64{{200, 101325, 0.5}, {293, 0, 0.5}, {293, 101325, 0}, {293, 101325, 1.2}, {math.NaN(), 101325, 0.5}} {
		_, err := Absorption(a[0], a[1], a[2])
		require.Error(t, err)
		assert.Contains(t, err.Error(), "ISO 9613-1")
	}
	assert.InDelta(t, math.Pi/2, Angle(Point{1, 1, 1}, Point{0, 0, 1}, Point{1, 1, 1}), 1e-12, "no way at all")
}

// The table stays within 0.02 dB of the exact solution between its own points, and its energy is kept.
func TestDirectivityTable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ka, theta := rapid.Float64Range(0.05, patternLimit).Draw(t, "ka"), rapid.Float64Range(0, math.Pi).Draw(t, "theta")
		exact := 10 * math.Log10(newMouth(ka).gain(theta))
		if d := directivity(ka, theta) - exact; math.Abs(d) > 0.05 {
			t.Fatalf("table off by %.3f dB", d)
		}
	})
	for ka := 0.0; ka <= patternLimit; ka += 0.1 {
		assert.InDelta(t, 1, MeanGain(ka), 0.003, "ka %g", ka)
	}
}

// A small or low pipe radiates alike all round; above the first cross mode no side is believed below -8 dB.
func TestPipeDirectivityLimits(t *testing.T) {
	for i, v := range PipeDirectivity(0.06, math.Pi, 343) {
		if spectrum.Nominal[i] <= 900 {
			assert.InDelta(t, 0, v, 1.1)
		}
	}
	assert.Equal(t, -8.0, PipeDirectivity(0.15, 2*math.Pi/3, 343)[8], "the limit by common practice, where the pattern has -15 dB")
	for deg := 0; deg <= 180; deg += 5 {
		for i, v := range PipeDirectivity(0.15, float64(deg)*math.Pi/180, 343) {
			if math.Pi*spectrum.Exact[i]*0.15/343 > crossMode {
				assert.GreaterOrEqual(t, v, sideLimit)
			}
			assert.LessOrEqual(t, v, 11.0)
		}
	}
}

// In the open, with nothing in the way, moving away along a line from the source never raises the level.
func TestMovingAwayNeverRaises(t *testing.T) {
	air, err := Absorption(288, 101325, 0.7)
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		s := Point{0, 0, rapid.Float64Range(0.1, 6).Draw(t, "height")}
		u := Point{rapid.Float64Range(-1, 1).Draw(t, "x"), 1, rapid.Float64Range(-1, 1).Draw(t, "z")}
		theta := Angle(s, Point{0, 0, 1}, along(s, Point{s[0] + u[0], s[1] + u[1], s[2] + u[2]}, 1))
		dir := PipeDirectivity(0.1, theta, 340)
		near := rapid.Float64Range(0.3, 50).Draw(t, "near")
		far := near * rapid.Float64Range(1, 5).Draw(t, "ratio")
		level := func(k float64) (b spectrum.Bands, ok bool) {
			r := Point{s[0] + k*u[0], s[1] + k*u[1], s[2] + k*u[2]}
			if r[2] < 0 {
				return b, false
			}
			d := distance(s, r)
			a, _ := Divergence(d)
			for i := range b {
				b[i] = dir[i] - a - air[i]*d
			}
			return b.Plus(Reflection(s, r, nil).Gain), true
		}
		a, ok1 := level(near)
		b, ok2 := level(far)
		if !ok1 || !ok2 {
			return
		}
		for i := range a {
			if b[i] > a[i]+1e-9 {
				t.Fatalf("band %d rises from %.3f to %.3f dB", i, a[i], b[i])
			}
		}
	})
}

var house = BoxAt("wheelhouse", Point{4, -1.3, 1}, Point{2.4, 2.6, 2})

// Worked by hand: stack tip behind and over the roof, listener before it.
func TestRoofBetween(t *testing.T) {
	s := Shielding(Point{2, 0, 2.5}, Point{9, 0, 2.5}, nil, []Box{house})
	require.True(t, s.Blocked)
	over := s.Over
	a, b := math.Hypot(2, 0.5), math.Hypot(2.6, 0.5)
	assert.Equal(t, 2, over.Edges)
	assert.InDelta(t, 2.4, over.E, 1e-9)
	assert.InDelta(t, a+2.4+b-7, over.Z, 1e-9)
	for i := range s.Loss {
		assert.LessOrEqual(t, s.Loss[i], over.Loss(GroundInside)[i], "the sides let some through")
		assert.GreaterOrEqual(t, s.Loss[i], 0.0)
	}
}

// A stack through its own roof: only the far edge counts; a window seen straight is not shielded.
func TestStackThroughRoof(t *testing.T) {
	boxes := []Box{house}
	own := Shielding(Point{5, 0, 3.5}, Point{6.4, 0, 2}, nil, boxes)
	require.True(t, own.Blocked)
	assert.Equal(t, 1, own.Over.Edges)
	assert.InDelta(t, math.Hypot(1.4, 0.5)+1-math.Hypot(1.4, 1.5), own.Over.Z, 1e-9)
	window := Shielding(Point{2, 0, 2}, Point{4, 0, 2}, nil, boxes)
	assert.False(t, window.Blocked)
	assert.Equal(t, spectrum.Bands{}, window.Loss)
	inside := Shielding(Point{2, 0, 2}, Point{5, 0, 2}, nil, boxes)
	assert.Equal(t, spectrum.Bands{}, inside.Loss, "the room's own walls are no screen")
}

// A body narrow against the wave hides little: a mast of 0.2 m nothing to speak of up to 500 Hz (0.7 m), the
// house of 2.6 m much less than its roof alone at 63 Hz (5.4 m).
func TestNarrowBody(t *testing.T) {
	s, r := Point{2, 0, 2.5}, Point{9, 0, 2.5}
	mast := Shielding(s, r, nil, []Box{BoxAt("mast", Point{4, -0.1, -1}, Point{0.2, 0.2, 9})})
	for i, v := range mast.Loss[:5] {
		assert.Less(t, v, 0.5, "%g Hz", spectrum.Nominal[i])
	}
	h := Shielding(s, r, nil, []Box{house})
	assert.Less(t, h.Loss[1], h.Over.Loss(GroundInside)[1]/2)
}

// A roof under both ends reflects; under a receiver that lies on it the two ways are one and the gain is 3 dB.
func TestReceiverOverRoof(t *testing.T) {
	raft := BoxAt("raft", Point{-20, -20, 0}, Point{40, 40, 3})
	assert.Contains(t, Reflection(Point{3, 0, 4}, Point{5, 0, 3.5}, []Box{raft}).Text, "raft")
	assert.InDelta(t, 3.01, Reflection(Point{3, 0, 4}, Point{5, 0, 3}, []Box{raft}).Gain[8], 0.01)
}

func TestClearLine(t *testing.T) {
	high := Shielding(Point{2, 0, 6}, Point{9, 0, 6}, nil, []Box{house})
	assert.False(t, high.Blocked)
	assert.Less(t, high.Over.Z, 0.0)
	assert.Equal(t, spectrum.Bands{}, high.Loss)
	beside := Shielding(Point{2, 5, 2}, Point{9, 5, 2}, nil, []Box{house})
	assert.Equal(t, spectrum.Bands{}, beside.Loss)
	under := Shielding(Point{4.5, 0, 0}, Point{6, 0, -0.5}, nil, []Box{house})
	assert.Less(t, most(spectrum.Bands{}, under.Loss), 0.5, "the line passes a metre under the body")
	assert.Zero(t, under.Loss[5], "and by more than 2 lambda/C2 at 1 kHz")
	upright := Shielding(Point{2, 0, 0.5}, Point{2, 0, 9}, nil, []Box{house})
	assert.Equal(t, spectrum.Bands{}, upright.Loss)
}

// Shielding is the same both ways and never a gain.
func TestShieldingReciprocal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := func(name string) Point {
			return Point{rapid.Float64Range(-20, 20).Draw(t, name+"x"), rapid.Float64Range(-5, 5).Draw(t, name+"y"), rapid.Float64Range(0.1, 6).Draw(t, name+"z")}
		}
		a, b := p("a"), p("b")
		edges := []Segment{{Name: "rail", From: Point{3, -2, 2}, To: Point{3, 2, 2.5}}}
		boxes := []Box{house, BoxAt("coachroof", Point{7, -1, 1}, Point{2, 2, 0.6})}
		there, back := Shielding(a, b, edges, boxes), Shielding(b, a, edges, boxes)
		for i := range there.Loss {
			if there.Loss[i] < 0 || there.Loss[i] > doubleEdgeCap || math.IsNaN(there.Loss[i]) {
				t.Fatalf("loss of %g dB", there.Loss[i])
			}
			if math.Abs(there.Loss[i]-back.Loss[i]) > 0.05 {
				t.Fatalf("band %d: %.3f dB there, %.3f dB back", i, there.Loss[i], back.Loss[i])
			}
		}
	})
}

// An end right on a body's corner, where rounding once chose whether the line passes that corner: 0.2 dB apart.
func TestReciprocalAtACorner(t *testing.T) {
	a, b := Point{1, 1, 1}, Point{7, -1, 1}
	boxes := []Box{house, BoxAt("coachroof", Point{7, -1, 1}, Point{2, 2, 0.6})}
	assert.InDelta(t, 0, most(Shielding(a, b, nil, boxes).Loss, Shielding(b, a, nil, boxes).Loss), 1e-6)
}

// A higher edge never shields less.
func TestHigherEdge(t *testing.T) {
	last := spectrum.Bands{}
	for h := 0.5; h < 6; h += 0.1 {
		e := Segment{From: Point{3, -20, h}, To: Point{3, 20, h}}
		s := Shielding(Point{0, 0, 1}, Point{8, 0, 1.5}, []Segment{e}, nil)
		for i := range last {
			assert.GreaterOrEqual(t, s.Loss[i], last[i]-1e-9, "height %g", h)
		}
		last = s.Loss
	}
}

func TestReflectionOnlyInView(t *testing.T) {
	s, r := Point{0, 0, 2}, Point{20, 0, 1.5}
	open := Reflection(s, r, nil)
	assert.Equal(t, "water in view", open.Text)
	assert.InDelta(t, 3, open.Gain[5], 0.1)
	raft := BoxAt("raft", Point{1, -2, -0.5}, Point{18, 4, 0.8})
	deck := Reflection(s, r, []Box{raft})
	assert.Contains(t, deck.Text, "raft", "the deck hides the water and reflects itself")
	wall := BoxAt("deckhouse", Point{9, -8, -1}, Point{3, 16, 2.2})
	cut := Reflection(s, r, []Box{wall})
	assert.Less(t, cut.Gain[7], 1.0, "the point of reflection is hidden")
	edge := []Segment{{From: Point{5, -90, 4}, To: Point{5, 90, 4}}}
	loss := Shielding(s, r, edge, nil).Loss
	assert.Equal(t, spectrum.Bands{}, open.Beside(loss), "C2 = 20 holds the ground of a cut line")
	assert.Equal(t, open.Gain, open.Beside(spectrum.Bands{}))
}

func BenchmarkPipeDirectivity(b *testing.B) {
	for b.Loop() {
		PipeDirectivity(0.1, 1.2, 343)
	}
}

func BenchmarkShielding(b *testing.B) {
	boxes := []Box{house}
	for b.Loop() {
		Shielding(Point{2, 0, 2.5}, Point{9, 0, 2.5}, nil, boxes)
	}
}

func TestCapsAsShares(t *testing.T) {
	assert.InDelta(t, singleEdgeCap, Screen{Z: 9, Edges: 1}.Loss(GroundInside)[8], 1e-9)
	assert.InDelta(t, doubleEdgeCap, Screen{Z: 9, E: 1, Edges: 2}.Loss(GroundInside)[8], 1e-9)
}

func TestBeyondPattern(t *testing.T) {
	assert.Empty(t, BeyondPattern(0.04, 343))
	assert.Contains(t, BeyondPattern(0.1, 343)[0], "3821 Hz")
}
