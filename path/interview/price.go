package interview

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/path/study/survey"
	"hushwake/source"
)

// Price is what not knowing an answer costs, and what is taken instead.
type Price struct {
	DB     float64 // one standard deviation of what it adds to a level, as the check lists it; of what the file has to state: half of what the level at the seat moves between the guesses
	Taken  string
	Source string
}

// Doubt is how well the first seat's level is known.
type Doubt struct {
	Seat      string
	Level     float64 // dB(A), median
	PlusMinus float64 // dB: eight of ten boats answered like this lie so near
	Shrink    []Shrink
}

// Shrink is something that would take doubt away, and what is left with it.
type Shrink struct {
	ID        string // question; "" = a reading to take
	Words     string
	PlusMinus float64
}

// costs remembers what was worked out, by text, since every screen asks for much of what the one before did.
type costs struct {
	prices map[string]Price // of the text that was priced
	last   map[string]Price // by question, of whichever text
	listed map[string][]source.Assumption
	levels map[string]float64
	doubts map[string]Doubt
}

// Price says what "I don't know" costs for a question that is asked now: what the check of the file lists for it, or, where the
// file has to state it, how far the predicted level at the seat moves between the answers that it might have. Judged
// by plane waves (the fast form).
func (v *Interview) Price(id string) (Price, error) {
	q, err := v.question(id)
	if err != nil {
		return Price{}, err
	}
	key := id + "\x00" + string(v.text)
	if p, ok := v.costs.prices[key]; ok {
		return p, nil
	}
	p, err := v.priced(q)
	p.Taken = q.plain(p.Taken)
	if err == nil {
		v.costs.prices, v.costs.last = remember(v.costs.prices, key, p), remember(v.costs.last, id, p)
	}
	return p, err
}

func (v *Interview) priced(q *Question) (Price, error) {
	p := Price{Taken: q.Default, Source: q.Source}
	without := v.trial()
	if err := without.DontKnow(q.ID); err != nil || q.free {
		return p, err
	}
	if q.Required() {
		var err error
		p.DB, err = v.between(without, q)
		return p, err
	}
	lacks, err := v.missing(without, q)
	sum, most := 0.0, 0.0
	for _, a := range lacks {
		sum += a.PlusMinusDB * a.PlusMinusDB
		if a.PlusMinusDB > most || p.Taken == "" {
			most, p.Taken, p.Source = a.PlusMinusDB, a.Value, a.Source
		}
	}
	p.DB = math.Sqrt(sum)
	return p, err
}

// plain is what is taken in the words of the choice that it is, if it is one.
func (q *Question) plain(taken string) string {
	for _, c := range q.Choices {
		if taken == c.Value || taken == c.yaml() || strings.HasPrefix(taken, c.yaml()+": ") {
			return c.Words
		}
	}
	return taken
}

// trial is a copy with which answers can be tried.
func (v *Interview) trial() *Interview { return &Interview{state: v.state} }

// missing are the assumptions of a file without an answer that are gone with one: the first of its choices, or its example.
func (v *Interview) missing(without *Interview, q *Question) (out []source.Assumption, err error) {
	with := v.trial()
	if err := with.Answer(q.ID, v.sample(q)); err != nil {
		return nil, nil // nothing to compare with
	}
	lacks, err := v.assumed(without.text)
	if err != nil {
		return nil, err
	}
	known, err := v.assumed(with.text)
	for _, a := range lacks {
		if !slices.ContainsFunc(known, func(b source.Assumption) bool { return a.Field == b.Field }) {
			out = append(out, a)
		}
	}
	return out, err
}

// sample is an answer of the kind that is wanted.
func (v *Interview) sample(q *Question) string {
	switch {
	case q.Kind == OfPlace:
		p, _ := v.Placed(q.ID)
		return metres(p[0], p[1], p[2])
	case len(q.Choices) > 0:
		return q.Choices[0].Value
	case q.Kind == OfParts:
		return written([][]string{append([]string{q.Parts[0].Kind}, q.Parts[0].usual...)})
	case len(q.Fields) > 0:
		return q.Fields[0].Example
	}
	return finished
}

// assumed is what the check of a file lists.
func (v *Interview) assumed(text []byte) ([]source.Assumption, error) {
	if all, ok := v.costs.listed[string(text)]; ok {
		return all, nil
	}
	p, b, err := quick(text)
	if err != nil {
		return nil, err
	}
	all := slices.Concat(b.Assumptions, p.Assumptions)
	v.costs.listed = remember(v.costs.listed, string(text), all)
	v.costs.levels = remember(v.costs.levels, string(text), p.Listeners[0].DBA())
	return all, nil
}

// level at the first seat of a file as it is, dB(A).
func (v *Interview) level(text []byte) (float64, error) {
	_, err := v.assumed(text)
	return v.costs.levels[string(text)], err
}

// between is half of what the level at the seat moves between the answers that a question might have.
func (v *Interview) between(without *Interview, q *Question) (float64, error) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, answer := range q.rivals(v) {
		t := without.trial()
		if t.Answer(q.ID, answer) != nil {
			continue // not possible on this boat
		}
		at, err := v.level(t.text)
		if err != nil {
			return 0, err
		}
		low, high = math.Min(low, at), math.Max(high, at)
	}
	return math.Max(0, high-low) / 2, nil
}

