package path

import (
	"math"

	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// A usual boat where nothing is said of a place: 10 m long, anywhere along it as likely (judgement).
var usualMiddle = Point{5, 0, 1}

const usualSpread = 10 / 3.4641 // m, standard deviation of an even spread over 10 m

// Site is where something stands, as far as it is known: Spread is the standard deviation of its place, m.
type Site struct {
	At     Point
	Spread float64
}

// Somewhere is what is known of the place of a thing in a space that does not say where it lies: a stated engine
// or a listener in it, else a usual boat's length.
func (b *Boat) Somewhere(l *Layout, space string) (at Site, taken string) {
	half := math.Inf(1)
	if sp, ok := l.Space(space); ok {
		if sp.AtStated {
			return Site{At: sp.centre()}, "the middle of the engine's space"
		}
		half = sp.Diagonal() / 3.4641
	}
	for _, e := range l.Engines {
		if e.In == space && e.AtStated && space != Outside {
			return Site{e.At, half}, "the other engine in its space, which is all that is stated of where the engine stands"
		}
	}
	for _, ear := range b.Listeners {
		if ear.In == space && space != Outside {
			return Site{ear.At, half}, "the listener in its space, which is all that is stated of where the engine stands"
		}
	}
	return Site{usualMiddle, usualSpread}, said.Textf("the middle of a usual boat of {10 m} ({5 m} forward of the transom), as nothing is stated of where the engine stands")
}

// EngineSite is where an engine stands, in words too, and how far off that it may be, m: 0 where its place or its space's is stated.
func (b *Boat) EngineSite(l *Layout, e *Engine) (at Point, within float64, taken string) {
	if e.AtStated {
		return e.At, 0, "the engine"
	}
	s, taken := b.Somewhere(l, e.In)
	return s.At, s.Spread * 3.4641 / 2, taken
}

// Doubt is that of the level over a way of r metres from a place known to that spread: 20 lg r moves by 8.7 dB for
// its own length.
func (p Site) Doubt(key string, r float64) []Uncertain {
	if p.Spread == 0 {
		return nil
	}
	sd := 20 / math.Ln10 * p.Spread / math.Hypot(r, p.Spread)
	return []Uncertain{{Term: "place", Key: "place/" + key, SD: spectrum.Fill(sd), Source: "not stated in the file: place known to some metres, judgement"}}
}
