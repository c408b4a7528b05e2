package interview

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path/boatfile/edit"
	"hushwake/path/boatfile/quantity"
)

// guesses is the place in the file of what it has to state and nobody knew: by the words for it, what each may add to a level.
const guesses = "/guessed"

// guess writes what a guess may add to a level, dB.
func (d *draft) guess(called string, dB float64) {
	d.set(guesses+"/"+pointed(called), fmt.Sprintf("%.1f dB", dB))
}

// sure takes a guess out.
func (d *draft) sure(called string) {
	d.drop(guesses + "/" + pointed(called))
	if value, ok := edit.Get(d.text, guesses); ok && (value == "" || value == "{}") {
		d.drop(guesses)
	}
}

// guessed is what the file says that a guess may add to a level, dB.
func (v *Interview) guessed(q *Question) (sd float64, ok bool) {
	value, ok := getPlain(v.text, guesses+"/"+pointed(q.called))
	if !ok || !q.Required() {
		return 0, false
	}
	p, err := quantity.Parse(value, quantity.Level)
	return p.Value, err == nil
}

// Stated is a text without the guess of what has just been set at a place by hand: it is known now.
func Stated(text []byte, at string) []byte {
	d := &draft{text: text}
	for _, goal := range []string{"too-loud", "box"} {
		v := &Interview{state: state{goal: goal}}
		for i := range table {
			if q := &table[i]; q.Required() && q.ID != "line" && q.ID != "exhaust" && v.asks(q) && v.at(q.Place) == at {
				d.sure(q.called)
			}
		}
	}
	if d.err != nil {
		return text
	}
	return d.text
}

// pointed is a word as part of a place (RFC 6901).
func pointed(s string) string { return strings.NewReplacer("~", "~0", "/", "~1").Replace(s) }

// weigh takes the guess of a question out, which has its answer; an exhaust of which figures were left empty stays a guess.
func (v *Interview) weigh(d *draft, q *Question) {
	if q.called == "" || d.err != nil {
		return
	}
	d.sure(q.called)
	rows := d.lists[q.ID]
	if q.ID != "line" || slices.EqualFunc(rows, filledIn(rows, 1), slices.Equal) {
		return
	}
	low, high, err := v.ends(rows)
	if d.err = err; err == nil {
		d.guess(q.called, (high-low)/2)
	}
}

// ends are the levels at the seat with half and with twice what is usual in the place of what was left empty in an exhaust.
func (v *Interview) ends(rows [][]string) (low, high float64, err error) {
	var at []float64
	for _, by := range []float64{0.5, 2} {
		t, d := v.trial(), &draft{text: v.text}
		t.putLine(d, filledIn(rows, by))
		if d.err != nil {
			return 0, 0, plainly(d.err)
		}
		l, err := v.level(d.text)
		if err != nil {
			return 0, 0, plainly(err)
		}
		at = append(at, l)
	}
	return min(at[0], at[1]), max(at[0], at[1]), nil
}

// filledIn are rows with what is usual times a factor in the place of what was left empty and has to be stated.
func filledIn(rows [][]string, by float64) [][]string {
	out := clone(rows)
	for i, row := range out {
		p := partOf(lineParts, row[0])
		for f := range p.needs {
			if usual, err := lengthOf(p.usual[f]); row[f+1] == "" && err == nil {
				out[i][f+1] = fmt.Sprintf("%g mm", 1000*by*usual)
			}
		}
	}
	return out
}
