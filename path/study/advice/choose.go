package advice

import (
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/floats"

	"hushwake/path/study/draws"
	"hushwake/source/cores"
)

// Choice is a layout as the advice weighs it.
type Choice struct {
	Layout   string
	Levels   [][]float64 // dB(A), [seat][draw]; equal draws of all choices belong together
	Sones    []float64   // [seat], loudness at the middle of the draws, by ISO 532-1; 0 or nil = not known
	Pressure float64     // share of the limit that the exhaust nearest to it takes; 0 = none stated
	Starved  bool        // an engine lacks air in its box
	Cooked   bool        // an engine or its box grows too hot
	Tight    bool        // it fits barely
	Wet      bool        // water is injected into a line of it
	Price    *float64    // nil = unknown
	From     bool        // a part of it has no price: it costs Price or more
	Today    bool        // it is on board now
	Slots    string      // how to fill what it leaves open; "" = it is whole
	Out      bool        // refused, or to be asked about first: never advised
	Asked    bool        // to be asked about first, and not refused
	Dangers  []string    // what endangers people with it, in words
	Lesser   []string    // the same, where it is graver with others: of which it is not free
	medians  []float64   // of the levels by seat, once known
}

// Seat is a place where somebody listens, with how much it counts.
type Seat struct {
	Name  string
	Hours float64 // a day; 0 = not stated, counts as one
	Limit *float64
}

// What nobody hears: a difference whose median is under 1 dB, or that lies within 3 dB, just heard
// side by side, in eight cases of ten.
const (
	unheard     = 1.0
	justHeard   = 3.0
	unheardCase = 0.8
)

// Same says whether nobody hears a difference of two choices at a seat.
func Same(a, b Choice, seat int) bool {
	x, y := a.Levels[seat], b.Levels[seat]
	near, over, under := 0, 0, 0 // over and under what is heard
	for i, v := range x {
		d := v - y[i]
		if math.Abs(d) <= justHeard {
			near++
		}
		if d >= unheard {
			over++
		}
		if d <= -unheard {
			under++
		}
	}
	most := len(x) / 2 // of either: with more the median lies there, with fewer it does not
	switch {
	case float64(near) >= unheardCase*float64(len(x)):
		return true
	case over != most && under != most:
		return over < most && under < most
	}
	d := make([]float64, len(x)) // the median lies halfway between two draws
	floats.SubTo(d, x, y)
	return math.Abs(draws.Quantile(d, 0.5)) < unheard
}

// Unheard tells of two layouts and a seat, of levels by layout, seat and draw, whether nobody hears a difference there.
func Unheard(levels [][][]float64) func(a, b, seat int) bool {
	return func(a, b, seat int) bool { return Same(Choice{Levels: levels[a]}, Choice{Levels: levels[b]}, seat) }
}

func sameEverywhere(a, b Choice) bool {
	for s := range a.Levels {
		if !Same(a, b, s) {
			return false
		}
	}
	return true
}

// joint is the level over all seats, weighed by hours; what is over a limit counts twice.
func joint(c Choice, seats []Seat) float64 {
	sum, weights := 0.0, 0.0
	for s, seat := range seats {
		w := seat.Hours
		if w == 0 {
			w = 1
		}
		l := median(c, s)
		sum, weights = sum+w*l, weights+w
		if seat.Limit != nil {
			sum += w * math.Max(0, l-*seat.Limit)
		}
	}
	return sum / math.Max(weights, 1e-9)
}

// over counts the limits that a choice exceeds.
func over(c Choice, seats []Seat) (n int) {
	for s, seat := range seats {
		if seat.Limit != nil && median(c, s) > *seat.Limit {
			n++
		}
	}
	return n
}

// group is choices that sound the same everywhere; the first is the one to take of them.
type group []Choice

