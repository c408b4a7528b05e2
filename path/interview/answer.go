package interview

import (
	"errors"

	"hushwake/path/boatfile/edit"
)

// Answer takes an answer as people write it, one line for each control; the text stays as it is when it won't do.
func (v *Interview) Answer(id, value string) error {
	err := v.answer(id, value)
	if v.tried = [2]string{}; err != nil {
		v.tried = [2]string{id, value}
	}
	return err
}

func (v *Interview) answer(id, value string) error {
	q, err := v.question(id)
	if err != nil {
		return err
	}
	all := lines(value)
	if q.Kind == OfText {
		all = []string{value}
	}
	if len(all) == 0 {
		return errors.New("nothing is answered\nhint: write something, or say that you don't know")
	}
	if q.Kind == OfIdeas && all[0] != finished {
		return v.Take(all[0])
	}
	next := v.state
	d := &draft{text: v.text}
	if stay := v.write(d, q, all); !stay {
		next.done, next.known = v.marked(id), with(v.known, id)
		v.weigh(d, q)
	}
	return q.withExample(v.keep(next, d))
}

// write makes the edits of an answer; stay tells that the question is not done with it.
func (v *Interview) write(d *draft, q *Question, all []string) (stay bool) {
	switch {
	case q.Kind == OfParts:
		return v.writeParts(d, q, all)
	case q.Kind == OfIdeas:
	case len(q.Choices) > 0:
		c, ok := find(q.Choices, all[0])
		if !ok {
			d.err = unlisted(all[0], q.Choices)
			return false
		}
		all[0] = c.yaml()
		if q.put == nil {
			d.set(q.Place, all[0])
			return false
		}
		q.put(d, v, all)
	case q.put != nil:
		q.put(d, v, all)
	case q.Kind == OfPlace:
		d.set(q.Place, triple(d, all))
	default:
		d.set(q.Place, filled(q.write, all[0]))
	}
	return false
}

// DontKnow takes what is usual: `unknown` where the file may say so, else what the file states, with its price among what is guessed.
func (v *Interview) DontKnow(id string) error {
	q, err := v.question(id)
	if err != nil {
		return err
	}
	p, err := Price{}, error(nil)
	if q.Required() {
		if p, err = v.Price(id); err != nil {
			return err
		}
	}
	return v.guess(q, p.DB)
}

// guess takes what is usual for an answer; by that much the level may then be off, dB, where the file has to state it.
func (v *Interview) guess(q *Question, dB float64) error {
	next := v.state
	d := &draft{text: v.text}
	next.done, next.known = v.marked(q.ID), without(v.known, q.ID)
	if q.Required() {
		d.guess(q.called, dB)
	} else if _, ok := edit.Get(v.text, q.Place); ok && q.skip == nil {
		d.unknown(q.Place)
	}
	if q.skip != nil {
		q.skip(d, v)
	}
	return v.keep(next, d)
}
