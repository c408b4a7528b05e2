package interview

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
	"hushwake/source"
	"hushwake/source/said"
)

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
	if err := without.guess(q, 0); err != nil || q.free {
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
			most, p.Taken, p.Source = a.PlusMinusDB, said.Plain(a.Value), said.Plain(a.Source)
		}
	}
	p.DB = math.Sqrt(sum)
	return p, err
}

// plain is what is taken in the words of the choice that it is, if it is one.
func (q *Question) plain(taken string) string {
	if taken == "bare steel" { // how the file calls any hard surface
		taken = "hard surfaces"
	}
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
	p, err := scene.NewSession(b).Predict(b.Layouts[0], path.Fast)
	return p, b, err
}