// price is what the first of it costs; +Inf where that is not known in full: nothing is the cheapest by an unknown.
func (g group) price() float64 {
	switch {
	case g[0].Price != nil && !g[0].From:
		return *g[0].Price
	case g[0].Today:
		return 0
	}
	return math.Inf(1)
}

// harm is what a choice does to the engine: 0 none, 1 little margin, 2 over its limit or short of air.
func (c Choice) harm() int {
	switch {
	case c.Starved || c.Pressure > 1:
		return 2
	case c.Pressure > 0.75:
		return 1
	}
	return 0
}

// better orders choices that sound the same: engine harm, fit, heat, price.
func better(a, b Choice) bool {
	flag := func(b bool) int {
		if b {
			return 1
		}
		return 0
	}
	for _, d := range []int{a.harm() - b.harm(), flag(a.Tight) - flag(b.Tight), flag(a.Cooked) - flag(b.Cooked)} {
		if d != 0 {
			return d < 0
		}
	}
	return (group{a}).price() < (group{b}).price()
}

// groups parts what can be advised into groups that sound the same, the quietest first.
func groups(all []Choice, seats []Seat) (out []group) {
	var live []Choice
	for _, c := range all {
		if !c.Out {
			live = append(live, c)
		}
	}
	sort.SliceStable(live, func(i, j int) bool { return joint(live[i], seats) < joint(live[j], seats) })
	taken := make([]bool, len(live))
	for i, head := range live {
		if taken[i] {
			continue
		}
		var g group
		for j := i; j < len(live); j++ {
			if !taken[j] && (j == i || sameEverywhere(live[j], head)) {
				g, taken[j] = append(g, live[j]), true
			}
		}
		sort.SliceStable(g, func(a, b int) bool { return better(g[a], g[b]) })
		out = append(out, g)
	}
	return out
}

// choose steps up by price from the cheapest group as long as a dearer one is worth it, and gives the
// one to take, the one that it stepped up from, and the next dearer that is quieter somewhere; nil
// where none is.
func choose(all []group, seats []Seat) (take, cheaper, dearer group) {
	byPrice := slices.Clone(all)
	sort.SliceStable(byPrice, func(i, j int) bool {
		if byPrice[i].price() != byPrice[j].price() {
			return byPrice[i].price() < byPrice[j].price()
		}
		return joint(byPrice[i][0], seats) > joint(byPrice[j][0], seats)
	})
	take = byPrice[0]
	for _, g := range byPrice[1:] {
		if worth(take[0], g[0], seats) {
			take, cheaper, dearer = g, take, nil
		} else if dearer == nil && buys(take[0], g[0]) >= 0 {
			dearer = g
		}
	}
	return take, cheaper, dearer
}

// worth says whether b is worth a higher price than a: it spares the engine or keeps a limit more, or
// is quieter over all seats by what is just heard, without harm.
func worth(a, b Choice, seats []Seat) bool {
	switch {
	case b.harm() != a.harm():
		return b.harm() < a.harm()
	case b.Cooked != a.Cooked:
		return a.Cooked
	case over(b, seats) != over(a, seats):
		return over(b, seats) < over(a, seats)
	}
	return joint(a, seats)-joint(b, seats) >= justHeard
}

// buys is the seat where b is quieter than a by most, if by what is heard; -1 where it is nowhere.
func buys(a, b Choice) int {
	best, at := 0.0, -1
	for s := range a.Levels {
		if d := median(a, s) - median(b, s); !Same(a, b, s) && d > best {
			best, at = d, s
		}
	}
	return at
}

// known works the medians out once.
func known(all []Choice) []Choice {
	all = slices.Clone(all)
	cores.Each(len(all), func(i int) {
		all[i].medians = nil
		for _, v := range all[i].Levels {
			all[i].medians = append(all[i].medians, draws.Quantile(v, 0.5))
		}
	})
	return all
}

func median(c Choice, seat int) float64 {
	if c.medians == nil {
		return draws.Quantile(c.Levels[seat], 0.5)
	}
	return c.medians[seat]
}