// quick predicts the first layout of a file by plane waves.
func quick(text []byte) (path.Prediction, *path.Boat, error) {
	b, err := boatfile.Load("boat.yaml", text)
	if err != nil {
		return path.Prediction{}, nil, err
	}
	if len(b.Layouts) == 0 || len(b.Listeners) == 0 {
		return path.Prediction{}, nil, fmt.Errorf("nobody listens in this file\nhint: name a listener and a layout")
	}
	p, err := path.NewSession(b).Predict(b.Layouts[0], path.Fast)
	return p, b, err
}

// remembered is how many texts are kept; older ones are forgotten together.
const remembered = 200

func remember[T any](m map[string]T, key string, value T) map[string]T {
	if m == nil || len(m) >= remembered {
		m = map[string]T{}
	}
	m[key] = value
	return m
}

// How many draws tell a doubt on the way. A band of 500 was found within 2 % of that of 10 000; where a reading moves the draws it
// takes 4000 to come within 3 % (500 were up to a third too wide, and 1.5 dB off in level).
const (
	drawn = 500
	moved = 4000
)

// known are the draws of the first layout of a text; nil where nobody listens.
func known(text []byte, n int) (*readings.Known, error) {
	b, err := boatfile.Load("boat.yaml", text)
	if err != nil || len(b.Layouts) == 0 || len(b.Listeners) == 0 {
		return nil, err
	}
	b.Layouts = b.Layouts[:1]
	return readings.Know(b, readings.Options{Options: draws.Options{N: n}})
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
	key := strings.Join(v.known, " ") + "\x00" + string(v.text) // a value that is known reads as one that is guessed
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
	k, err := known(v.text, drawn)
	if err != nil || k == nil {
		return Doubt{}, err
	}
	few := spread(k)
	d := few
	if k.Used() > 0 {
		if k, err = known(v.text, moved); err != nil {
			return d, err
		}
		d = spread(k)
	}
	open, guessed, err := v.unsaid()
	if err != nil {
		return d, err
	}
	band := d.PlusMinus
	d.PlusMinus = math.Hypot(band, guessed)
	more := reading(k, d.PlusMinus)
	for _, o := range open {
		left, err := v.left(o, band, few.PlusMinus, guessed)
		if err != nil {
			return d, err
		}
		if left < 0.98*d.PlusMinus {
			more = append(more, Shrink{o.q.ID, o.q.Words, left})
		}
	}
	slices.SortStableFunc(more, func(a, b Shrink) int { return cmp.Compare(a.PlusMinus, b.PlusMinus) })
	d.Shrink = more[:min(len(more), 3)]
	return d, nil
}

// open is a question without a known answer and its price.
type open struct {
	q  *Question
	dB float64
}

// tried is for how many open questions an answer is tried to see what doubt it leaves.
const tried = 4

// unsaid are the dearest questions without a known answer, and the doubt of all that the file has to state and doesn't know.
func (v *Interview) unsaid() (all []open, guessed float64, err error) {
	for i := range table {
		q := &table[i]
		if _, known := v.Asked(q.ID); known || !v.asks(q) || q.free {
			continue
		}
		p, ok := v.costs.last[q.ID]
		if !ok {
			if p, err = v.Price(q.ID); err != nil {
				return nil, 0, err
			}
		}
		if all = append(all, open{q, p.DB}); q.Required() {
			guessed = math.Hypot(guessed, tenths*p.DB)
		}
	}
	slices.SortStableFunc(all, func(a, b open) int { return cmp.Compare(b.dB, a.dB) })
	return all[:min(len(all), tried)], guessed, nil
}

// tenths is how far the 10th and the 90th percentile of a normal distribution lie from its middle, in standard deviations.
const tenths = 1.2816

// left is the doubt that remains with an answer: of what is guessed without its part, else the band as a sample of an answer narrows
// that of few draws.
func (v *Interview) left(o open, band, few, guessed float64) (float64, error) {
	if o.q.Required() {
		by := tenths * o.dB
		return math.Sqrt(max(0, band*band+guessed*guessed-by*by)), nil
	}
	with := v.trial()
	if with.Answer(o.q.ID, v.sample(o.q)) != nil {
		return math.Inf(1), nil
	}
	k, err := known(with.text, drawn)
	if err != nil || k == nil {
		return math.Inf(1), err
	}
	return math.Hypot(band*spread(k).PlusMinus/few, guessed), nil
}

// reading is the best that could be taken, by the survey's own plan.
func reading(k *readings.Known, now float64) []Shrink {
	plan, err := survey.Make(k.Model, k.Predictions, k.Draws, survey.Options{Readings: k.Readings()})
	if err != nil {
		return nil // nothing can be planned for a file like this
	}
	for _, r := range plan.Readings {
		if r.Unit == "dB" && r.Before > 0 && r.After < 0.95*r.Before {
			return []Shrink{planned(r, k.Boat.Listeners[0].Name, r.After/r.Before*now)}
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
