package picture

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

func seatLabel(home rect) *label {
	l := &label{kind: "pic-seat", home: home, lines: []words{{text: "helm 70 dB(A)"}, {text: "limit 65"}}}
	l.measure(13)
	return l
}

// A label lies by what it names, off what is better left free, and inside where there is room.
func TestLabelsLieByWhatTheyName(t *testing.T) {
	home := rect{200, 100, 12, 12}
	b := board{in: rect{0, 0, 400, 200}, hard: []rect{home}}
	l := seatLabel(home)
	b.put(l)
	assert.LessOrEqual(t, l.box.gap(home), lattice+2)
	assert.True(t, l.box.within(b.in))

	room := rect{50, 20, 200, 100}
	b = board{in: rect{0, 0, 400, 200}}
	l = seatLabel(room)
	b.put(l)
	assert.True(t, l.box.within(room))

	b = board{in: rect{0, 0, 400, 200}, hard: []rect{home}, soft: []rect{{212, 0, 200, 200}}}
	l = seatLabel(home)
	b.put(l)
	assert.False(t, l.box.meets(b.soft[0], 0), "there is room on the free side")
}

// The marker of another seat is never as near to a label as its own, where there is room.
func TestLabelsDoNotMislead(t *testing.T) {
	one, two := rect{200, 100, 12, 12}, rect{220, 100, 12, 12}
	b := board{in: rect{0, 0, 400, 200}, hard: []rect{one, two}, seats: []rect{one, two}}
	all := []*label{seatLabel(one), seatLabel(two)}
	b.settle(all)
	for i, l := range all {
		assert.False(t, b.misleads(l.box, l.home), "label %d at %v", i, l.box)
		assert.LessOrEqual(t, l.box.gap(l.home), 10.0)
	}
	assert.False(t, all[0].box.meets(all[1].box, 2))
	assert.True(t, b.misleads(rect{212, 60, 10, 30}, one), "between the two")
}

// On full paper the label goes under it, and the paper grows by it.
func TestFullPaperGrows(t *testing.T) {
	b := board{in: rect{0, 0, 400, 200}, hard: []rect{{0, 0, 400, 200}}}
	l := seatLabel(rect{200, 100, 12, 12})
	assert.Equal(t, full, b.put(l))
	assert.Greater(t, l.box.y, 200.0)
	assert.InDelta(t, l.box.bottom(), 200+b.grown, 1e-9)
}

// What bounds the cost of a place lies under it, so that no place is left out that could be the best.
func TestNearerIsABound(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	some := func() rect { return rect{400 * r.Float64(), 200 * r.Float64(), 90 * r.Float64(), 40 * r.Float64()} }
	n := 0
	for range 2000 {
		at, home := some(), some()
		bound := nearer(at, home)
		assert.LessOrEqual(t, bound, distant(at, home), "%v from %v", at, home)
		if bound > 0.5*distant(at, home) {
			n++
		}
	}
	assert.Greater(t, n, 1000, "it is near the cost of most places")
}
