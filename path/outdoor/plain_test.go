package outdoor

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/source/spectrum"
)

// plainPassed is view.passed with nothing left out: every strip, every obstacle and every edge worked out each time.
func plainPassed(v view, c2 float64) spectrum.Bands {
	clear, shared, y := spectrum.Fill(1), spectrum.Fill(1), number(c2)
	for i := range v.all {
		o := &v.all[i]
		screen := v.alone(o)
		over := screen.passed(c2)
		for b := range clear {
			hidden := o.part
			if !o.crossed {
				hidden *= 1.5 * (1 - clearOf(y[b]*o.aside))
			}
			if o.hangs && o.beneath < 0 {
				hidden *= 1.5 * (1 - clearOf(-y[b]*o.beneath))
			}
			if screen.Z <= 0 {
				hidden *= 1.5 * (1 - over[b])
			}
			clear[b] = math.Max(0, clear[b]-hidden)
		}
	}
	if clear == spectrum.Fill(1) {
		return clear
	}
	cuts := v.cuts()
	for i := range len(cuts) - 1 {
		over := v.column(v.standing((cuts[i]+cuts[i+1])/2), c2)
		for b := range shared {
			shared[b] -= (beyond(y[b]*cuts[i]) - beyond(y[b]*cuts[i+1])) * (1 - over[b])
		}
	}
	for b := range clear {
		clear[b] = math.Min(1, math.Max(clear[b], shared[b]))
	}
	return clear
}

// somewhere draws two ends, bodies and an edge.
func somewhere(r *rand.Rand) (from, to Point, boxes []Box, edges []Segment) {
	at := func(high float64) Point { return Point{12 * r.Float64(), 6 * r.Float64(), high * r.Float64()} }
	for range 1 + r.IntN(5) {
		b := BoxAt("body", at(3), Point{0.5 + 3*r.Float64(), 0.5 + 3*r.Float64(), 0.5 + 2*r.Float64()})
		b.Min[2] -= 1
		boxes = append(boxes, b)
	}
	return at(5), at(5), boxes, []Segment{{Name: "edge", From: at(4), To: at(4)}}
}

// What is left out of shielding and reflection, because it is clear of the line or cannot tell, changes no bit.
func TestLeftOutIsNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	hidden, surfaces := 0, 0
	for range 800 {
		from, to, boxes, edges := somewhere(r)
		for _, v := range []view{look(from, to, edges, boxes), look(from, to, mirrored(edges, 0.3), doubled(boxes, 0.3))} {
			want := plainPassed(v, GroundInside)
			require.Equal(t, want, v.passed(GroundInside))
			if want != spectrum.Fill(1) {
				hidden++
			}
		}
		want := mirror(from, to, 0, spectrum.Fill(1), boxes, edges)
		for i, b := range boxes {
			rest := append(append([]Box(nil), boxes[:i]...), boxes[i+1:]...)
			for k, g := range mirror(from, to, b.Max[2], b.reflects(from, to), rest, edges) {
				if g > want[k] {
					want[k], surfaces = g, surfaces+1
				}
			}
		}
		require.Equal(t, want, Reflection(from, to, boxes, edges...).Gain)
	}
	require.Greater(t, hidden, 400)
	require.Greater(t, surfaces, 300)
}

// The share over the cap of a screen is that of the cap's own formula, where the second edge counts in part too.
func TestLeastAtTheCap(t *testing.T) {
	for c3, db := range map[float64]float64{1: 20, 1.5: 22.5, 2: 25, 3: 25} {
		require.InDelta(t, math.Pow(10, -db/10), least(c3), 1e-15, "C3 %g", c3)
	}
}

// What comes from under a body's top, or goes there, is lost to its reflection by exp(-(20/lambda) depth), and by no other
// part of it more than all.
func TestFromUnderATop(t *testing.T) {
	b := BoxAt("deck", Point{}, Point{8, 4, 1})
	over, under, deep := Point{1, 2, 2}, Point{7, 2, 0.9}, Point{7, 2, 0.5}
	require.Equal(t, spectrum.Fill(1), b.overTop(over, Point{7, 2, 1.5}))
	require.InDelta(t, math.Exp(-20*1000/340.0*0.1), b.overTop(over, under)[5], 1e-12)
	require.Equal(t, b.overTop(over, deep), b.overTop(deep, over))
	for k, v := range b.overTop(over, deep) {
		require.Less(t, v, b.overTop(over, under)[k])
		require.LessOrEqual(t, b.reflects(over, deep)[k], v)
	}
}
