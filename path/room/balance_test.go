package room

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"hushwake/source/spectrum"
)

// drawnHouse is some rooms with walls between them and to the open air, from pin-holes to wide open.
func drawnHouse(t *rapid.T) (rooms []Room, walls []Joint) {
	n := rapid.IntRange(1, 7).Draw(t, "rooms")
	for range n {
		rooms = append(rooms, mustRoom(t, rapid.Float64Range(0.01, 1).Draw(t, "alpha"),
			rapid.Float64Range(0.2, 20).Draw(t, "length"), 3, 2))
	}
	for range rapid.IntRange(0, 12).Draw(t, "walls") {
		a, b := rapid.IntRange(Sink, n-1).Draw(t, "one side"), rapid.IntRange(Sink, n-1).Draw(t, "other side")
		walls = append(walls, Joint{[2]int{a, b}, spectrum.Fill(math.Exp(rapid.Float64Range(math.Log(1e-7), math.Log(100)).Draw(t, "through")))})
	}
	return rooms, walls
}

// In every room the power that enters is the power that the room absorbs and its walls let out, to a
// millionth, whatever the walls; sound may swap source and listener; and a general solver gives the same.
func TestPowerInIsPowerAbsorbedAndThrough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rooms, walls := drawnHouse(t)
		b, coupled := Couple(rooms, walls)
		from := rapid.IntRange(0, len(rooms)-1).Draw(t, "from")
		m, kept := mat.NewDense(len(rooms), len(rooms), nil), 0.0
		for at := range rooms {
			kept += rooms[at].Absorption[4] * b.Incident(from, at)[4]
			in, out := 0.0, coupled[at].Absorption[4]*b.Incident(from, at)[4]
			if at == from {
				in = 1
			}
			m.Set(at, at, coupled[at].Absorption[4])
			for _, w := range walls {
				for side, r := range w.Rooms {
					if far := w.Rooms[1-side]; r == at && far != Sink && far != at {
						in += w.Through[4] * b.Incident(from, far)[4]
						m.Set(at, far, m.At(at, far)-w.Through[4])
					} else if r == at && far == Sink {
						kept += w.Through[4] * b.Incident(from, at)[4]
					}
				}
			}
			require.InEpsilon(t, in+1e-30, out+1e-30, 1e-6)
			require.InEpsilon(t, b.Incident(from, at)[4]+1e-30, b.Incident(at, from)[4]+1e-30, 1e-9, "reciprocity")
		}
		require.InEpsilon(t, 1, kept, 1e-9, "all rooms together absorb or let out what one was given")
		var inverse mat.Dense
		if err := inverse.Inverse(m); err == nil { // the general solver gives up on the stiffest houses
			for at := range rooms {
				require.InDelta(t, inverse.At(at, from)/inverse.At(from, from), b.Incident(from, at)[4]/b.Incident(from, from)[4], 1e-6)
			}
		}
	})
}

// Two rooms by hand: 1 W in a room of 2 m2, behind a wall of S t = 1 m2 another of 4 m2:
// 3 I1 - I2 = 1, 5 I2 - I1 = 0, so I1 = 5/14 and I2 = 1/14; and behind an open wall of no end they are one room.
func TestTwoRoomsByHand(t *testing.T) {
	near, far := mustRoom(t, 2.0/52, 4, 3, 2), mustRoom(t, 4.0/52, 4, 3, 2)
	b, coupled := Couple([]Room{near, far}, []Joint{{[2]int{0, 1}, spectrum.Fill(1)}})
	assert.InDelta(t, 5.0/14, b.Incident(0, 0)[4], 1e-12)
	assert.InDelta(t, 1.0/14, b.Incident(0, 1)[4], 1e-12)
	assert.InDelta(t, 5, coupled[1].Absorption[4], 1e-12)
	b, _ = Couple([]Room{near, far}, []Joint{{[2]int{1, 0}, spectrum.Fill(1e9)}})
	assert.InDelta(t, 1.0/6, b.Incident(0, 0)[4], 1e-8)
	assert.InDelta(t, 1.0/6, b.Incident(0, 1)[4], 1e-8)
}

// More absorption anywhere makes nowhere louder; a wall between two rooms opened to the double raises the quieter
// one by 0 to 3.01 dB and never the louder one; in two parts it is the same wall.
func TestBalanceIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rooms, walls := drawnHouse(t)
		from := rapid.IntRange(0, len(rooms)-1).Draw(t, "from")
		b, _ := Couple(rooms, walls)
		k := rapid.IntRange(0, len(rooms)-1).Draw(t, "lined")
		lined := append([]Room(nil), rooms...)
		lined[k].Absorption = lined[k].Absorption.Plus(spectrum.Fill(rapid.Float64Range(0, 30).Draw(t, "more")))
		c, _ := Couple(lined, walls)
		for at := range rooms {
			require.LessOrEqual(t, c.Incident(from, at)[4], b.Incident(from, at)[4]*(1+1e-9))
		}
		for i, w := range walls {
			wide := append(append([]Joint(nil), walls...), w)
			d, _ := Couple(rooms, wide)
			loud, quiet := w.Rooms[0], w.Rooms[1]
			if loud == quiet || loud == Sink || quiet == Sink {
				continue
			}
			if b.Incident(from, loud)[4] < b.Incident(from, quiet)[4] {
				loud, quiet = quiet, loud
			}
			if was := b.Incident(from, quiet)[4]; was > 0 {
				ratio := d.Incident(from, quiet)[4] / was
				require.True(t, ratio > 1-1e-9 && ratio < 2+1e-9, "by %g", ratio)
				require.LessOrEqual(t, d.Incident(from, loud)[4], b.Incident(from, loud)[4]*(1+1e-9))
			}
			wide[i].Through = wide[i].Through.Minus(spectrum.Fill(w.Through[4] / 3))
			wide[len(walls)].Through = spectrum.Fill(w.Through[4] / 3)
			e, _ := Couple(rooms, wide)
			require.InEpsilon(t, b.Incident(from, quiet)[4]+1e-30, e.Incident(from, quiet)[4]+1e-30, 1e-9)
		}
	})
}

// In a hard room sound meets a wall more often than once: 6 m2 in a room of 1.2 m2 get five times the power.
func TestShareInAHardRoomIsOverOne(t *testing.T) {
	r := mustRoom(t, 0.02, 4, 3.6, 2.04)
	assert.InDelta(t, 10*math.Log10(6/r.Absorption[4]), r.Share(6)[4], 1e-12)
	assert.Greater(t, r.Share(6)[4], 6.0)
	_, err := New([3]float64{4, 3.6, math.Inf(1)}, spectrum.Fill(0.1))
	assert.Error(t, err, "a room without end has no balance")
}

func BenchmarkCouple(b *testing.B) {
	rooms := make([]Room, 6)
	var walls []Joint
	for i := range rooms {
		rooms[i] = mustRoom(b, 0.1, 3, 3, 2)
		walls = append(walls, Joint{[2]int{i, Sink}, spectrum.Fill(0.1)}, Joint{[2]int{i, (i + 1) % 6}, spectrum.Fill(0.01)})
	}
	for b.Loop() {
		Couple(rooms, walls)
	}
}
