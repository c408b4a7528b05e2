package room

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// inLocker is a fan box whose mouths lie in a locker.
func inLocker(s *Space, inlet, outlet *Space) Ventilation {
	return Ventilation{Heat: []Heat{{Stated: 2000, Combustion: 0.01}}, Walls: 10, In: s, Fan: &Fan{Curve: []FanPoint{{0, 100}, {0.3, 0}}},
		Openings: []Opening{{Role: "inlet", Area: 0.04, Mouth: inlet}, {Role: "outlet", Area: 0.04, Mouth: outlet}}}
}

// All that is given off leaves by air or through walls: box and locker in closed form where the locker breathes freely.
func TestAirOfALocker(t *testing.T) {
	s := &Space{Name: "locker", Open: 1, Walls: 5, Heat: 300}
	v := inLocker(s, s, nil)
	a, err := ventilate(v)
	require.NoError(t, err)
	m := 101325 / (287.05 * 300) * 1005 * a.Flow
	// locker: 300 + 10 (T - Tr) = (5 + m) Tr; box: 2000 + m Tr = m T + 10 (T - Tr)
	inlet := a.Inlet - 300
	assert.InDelta(t, 300+10*(a.Rise-inlet), (5+m)*inlet, 1)
	assert.InDelta(t, 2000+m*inlet, m*a.Rise+10*(a.Rise-inlet), 1)
	assert.Greater(t, inlet, 0.5)
	// air straight from the open is cooler by about what the locker warms it
	open, err := ventilate(inLocker(s, nil, nil))
	require.NoError(t, err)
	assert.Equal(t, 300.0, open.Inlet)
	assert.InDelta(t, a.Rise-inlet, open.Rise, 1.5)
}

// What a box blows back into the locker that feeds it comes round again: worse than blowing it out, and the tighter the locker the hotter.
func TestAirGoesRound(t *testing.T) {
	rise := func(open float64, out bool) Air {
		s := &Space{Name: "locker", Open: open, Walls: 8, Height: 1}
		outlet := s
		if out {
			outlet = nil
		}
		a, err := ventilate(inLocker(s, s, outlet))
		require.NoError(t, err)
		return a
	}
	assert.Greater(t, rise(0.2, false).Rise, rise(0.2, true).Rise+5)
	assert.Greater(t, rise(0.02, false).Rise, rise(0.2, false).Rise)
	assert.Less(t, rise(0.005, true).Flow, 0.7*rise(0.2, true).Flow, "the locker's own holes hold the fan back")
	shut := rise(0, true)
	assert.InDelta(t, 0.01, shut.Flow, 1e-3, "nothing can come into a shut locker but what the engine draws")
	assert.Equal(t, "starved", shut.Verdicts[0].Code)
}

func TestBadSpace(t *testing.T) {
	_, err := ventilate(Ventilation{In: &Space{Name: "locker", Open: -1}})
	assert.ErrorContains(t, err, "locker")
}

// A room's own draught by hand: half of its openings in, half out, each takes half of rho g h dT/T.
func TestDraughtOfARoom(t *testing.T) {
	s := &Space{Open: 0.1, Height: 1.2}
	n := Ventilation{In: s, Openings: []Opening{{Role: "inlet", Area: 0.01, Mouth: s}}}.filled().network()
	r := n.rooms[0]
	draught := n.density * 9.81 * 1.2 * 20 / 320
	want := 0.05 * math.Sqrt(2*(draught/2)/(n.density*2.8))
	assert.InEpsilon(t, want, r.exchange(&n, 20), 1e-9)
}
