package interview

import (
	"cmp"
	"fmt"
	"math"
	"slices"

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

// costs remembers prices by text, since every screen asks for those of the one before.
type costs struct {
	prices map[string]Price
	listed map[string][]source.Assumption
	levels map[string]float64
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
	if err == nil {
		v.costs.prices = remember(v.costs.prices, key, p)
	}
	return p, err
}

func (v *Interview) priced(q *Question) (Price, error) {
	p := Price{Taken: q.Default, Source: q.Source}
	without := v.trial()
	if err := without.DontKnow(q.ID); err != nil || without.goal == "file" || v.goal == "file" {
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
		if a.PlusMinusDB > most {
			most, p.Taken, p.Source = a.PlusMinusDB, a.Value, a.Source
		}
	}
	p.DB = math.Sqrt(sum)
	return p, err
}

// trial is a copy with which answers can be tried.
func (v *Interview) trial() *Interview { return &Interview{state: v.state} }

// missing are the assumptions of a file without an answer that are gone with one: the first of its choices, or its example.
func (v *Interview) missing(without *Interview, q *Question) (out []source.Assumption, err error) {
	with := v.trial()
	if err := with.Answer(q.ID, q.sample()); err != nil {
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
func (q *Question) sample() string {
	switch {
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

// draw is how many draws tell a doubt on the way: its own error is about a twentieth of it.
const drawn = 500

// Doubt says how well the first seat's level is known by now, and what would help most: readings that the survey
// plans, and questions that were not answered yet or with "I don't know".
func (v *Interview) Doubt() (Doubt, error) {
	b, err := boatfile.Load("boat.yaml", v.text)
	if err != nil {
		return Doubt{}, err
	}
	if len(b.Layouts) == 0 || len(b.Listeners) == 0 {
		return Doubt{}, nil
	}
	b.Layouts = b.Layouts[:1]
	k, err := readings.Know(b, readings.Options{Options: draws.Options{N: drawn}})
	if err != nil {
		return Doubt{}, err
	}
	s := k.Model.SpreadOf(k.Sample).Layouts[0].Listeners[0]
	d := Doubt{Seat: s.Listener, Level: s.Level, PlusMinus: (s.High - s.Low) / 2}
	if v.goal == "file" {
		return d, nil
	}
	open, guessed, err := v.unsaid()
	if err != nil {
		return d, err
	}
	d.PlusMinus = math.Hypot(d.PlusMinus, guessed)
	d.Shrink = v.shrink(d.PlusMinus, open, reading(k, d.PlusMinus, guessed))
	return d, nil
}

// unsaid are the questions without a known answer, each with its price, and the doubt of all that the file has to state and doesn't know.
func (v *Interview) unsaid() (open map[string]float64, guessed float64, err error) {
	open = map[string]float64{}
	for i := range table {
		q := &table[i]
		_, known := v.Asked(q.ID)
		if known || !v.asks(q) || q.ID == "ideas" || q.ID == "level" {
			continue
		}
		p, err := v.Price(q.ID)
		if err != nil {
			return nil, 0, err
		}
		open[q.ID] = p.DB
		if q.Required() {
			guessed = math.Hypot(guessed, tenths*p.DB)
		}
	}
	return open, guessed, nil
}

// tenths is how far the 10th and the 90th percentile of a normal distribution lie from its middle, in standard deviations.
const tenths = 1.2816

// reading is the best that could be taken, by the survey's own plan.
func reading(k *readings.Known, plusMinus, guessed float64) []Shrink {
	plan, err := survey.Make(k.Model, k.Predictions, k.Draws, survey.Options{Readings: k.Readings()})
	if err != nil {
		return nil
	}
	for _, r := range plan.Readings {
		if r.Unit == "dB" && r.Before > 0 && r.After < 0.95*r.Before {
			left := r.After / r.Before * plusMinus
			return []Shrink{{"", "a reading by phone: " + r.What + ", at " + r.Where, left}}
		}
	}
	return nil
}

// shrink lists what would help most, best first.
func (v *Interview) shrink(now float64, open map[string]float64, more []Shrink) []Shrink {
	for i := range table {
		q := &table[i]
		if by := tenths * open[q.ID]; by > 0 {
			left := math.Sqrt(math.Max(0, now*now-by*by))
			more = append(more, Shrink{q.ID, q.Words, left})
		}
	}
	slices.SortStableFunc(more, func(a, b Shrink) int { return cmp.Compare(a.PlusMinus, b.PlusMinus) })
	return more[:min(len(more), 3)]
}
