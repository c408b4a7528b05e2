package boatfile

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
)

// Assumed is one input of a case that its source doesn't state: a span or a choice of texts, and the
// values of the file that it stands for.
type Assumed struct {
	Fields   []string
	From, To string   // a number with its unit
	OneOf    []string // in place of a span
	Why      string

	places   []*decode.Node
	low, top float64
	unit     string
	at       *decode.Node
}

// Text is the input at the share u of its span, 0 to 1, or the choice there.
func (a Assumed) Text(u float64) string {
	if n := len(a.OneOf); n > 0 {
		return a.OneOf[min(int(u*float64(n)), n-1)]
	}
	return strings.TrimSpace(strconv.FormatFloat(a.low+u*(a.top-a.low), 'g', 6, 64) + " " + a.unit)
}

// Draw is the case with its assumed inputs at the shares u of their spans, one for each, 0 to 1; a
// missing share leaves the input as the file states it.
func (c *Case) Draw(u []float64) (*Case, error) {
	put := map[*decode.Node]string{}
	for i, a := range c.Assumed {
		if i >= len(u) {
			break
		}
		for _, p := range a.places {
			put[p] = a.Text(u[i])
		}
	}
	return decodeCase(c.File, c.data, c.root.With(put), nil)
}

// tryEnds decodes the case with each assumed input at its ends and choices, so that a span that can't
// be is found when the file is read.
func (c *Case) tryEnds() error {
	r := newReader(nil)
	for _, a := range c.Assumed {
		for _, u := range a.ends() {
			put := map[*decode.Node]string{}
			for _, p := range a.places {
				put[p] = a.Text(u)
			}
			_, err := decodeCase(c.File, c.data, c.root.With(put), nil)
			var wrong *decode.Errors
			if errors.As(err, &wrong) {
				r.Wrong(a.at, wrong.Problems[0].Hint, "assumed %s: %q can't be: %s", a.Fields[0], a.Text(u), wrong.Problems[0].Message)
			}
		}
	}
	if len(r.Problems) > 0 {
		return decode.Placed(c.File, c.data, r.Problems)
	}
	return nil
}

// ends are the shares at which a span begins and ends, or the middle of each choice.
func (a Assumed) ends() []float64 {
	if len(a.OneOf) == 0 {
		return []float64{0, 1}
	}
	var out []float64
	for i := range a.OneOf {
		out = append(out, (float64(i)+0.5)/float64(len(a.OneOf)))
	}
	return out
}

func (r *reader) assumedInput(i int, n, root *decode.Node) Assumed {
	o := r.Object(n, fmt.Sprintf("assumed[%d]", i+1))
	a := Assumed{Fields: o.Texts("field"), From: o.Text("from"), To: o.Text("to"), OneOf: o.Texts("one_of"), Why: o.Text("why"), at: n}
	o.Done()
	if len(a.Fields) == 0 {
		r.Wrong(n, "field: boat.engines.main.rated.power", "%s names no field", o.Path)
	}
	for _, f := range a.Fields {
		at, err := root.Place(f)
		if err != nil {
			text, hint, _ := strings.Cut(err.Error(), "\nhint: ")
			r.Wrong(n, hint, "%s: %s", o.Path, text)
			continue
		}
		a.places = append(a.places, at)
	}
	span := a.From != "" && a.To != ""
	if span == (len(a.OneOf) > 0) || (a.From == "") != (a.To == "") {
		r.Wrong(n, "from: 80 kW, to: 120 kW; or one_of: [25 mm foam, bare grp]", "%s needs from and to, or one_of", o.Path)
	}
	if span {
		r.span(n, o.Path, &a)
	}
	return a
}

// span takes number and unit of both ends apart.
func (r *reader) span(n *decode.Node, what string, a *Assumed) {
	low, unit, err := quantity.LeadingNumber(a.From)
	top, other, err2 := quantity.LeadingNumber(a.To)
	if err = errors.Join(err, err2); err != nil {
		r.Fail(n, what, err)
		return
	}
	a.low, a.top, a.unit = low, top, strings.TrimSpace(unit)
	if a.unit != strings.TrimSpace(other) {
		r.Wrong(n, "write both with the same unit", "%s: from is in %q, to in %q", what, spelling.Clip(a.unit), spelling.Clip(strings.TrimSpace(other)))
	}
	if low >= top {
		r.Wrong(n, "write the lower end first", "%s: the span from %q to %q is empty", what, spelling.Clip(a.From), spelling.Clip(a.To))
	}
}
