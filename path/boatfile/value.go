package boatfile

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
)

// limits says which values of a quantity are possible.
type limits struct {
	min, max float64
	openMin  bool // min itself is not possible
}

var (
	positive    = limits{min: 0, max: math.Inf(1), openMin: true}
	notNegative = limits{min: 0, max: math.Inf(1)}
	anyValue    = limits{min: math.Inf(-1), max: math.Inf(1)}
)

func upTo(v float64) limits { return limits{min: 0, max: v, openMin: true} }

// quantity reads a value with its unit. ok is false when there is none or it is wrong (then reported).
func (r *reader) quantity(n *node, what string, lim limits, dims ...quantity.Dim) (quantity.Quantity, bool) {
	return r.parsed(n, what, lim, quantity.Parse, dims...)
}

func (r *reader) parsed(n *node, what string, lim limits, parse func(string, ...quantity.Dim) (quantity.Quantity, error), dims ...quantity.Dim) (quantity.Quantity, bool) {
	if n == nil {
		return quantity.Quantity{}, false
	}
	if n.kind != scalar {
		hint := ""
		if n.kind == sequence && strings.Contains(what, ".line[") {
			hint = "state one of them; sizes to choose from go into an option of a slot"
		}
		r.wrong(n, hint, "%s must be %s, not %s", what, quantity.KindsWanted(dims), n.kind)
		return quantity.Quantity{}, false
	}
	q, err := parse(n.text, dims...)
	if err != nil {
		r.fail(n, what, withUsualUnit(err, n.text, what, dims), dims...)
		return q, false
	}
	if q.Note != "" {
		r.assume(fmt.Sprintf("%q", q.Text), q.Note, "how the unit is read", 0)
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

// fail reports an error of a text at its node.
func (r *reader) fail(n *node, what string, err error, dims ...quantity.Dim) {
	if qe, ok := err.(*quantity.Error); ok {
		hint := qe.Hint
		if hint == "" && len(dims) > 0 && dims[0].Example() != "" && strings.HasSuffix(qe.Message, "begin with a number") {
			example, _, _ := strings.Cut(dims[0].Example(), ",")
			if hint = "give a figure, such as " + example; dims[0] == quantity.Area {
				hint = "give a figure, such as 20 cm2, or unknown if nobody knows it"
			}
		}
		r.wrong(n, hint, "%s: %s", what, qe.Message)
		return
	}
	r.wrong(n, "", "%s: %v", what, err)
}

func (r *reader) within(n *node, what string, q quantity.Quantity, lim limits) bool {
	switch {
	case q.Value < lim.min, lim.openMin && q.Value <= lim.min:
		word := "negative"
		if q.Value == 0 || lim.min != 0 {
			word = "too small"
		}
		least := ""
		if lim.min == 0 {
			least = "; it must be more than zero"
			if !lim.openMin {
				least = "; it must not be less than zero"
			}
		} else {
			least = "; at least " + quantity.Format(lim.min, q.Dim, quantity.Metric)
		}
		r.wrong(n, fits(q.Dim), "%s: %q is %s%s", what, spelling.Clip(n.text), word, least)
		return false
	case q.Value > lim.max+1e-9*math.Abs(lim.max): // 95 % in binary is a little over 0.95
		r.wrong(n, fits(q.Dim), "%s: %q is too large; %s at most", what, spelling.Clip(n.text), quantity.Format(lim.max, q.Dim, quantity.Metric))
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

// value reads an optional quantity of a mapping.
func (o *object) value(key string, lim limits, dims ...quantity.Dim) (float64, bool) {
	q, ok := o.r.quantity(o.get(key), o.path+" "+key, lim, dims...)
	return q.Value, ok
}

// orAssume reads an optional quantity, or fills in a default and lists it.
func (o *object) orAssume(key string, d quantity.Dim, lim limits, def float64, src string, plusMinus float64) float64 {
	if o.has(key) {
		v, ok := o.value(key, lim, d)
		if ok {
			return v
		}
		return def
	}
	o.raw(key)
	o.r.assume(o.path+" "+key, quantity.Format(def, d, quantity.Metric), src, plusMinus)
	return def
}

// mustValue reads a required quantity.
func (o *object) mustValue(key string, lim limits, d quantity.Dim) float64 {
	example, _, _ := strings.Cut(d.Example(), ",")
	if key == "length" {
		example = "1.2 m"
	}
	q, _ := o.r.quantity(o.must(key, example), o.path+" "+key, lim, d)
	return q.Value
}

// pointer reads an optional quantity as a pointer, nil when there is none.
func (o *object) pointer(key string, lim limits, d quantity.Dim) *float64 {
	if v, ok := o.value(key, lim, d); ok {
		return &v
	}
	return nil
}
