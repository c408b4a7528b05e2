package room

import (
	"fmt"
	"math"

	"hushwake/source/published"
	"hushwake/source/said"
)

// soakCited cites how a box cools.
var soakCited = published.By("M c dT/dt = -h S (T - Tair), air: h S (T - Tair) = (UA + rho cp V)(Tair - To), V by draught",
	"lumped heat balance; film 10 W/(m2 K) and 480 J/(kg K) from memory; touch for a minute ISO 13732-1, from memory", "from memory")

// Figures of a box after its engine has stopped.
const (
	soakFilm = 10.0         // W/(m2 K) on the engine's skin, free air and radiation (textbook, from memory)
	ironHeat = 480.0        // J/(kg K)
	safeAir  = 273.15 + 60  // K
	safeSkin = 273.15 + 51  // K, bare metal for a minute (ISO 13732-1, from memory)
	longSoak = 48 * 3600.0  // s, beyond it no time is told
	soakStep = 1.0 / 1000.0 // of the time constant
)

// Body is what stays warm in a box: engine with its water and oil as one piece of iron.
type Body struct {
	Mass, Area, Temperature float64 // kg, m2, K as it stops
}

// Soak is a box after its engine and fan have stopped. Times are in s from then; nil = not within two days.
type Soak struct {
	Peak  float64  // K of the air, right after the stop
	Air60 *float64 // until the air is under 60 °C; 0 = it never is over
	Touch *float64 // until bare metal may be touched for a minute
	Text  string
	published.Cited
}

// CoolDown is how a box cools once its engines and fan have stopped, by its walls and the draught through its openings;
// rooms round it count as the open air.
func (v Ventilation) CoolDown(b Body) (s Soak, err error) {
	v = v.filled()
	v.Heat, v.Fan = nil, nil
	if err := v.check(); err != nil {
		return s, err
	}
	if !(b.Mass > 0 && b.Area > 0 && b.Temperature > 0) || math.IsInf(b.Mass+b.Area+b.Temperature, 0) {
		return s, fmt.Errorf("a body of %g kg, %g m2 and %g K cools down in no model: all must be above zero", b.Mass, b.Area, b.Temperature)
	}
	n := v.network()
	s.Cited = soakCited
	film, held := soakFilm*b.Area, b.Mass*ironHeat
	t, step := b.Temperature, soakStep*held/film
	s.Peak = v.Outside + n.soaked(film, t-v.Outside)
	for now := 0.0; now <= longSoak && (s.Air60 == nil || s.Touch == nil); now += step {
		air := v.Outside + n.soaked(film, t-v.Outside)
		s.Air60, s.Touch = reached(s.Air60, air <= safeAir, now), reached(s.Touch, t <= safeSkin, now)
		t -= film * (t - air) / held * step
	}
	s.Text = s.words()
	return s, nil
}

func reached(at *float64, now bool, when float64) *float64 {
	if at == nil && now {
		return &when
	}
	return at
}

// soaked is the air over the outside for a body so much over it, K, where draught and walls carry off what its skin gives.
func (n network) soaked(film, body float64) float64 {
	low, high := 0.0, math.Max(0, body)
	for range 50 {
		air := (low + high) / 2
		if (n.walls+n.density*cpAir*n.free(air))*air > film*(body-air) {
			high = air
		} else {
			low = air
		}
	}
	return low
}

// free is what draught alone moves at a rise, m3/s.
func (n network) free(rise float64) float64 {
	if n.in <= 0 || n.out <= 0 {
		return 0
	}
	return math.Sqrt(n.draught(rise) / (1/(n.in*n.in) + 1/(n.out*n.out)))
}

func (s Soak) words() string {
	when := func(t *float64) string {
		if t == nil {
			return "not within two days"
		}
		return fmt.Sprintf("after %.1f h", *t/3600)
	}
	text := said.Textf("after a hot stop, fan off, the heat left in the engine holds the air in the box at {%.0f °C}", s.Peak-273.15)
	if s.Air60 == nil || *s.Air60 > 180 { // under three minutes it is at once
		text += said.Textf(", is under {60 °C} %s", when(s.Air60))
	}
	return text + fmt.Sprintf("; bare metal may be touched %s", when(s.Touch))
}
