package interview

import (
	"bytes"
	"cmp"
	_ "embed"
	"errors"
	"fmt"
	"slices"
	"strings"

	"hushwake/path/boatfile"
	"hushwake/path/boatfile/edit"
	"hushwake/path/boatfile/spelling"
)

// Goals are what somebody may want to know, with the words of the start screen.
var Goals = []Choice{
	{Value: "too-loud", Words: "My exhaust is too loud", Picture: "loud"},
	{Value: "quotes", Words: "Someone quoted me silencers", Picture: "quotes"},
	{Value: "box", Words: "My generator box", Picture: "box"},
	{Value: "file", Words: "I have a boat file", Picture: "file"},
}

//go:embed main.yaml
var mainFile []byte

//go:embed set.yaml
var setFile []byte

// Begin starts an interview for one of the Goals.
func Begin(goal string) (*Interview, error) {
	if _, ok := find(Goals, goal); !ok {
		var all []string
		for _, g := range Goals {
			all = append(all, g.Value)
		}
		return nil, fmt.Errorf("no goal %q to begin with\nhint: one of %s", spelling.Clip(goal), strings.Join(all, ", "))
	}
	v := &Interview{state: state{goal: goal, text: mainFile}}
	if goal == "box" {
		v.text = setFile
	}
	return v, nil
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

// keep makes a state the present one if its file loads.
func (v *Interview) keep(next state, d *draft) error {
	next.goal, next.boat, next.lists = cmp.Or(d.goal, next.goal), cmp.Or(d.boat, next.boat), merged(v.lists, d.lists)
	if next.goal != "file" {
		d.set("/boat", described(next.boat))
	}
	if d.err != nil {
		return d.err
	}
	if _, err := boatfile.Load("boat.yaml", d.text); err != nil {
		return plainly(err)
	}
	v.before = append(v.before, v.state)
	next.text = d.text
	v.state = next
	return nil
}

// described is what the file says the boat is.
func described(boat string) string {
	if boat == "" {
		return "unknown"
	}
	return edit.Quote(boat)
}

// Back takes the last answer back, text and all; false at the beginning.
func (v *Interview) Back() bool {
	n := len(v.before)
	if n == 0 {
		return false
	}
	v.state, v.before = v.before[n-1], v.before[:n-1]
	return true
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

// Adopt takes over a text that was changed elsewhere.
func (v *Interview) Adopt(text []byte) {
	if bytes.Equal(text, v.text) {
		return
	}
	v.before = append(v.before, v.state)
	v.text = slices.Clone(text)
}
