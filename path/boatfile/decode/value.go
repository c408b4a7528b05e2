package decode

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
)

// Limits says which values of a quantity are possible.
type Limits struct {
	Min, Max float64
	OpenMin  bool // min itself is not possible
}

// Limits that most quantities have.
var (
	Positive    = Limits{Min: 0, Max: math.Inf(1), OpenMin: true}
	NotNegative = Limits{Min: 0, Max: math.Inf(1)}
	AnyValue    = Limits{Min: math.Inf(-1), Max: math.Inf(1)}
)

// UpTo are values over zero and no more than v.
func UpTo(v float64) Limits { return Limits{Min: 0, Max: v, OpenMin: true} }

// Quantity reads a value with its unit. ok is false when there is none or it is wrong (then reported).
func (r *Reader) Quantity(n *Node, what string, lim Limits, dims ...quantity.Dim) (quantity.Quantity, bool) {
	return r.parsed(n, what, lim, quantity.Parse, dims...)
}

func (r *Reader) parsed(n *Node, what string, lim Limits, parse func(string, ...quantity.Dim) (quantity.Quantity, error), dims ...quantity.Dim) (quantity.Quantity, bool) {
	if n == nil {
		return quantity.Quantity{}, false
	}
	if n.Kind != Scalar {
		hint := ""
		if n.Kind == Sequence && strings.Contains(what, ".line[") {
			hint = "state one of them; sizes to choose from go into an option of a slot"
		}
		r.Wrong(n, hint, "%s must be %s, not %s", what, quantity.KindsWanted(dims), n.Kind)
		return quantity.Quantity{}, false
	}
	q, err := parse(n.Text, dims...)
	if err != nil {
		r.Fail(n, what, withUsualUnit(err, n.Text, what, dims), dims...)
		return q, false
	}
	if q.Note != "" {
		r.Assume(fmt.Sprintf("%q", q.Text), q.Note, "how the unit is read", 0)
	}
	return q, r.within(n, what, q, lim)
}

// withUsualUnit suggests the unit that is usual at this place where a length has none.
func withUsualUnit(err error, text, what string, dims []quantity.Dim) error {
	v, rest, bad := quantity.LeadingNumber(strings.TrimSpace(text))
	qe, ok := err.(*quantity.Error)
	if !ok || bad != nil || strings.TrimSpace(rest) != "" || len(dims) == 0 || dims[0] != quantity.Length {
		return err
	}
	unit := usualUnit(what, v)
	return quantity.Bad(fmt.Sprintf("write %s %s if that is what was meant; units: %s", strings.TrimSpace(text), unit, strings.Join(quantity.UnitNames(quantity.Length), ", ")), "%s", qe.Message)
}

// Fail reports an error of a text at its node.
func (r *Reader) Fail(n *Node, what string, err error, dims ...quantity.Dim) {
	if qe, ok := err.(*quantity.Error); ok {
		hint := qe.Hint
		if hint == "" && len(dims) > 0 && dims[0].Example() != "" && strings.HasSuffix(qe.Message, "begin with a number") {
			example, _, _ := strings.Cut(dims[0].Example(), ",")
			if hint = "give a figure, such as " + example; dims[0] == quantity.Area {
				hint = "give a figure, such as 20 cm2, or unknown if nobody knows it"
			}
		}
		r.Wrong(n, hint, "%s: %s", what, qe.Message)
		return
	}
	r.Wrong(n, "", "%s: %v", what, err)
}

func (r *Reader) within(n *Node, what string, q quantity.Quantity, lim Limits) bool {
	switch {
	case q.Value < lim.Min, lim.OpenMin && q.Value <= lim.Min:
		word := "negative"
		if q.Value == 0 || lim.Min != 0 {
			word = "too small"
		}
		least := ""
		if lim.Min == 0 {
			least = "; it must be more than zero"
			if !lim.OpenMin {
				least = "; it must not be less than zero"
			}
		} else {
			least = "; at least " + quantity.Format(lim.Min, q.Dim, quantity.Metric)
		}
		r.Wrong(n, fits(q.Dim), "%s: %q is %s%s", what, spelling.Clip(n.Text), word, least)
		return false
	case q.Value > lim.Max+1e-9*math.Abs(lim.Max): // 95 % in binary is a little over 0.95
		r.Wrong(n, fits(q.Dim), "%s: %q is too large; %s at most", what, spelling.Clip(n.Text), quantity.Format(lim.Max, q.Dim, quantity.Metric))
		return false
	}
	return true
}

// fits shows what a value of this kind looks like.
func fits(d quantity.Dim) string {
	if d.Example() == "" {
		return ""
	}
	return "check the sign, the digits and the unit; " + d.Phrase() + " such as " + d.Example() + " fits"
}

// Value reads an optional quantity of a mapping.
func (o *Object) Value(key string, lim Limits, dims ...quantity.Dim) (float64, bool) {
	q, ok := o.r.Quantity(o.Get(key), o.Path+" "+key, lim, dims...)
	return q.Value, ok
}

// OrAssume reads an optional quantity, or fills in a default and lists it. def and plusMinus are in the SI unit of the
// quantity.
func (o *Object) OrAssume(key string, d quantity.Dim, lim Limits, def float64, src string, plusMinus float64) float64 {
	if o.Has(key) {
		v, ok := o.Value(key, lim, d)
		if ok {
			return v
		}
		return def
	}
	o.Raw(key)
	o.r.Assume(o.Path+" "+key, quantity.Said(def, d), src, plusMinus)
	return def
}

// MustValue reads a required quantity.
func (o *Object) MustValue(key string, lim Limits, d quantity.Dim) float64 {
	example, _, _ := strings.Cut(d.Example(), ",")
	if key == "length" {
		example = "1.2 m"
	}
	q, _ := o.r.Quantity(o.Must(key, example), o.Path+" "+key, lim, d)
	return q.Value
}

// Pointer reads an optional quantity as a pointer, nil when there is none.
func (o *Object) Pointer(key string, lim Limits, d quantity.Dim) *float64 {
	if v, ok := o.Value(key, lim, d); ok {
		return &v
	}
	return nil
}

// Practice is the source of what is only common practice.
const Practice = "common practice, no source"
