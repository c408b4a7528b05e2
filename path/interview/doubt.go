package interview

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/path/study/survey"
)

// How many draws tell a doubt on the way. A band of 500 was found within 2 % of that of 10 000; where a reading moves the draws it
// takes 4000 to come within 3 % (500 were up to a third too wide, and 1.5 dB off in level).
const (
	drawn = 500
	moved = 4000
)

// known are the draws of the first layout of a text, its readings left out or not; nil where nobody listens.
func known(text []byte, n int, ignore bool) (*readings.Known, error) {
	b, err := boatfile.Load("boat.yaml", text)
	if err != nil || len(b.Layouts) == 0 || len(b.Listeners) == 0 {
		return nil, err
	}
	b.Layouts = b.Layouts[:1]
	return readings.Know(b, readings.Options{Options: draws.Options{N: n}, Ignore: ignore})
}

// spread is the level at the first seat with half of its band.
func spread(k *readings.Known) Doubt {
	s := k.Model.SpreadOf(k.Sample).Layouts[0].Listeners[0]
	return Doubt{Seat: s.Listener, Level: s.Level, PlusMinus: (s.High - s.Low) / 2}
}

// Doubt says how well the first seat's level is known by now, and what would help most: a reading that the survey plans,
// and questions that were not answered yet or with "I don't know". A file that was there before is told about by its own levels,
// and one where nobody listens has none.
func (v *Interview) Doubt() (Doubt, error) {
	key := strings.Join(v.known, " ") + "\x00" + string(v.text) // a value that is known may read as one that is taken
	if d, ok := v.costs.doubts[key]; ok {
		return d, nil
	}
	d, err := v.doubt()
	if err == nil {
		v.costs.doubts = remember(v.costs.doubts, key, d)
	}
	return d, err
}

func (v *Interview) doubt() (Doubt, error) {
	if v.goal == "file" {
		return Doubt{}, nil
	}
	k, err := known(v.text, drawn, true)
	if err != nil || k == nil {
		return Doubt{}, err
	}
	d := spread(k)
	b := bar{plain: d.PlusMinus, read: d.PlusMinus}
	if len(k.Boat.Readings) > 0 {
		if k, err = known(v.text, moved, false); err != nil {
			return d, err
		}
		d = spread(k)
		b.read = d.PlusMinus
	}
	d.Shrink, err = v.shrink(k, b)
	return d, err
}

// bar is half of the band at the seat, dB: without readings and with them.
type bar struct{ plain, read float64 }

// left is half of the band where an answer narrows the draws without readings to that much: a reading keeps the weight with which it
// narrowed them, as normal distributions are multiplied.
func (b bar) left(narrow float64) float64 {
	if b.plain == 0 || b.read == 0 || narrow == 0 {
		return min(narrow, b.read)
	}
	weight := max(0, 1/(b.read*b.read)-1/(b.plain*b.plain))
	return math.Sqrt(1 / (1/(narrow*narrow) + weight))
}

// shrink lists what would help most, best first: what takes less than a fiftieth away is left out.
func (v *Interview) shrink(k *readings.Known, b bar) ([]Shrink, error) {
	more := reading(k, b)
	all, err := v.unsaid()
	if err != nil {
		return nil, err
	}
	for _, q := range all {
		left, err := v.left(q, b)
		if err != nil {
			return nil, err
		}
		more = append(more, Shrink{q.ID, q.Words, left})
	}
	more = slices.DeleteFunc(more, func(s Shrink) bool { return s.PlusMinus >= 0.98*b.read })
	slices.SortStableFunc(more, func(a, b Shrink) int { return cmp.Compare(a.PlusMinus, b.PlusMinus) })
	return more[:min(len(more), 3)], nil
}

// tried is for how many open questions an answer is tried to see what doubt it leaves.
const tried = 4

// unsaid are the dearest questions without a known answer.
func (v *Interview) unsaid() (all []*Question, err error) {
	price := map[string]float64{}
	for i := range table {
		q := &table[i]
		if _, known := v.Asked(q.ID); known || !v.asks(q) || q.free {
			continue
		}
		p, ok := v.costs.last[q.ID]
		if !ok {
			if p, err = v.Price(q.ID); err != nil {
				return nil, err
			}
		}
		all, price[q.ID] = append(all, q), p.DB
	}
	slices.SortStableFunc(all, func(a, b *Question) int { return cmp.Compare(price[b.ID], price[a.ID]) })
	return all[:min(len(all), tried)], nil
}

// left is the doubt that remains with an answer: without the variance of the guess, else the band of the draws with a sample of an answer.
func (v *Interview) left(q *Question, b bar) (float64, error) {
	if sd, guessed := v.guessed(q); guessed {
		return b.left(math.Sqrt(max(0, b.plain*b.plain-math.Pow(draws.Z90*sd, 2)))), nil
	}
	with := v.trial()
	if with.Answer(q.ID, v.sample(q)) != nil {
		return math.Inf(1), nil
	}
	k, err := known(with.text, drawn, true)
	if err != nil || k == nil {
		return math.Inf(1), err
	}
	return b.left(spread(k).PlusMinus), nil
}

// reading is the best that could be taken, by the survey's own plan.
func reading(k *readings.Known, b bar) []Shrink {
	plan, err := survey.Make(k.Model, k.Predictions, k.Draws, survey.Options{Readings: k.Readings()})
	if err != nil {
		return nil // nothing can be planned for a file like this
	}
	for _, r := range plan.Readings {
		if r.Unit == "dB" && r.Before > 0 && r.After < 0.95*r.Before {
			return []Shrink{planned(r, k.Boat.Listeners[0].Name, b.read*r.After/r.Before)}
		}
	}
	return nil
}

// planned is a reading in plain words; the one that the interview asks for has its question.
func planned(r survey.Planned, seat string, left float64) Shrink {
	if r.Where == seat && strings.HasPrefix(r.What, "dB(A) at") {
		return Shrink{"level", "one phone reading at the seat", left}
	}
	if r.Where == seat && strings.HasPrefix(r.What, "dB(C) at") {
		return Shrink{"", "a second phone reading at the seat, in dB(C)", left}
	}
	return Shrink{"", r.What + ", " + r.Where, left}
}
