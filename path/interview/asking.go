package interview

import (
	"errors"
	"fmt"
	"slices"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
)

// question finds one that can be answered now.
func (v *Interview) question(id string) (*Question, error) {
	for i := range table {
		if q := &table[i]; q.ID == id && v.asks(q) {
			return v.shown(q), nil
		}
	}
	return nil, fmt.Errorf("no question %q is asked here\nhint: answer the one on the screen", spelling.Clip(id))
}

// Next is the question to ask; nil at the end.
func (v *Interview) Next() *Question {
	for i := range table {
		if q := &table[i]; v.asks(q) && !slices.Contains(v.done, q.ID) {
			return v.shown(q)
		}
	}
	return nil
}

// Progress tells which question is asked, from 1, and of about how many.
func (v *Interview) Progress() (at, of int) {
	for i := range table {
		if q := &table[i]; slices.Contains(v.done, q.ID) || v.asks(q) {
			of++
		}
	}
	return min(len(v.done)+1, of), of
}

func (v *Interview) asks(q *Question) bool { return q.asked == nil || q.asked(v) }

// shown is a question about this boat: its place with the names of the file in it.
func (v *Interview) shown(q *Question) *Question {
	out := *q
	out.Place = v.at(q.Place)
	if q.Required() && q.Default == "" {
		out.Default = v.stands(out)
	}
	return &out
}

// stands is the answer that the file holds now, in words.
func (v *Interview) stands(q Question) string {
	value, _ := getPlain(v.text, q.Place)
	if q.ID == "exhaust" {
		value = "dry"
		if v.wet() {
			value = "wet"
		}
	}
	for _, c := range q.Choices {
		if value == c.yaml() && c.Picture == "" {
			return c.Words
		}
	}
	return value
}

// Placed is the place that a question asks for, as the file has it; ok is false where the file doesn't say, and p is then where such
// a thing usually is (judgement).
func (v *Interview) Placed(id string) (p [3]float64, ok bool) {
	for i := range table {
		if table[i].ID == id {
			p, ok = v.point(v.at(table[i].Place))
		}
	}
	if !ok {
		p = [3]float64{0.3 * v.Length(), 0, 0.1}
	}
	return p, ok
}

// point is a place of the file in metres.
func (v *Interview) point(at string) (p [3]float64, ok bool) {
	for i := range p {
		value, found := get(v.text, at, i)
		q, err := quantity.Parse(value, quantity.Length)
		if !found || err != nil {
			return p, false
		}
		p[i] = q.Value
	}
	return p, true
}

// CanFinish tells whether the rest may be left out: from the second question on.
func (v *Interview) CanFinish() bool {
	return len(v.done) > 0 && v.goal != "file" && v.Next() != nil && v.Next().Kind != OfIdeas
}

// Finish leaves the rest unknown: the file stays as it is, with what it takes for each and its price. Back takes that back.
func (v *Interview) Finish() error {
	if !v.CanFinish() {
		return errors.New("nothing is left out here\nhint: answer the question on the screen")
	}
	next := v.state
	next.done = slices.Clone(v.done)
	for i := range table {
		if q := &table[i]; v.asks(q) && !slices.Contains(next.done, q.ID) {
			next.done = append(next.done, q.ID)
		}
	}
	v.before = append(v.before, v.state)
	v.state = next
	return nil
}

// Ask asks a question again that was answered, such as one that turned out to be worth a look.
func (v *Interview) Ask(id string) error {
	if _, err := v.question(id); err != nil {
		return err
	}
	v.before = append(v.before, v.state)
	v.done = without(v.done, id)
	return nil
}
