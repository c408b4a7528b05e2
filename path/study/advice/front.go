package advice

import (
	"math"

	"hushwake/path"
)

// Tradeoff is one layout at one listener among the others: on the front when no other is at least
// as good in everything it states, and better in something.
type Tradeoff struct {
	Layout, Listener string
	Level            float64  // dB(A)
	RatedPressure    *float64 // Pa, the highest of its exhausts; nil = unknown
	Price, Length    *float64 // nil = unknown, in whole or in part
	Refused          bool
	OnFront          bool
	Unknown          []string // what it could not be compared on
}

// Front gives the trade-off of level, rated back pressure, price and length (Pareto front). A layout
// whose price or length is unknown is compared on the rest and says so, and pushes none off whose is known; refused layouts are never on
// the front and push nobody off it.
func Front(predictions []path.Prediction) []Tradeoff {
	var all []Tradeoff
	for _, p := range predictions {
		for _, h := range p.Listeners {
			all = append(all, tradeoff(p, h))
		}
	}
	byListener := map[string][]*Tradeoff{}
	for i := range all {
		byListener[all[i].Listener] = append(byListener[all[i].Listener], &all[i])
	}
	for _, group := range byListener {
		markFront(group)
	}
	return all
}

func tradeoff(p path.Prediction, h path.Heard) Tradeoff {
	t := Tradeoff{Listener: h.Listener.Name, Level: h.DBA(), Length: p.Length, Refused: p.Refused}
	if p.Layout != nil {
		t.Layout = p.Layout.Name
		if len(p.Layout.Unpriced) == 0 {
			t.Price = p.Layout.Price
		}
	}
	for _, x := range p.Exhausts {
		if v := x.Rated.BackPressure; t.RatedPressure == nil || v > *t.RatedPressure {
			t.RatedPressure = &v
		}
	}
	for i, name := range []string{"", "back pressure", "price", "length"} {
		if t.values()[i] == nil {
			t.Unknown = append(t.Unknown, name)
		}
	}
	return t
}

func (t *Tradeoff) values() [4]*float64 {
	return [4]*float64{&t.Level, t.RatedPressure, t.Price, t.Length}
}

// markFront sets OnFront of one listener's layouts.
func markFront(group []*Tradeoff) {
	for _, t := range group {
		if t.Refused {
			continue
		}
		t.OnFront = true
		for _, o := range group {
			if o != t && !o.Refused && Dominates(o.values(), t.values()) {
				t.OnFront = false
				break
			}
		}
	}
}

// Dominates compares what b knows: an unknown beats nothing. Differences in the tenth digit are none.
func Dominates(a, b [4]*float64) bool {
	better := false
	for i := range a {
		if b[i] == nil {
			continue
		}
		if a[i] == nil {
			return false
		}
		small := 1e-9 * math.Max(1, math.Abs(*b[i]))
		switch {
		case *a[i] > *b[i]+small:
			return false
		case *a[i] < *b[i]-small:
			better = true
		}
	}
	return better
}
