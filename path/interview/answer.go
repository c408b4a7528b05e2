package interview

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/edit"
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

// Answer takes an answer as people write it, one line for each control; the text stays as it is when it won't do.
func (v *Interview) Answer(id, value string) error {
	err := v.answer(id, value)
	if v.tried = [2]string{}; err != nil {
		v.tried = [2]string{id, value}
	}
	return err
}

// Tried is the last answer to a question line by line, where it wouldn't do: somebody wants to mend it, not to write it again.
func (v *Interview) Tried(id string) []string {
	if v.tried[0] != id {
		return nil
	}
	return strings.Split(v.tried[1], "\n")
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

// finished is the answer that ends a list.
const finished = "done"

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

// withExample is an error with an example of what is wanted where it has no hint of its own.
func (q *Question) withExample(err error) error {
	if err == nil || strings.Contains(err.Error(), "\nhint: ") {
		return err
	}
	example := "1.2 m"
	if len(q.Fields) > 0 {
		example = q.Fields[0].Example
	}
	return fmt.Errorf("%w\nhint: such as %s", err, example)
}

// inFile is where in the file something stands, at the front of what is said about it.
var inFile = regexp.MustCompile(`^(boat|hull|engines|spaces|partitions|enclosures|listeners|layouts|readings|quotes)[^:"]*: `)

// plainly is the first thing that is wrong, without its place: the reader sees a question, not the file.
func plainly(err error) error {
	var all *decode.Errors
	if !errors.As(err, &all) || len(all.Problems) == 0 {
		return err
	}
	p := all.Problems[0]
	p.Message = inFile.ReplaceAllString(p.Message, "")
	if p.Hint == "" {
		return errors.New(p.Message)
	}
	return fmt.Errorf("%s\nhint: %s", p.Message, p.Hint)
}
