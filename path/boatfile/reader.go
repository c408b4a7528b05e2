package boatfile

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"hushwake/path/panel"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// reader collects everything that is said about a file while it is decoded.
type reader struct {
	problems    []Problem
	assumptions []source.Assumption
	warnings    []string
	noted       map[string]bool
	materials   *panel.Materials
	sea         float64 // K
	shared      []*shared
}

// wrong notes a problem at a node.
func (r *reader) wrong(n *node, hint, format string, args ...any) {
	p := Problem{Line: 1, Column: 1, Message: fmt.Sprintf(format, args...), Hint: hint}
	if n != nil {
		p.Line, p.Column = n.line, n.column
	}
	r.problems = append(r.problems, p)
}

// warn notes something implausible but possible, once.
func (r *reader) warn(n *node, format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	if n != nil {
		text = fmt.Sprintf("line %d: %s", n.line, text)
	}
	if !slices.Contains(r.warnings, text) {
		r.warnings = append(r.warnings, text)
	}
}

// assume lists a value that the program filled in, once.
func (r *reader) assume(field, value, src string, plusMinus float64) {
	if r.noted == nil {
		r.noted = map[string]bool{}
	}
	if key := field + "\x00" + value; !r.noted[key] {
		r.noted[key] = true
		r.assumptions = append(r.assumptions, source.Assumption{Field: field, Value: value, Source: src, PlusMinusDB: plusMinus})
	}
}

// object is a mapping whose keys are asked for one by one, so that the rest are known to be wrong.
type object struct {
	r     *reader
	n     *node
	path  string // how the place is spoken of in messages and assumptions
	known []string
}

// object opens a mapping; it is usable (and empty) even when the node is none.
func (r *reader) object(n *node, path string) *object {
	if n != nil && n.kind != mapping {
		if !n.unknown() {
			r.wrong(n, "", "%s must be a mapping (key: value), not %s", path, n.kind)
		}
		return &object{r: r, n: &node{kind: mapping, line: n.line, column: n.column}, path: path}
	}
	if n == nil {
		n = &node{kind: mapping, line: 1, column: 1}
	}
	return &object{r: r, n: n, path: path}
}

// raw gives a key's node as it stands, nil when absent.
func (o *object) raw(key string) *node {
	o.known = append(o.known, key)
	_, v := o.n.find(key)
	return v
}

// get gives a key's node, nil when it is absent or the owner doesn't know.
func (o *object) get(key string) *node {
	v := o.raw(key)
	if v.unknown() {
		return nil
	}
	return v
}

// must is get for the few keys that are required.
func (o *object) must(key, what string) *node {
	v := o.raw(key)
	switch {
	case v == nil && o.misspelt(key): // done reports it
		return nil
	case v == nil:
		o.r.wrong(o.n, fmt.Sprintf("add %s: %s", key, what), "%s lacks %q, which is required", o.path, key)
		return nil
	case v.unknown():
		o.r.wrong(v, fmt.Sprintf("give %s, such as %s", key, what), "%s of %s is required and can't be unknown", key, o.path)
		return nil
	}
	return v
}

// misspelt tells whether a key of the mapping is a slip of the one wanted.
func (o *object) misspelt(key string) bool {
	return len(key) > 3 && slices.ContainsFunc(o.n.keys, func(k *node) bool { return distance(strings.ToLower(k.text), key) <= 2 })
}

// has tells whether a key holds something.
func (o *object) has(key string) bool {
	_, v := o.n.find(key)
	return !v.unknown()
}

// done reports every key that nobody asked for.
func (o *object) done() {
	for _, k := range o.n.keys {
		if slices.Contains(o.known, k.text) {
			continue
		}
		allowed := slices.Compact(slices.Sorted(slices.Values(o.known)))
		o.r.wrong(k, didYouMean(k.text, allowed), "unknown key %q in %s; allowed: %s", clip(k.text), o.path, strings.Join(allowed, ", "))
	}
}

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
func (r *reader) quantity(n *node, what string, lim limits, dims ...Dim) (Quantity, bool) {
	if n == nil {
		return Quantity{}, false
	}
	if n.kind != scalar {
		r.wrong(n, "", "%s must be %s, not %s", what, kindsWanted(dims), n.kind)
		return Quantity{}, false
	}
	q, err := ParseQuantity(n.text, dims...)
	if err != nil {
		r.fail(n, what, err)
		return q, false
	}
	if q.Note != "" {
		r.assume(fmt.Sprintf("%q", q.Text), q.Note, "how the unit is read", 0)
	}
	return q, r.within(n, what, q, lim)
}

// fail reports an error of a text at its node.
func (r *reader) fail(n *node, what string, err error) {
	if qe, ok := err.(*quantityError); ok {
		r.wrong(n, qe.hint, "%s: %s", what, qe.message)
		return
	}
	r.wrong(n, "", "%s: %v", what, err)
}

func (r *reader) within(n *node, what string, q Quantity, lim limits) bool {
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
			least = "; at least " + Format(lim.min, q.Dim, Metric)
		}
		r.wrong(n, "", "%s: %q is %s%s", what, clip(n.text), word, least)
		return false
	case q.Value > lim.max:
		r.wrong(n, "", "%s: %q is too large; %s at most", what, clip(n.text), Format(lim.max, q.Dim, Metric))
		return false
	}
	return true
}

// value reads an optional quantity of a mapping.
func (o *object) value(key string, lim limits, dims ...Dim) (float64, bool) {
	q, ok := o.r.quantity(o.get(key), o.path+" "+key, lim, dims...)
	return q.Value, ok
}

// orAssume reads an optional quantity, or fills in a default and lists it.
func (o *object) orAssume(key string, d Dim, lim limits, def float64, src string, plusMinus float64) float64 {
	if o.has(key) {
		v, ok := o.value(key, lim, d)
		if ok {
			return v
		}
		return def
	}
	o.raw(key)
	o.r.assume(o.path+" "+key, Format(def, d, Metric), src, plusMinus)
	return def
}

// mustValue reads a required quantity.
func (o *object) mustValue(key string, lim limits, d Dim) float64 {
	example, _, _ := strings.Cut(dimensions[d].example, ",")
	if key == "length" {
		example = "1.2 m"
	}
	q, _ := o.r.quantity(o.must(key, example), o.path+" "+key, lim, d)
	return q.Value
}

// pointer reads an optional quantity as a pointer, nil when there is none.
func (o *object) pointer(key string, lim limits, d Dim) *float64 {
	if v, ok := o.value(key, lim, d); ok {
		return &v
	}
	return nil
}

// text reads an optional text.
func (o *object) text(key string) string {
	n := o.get(key)
	if n == nil {
		return ""
	}
	return o.r.textOf(n, o.path+" "+key)
}

func (r *reader) textOf(n *node, what string) string {
	if n.kind != scalar {
		r.wrong(n, "", "%s must be a text, not %s", what, n.kind)
		return ""
	}
	return strings.TrimSpace(n.text)
}

// word reads one of a few words; "" when absent.
func (o *object) word(key string, allowed ...string) string {
	n := o.get(key)
	if n == nil {
		return ""
	}
	return o.r.wordOf(n, o.path+" "+key, allowed)
}

func (r *reader) wordOf(n *node, what string, allowed []string) string {
	if n.kind != scalar {
		r.wrong(n, "", "%s must be one of %s, not %s", what, strings.Join(allowed, ", "), n.kind)
		return ""
	}
	w := strings.TrimSpace(n.text)
	for _, a := range allowed {
		if strings.EqualFold(a, w) {
			return a
		}
	}
	r.wrong(n, didYouMean(w, allowed), "%s: %q is not known; allowed: %s", what, clip(w), strings.Join(allowed, ", "))
	return ""
}

// flag reads true or false.
func (o *object) flag(key string) (value, stated bool) {
	n := o.get(key)
	if n == nil {
		return false, false
	}
	switch o.r.wordOf(n, o.path+" "+key, []string{"true", "false", "yes", "no"}) {
	case "true", "yes":
		return true, true
	case "false", "no":
		return false, true
	}
	return false, false
}

// whole reads a whole number within bounds.
func (r *reader) whole(n *node, what string, lo, hi int) (int, bool) {
	if n == nil {
		return 0, false
	}
	v, err := strconv.Atoi(strings.TrimSpace(n.text))
	if n.kind != scalar || err != nil {
		r.wrong(n, "", "%s must be a whole number from %d to %d", what, lo, hi)
		return 0, false
	}
	if v < lo || v > hi {
		r.wrong(n, "", "%s: %d is impossible; %d to %d fit", what, v, lo, hi)
		return 0, false
	}
	return v, true
}

// number reads a plain number without a unit.
func (r *reader) number(n *node, what string, lim limits) (float64, bool) {
	if n == nil {
		return 0, false
	}
	if n.kind != scalar {
		r.wrong(n, "", "%s must be a plain number, not %s", what, n.kind)
		return 0, false
	}
	q, err := ParseQuantity(n.text, Number)
	if err != nil {
		r.fail(n, what, err)
		return 0, false
	}
	return q.Value, r.within(n, what, q, lim)
}

// list opens a sequence with between lo and hi entries.
func (r *reader) list(n *node, what string, lo, hi int) []*node {
	if n == nil {
		return nil
	}
	if n.kind != sequence {
		r.wrong(n, "a list is written [one, two]", "%s must be a list, not %s", what, n.kind)
		return nil
	}
	if len(n.items) < lo || len(n.items) > hi {
		count := strconv.Itoa(lo)
		if hi != lo {
			count = fmt.Sprintf("%d to %d", lo, hi)
		}
		r.wrong(n, "", "%s has %d entries; %s fit", what, len(n.items), count)
		return nil
	}
	return n.items
}

// many is the most entries that a list of a boat file may have.
const many = 500

// lengths reads a list of lengths.
func (r *reader) lengths(n *node, what string, lo, hi int, lim limits) []float64 {
	var out []float64
	for _, item := range r.list(n, what, lo, hi) {
		q, ok := r.quantity(item, what, lim, Length)
		if !ok {
			return nil
		}
		out = append(out, q.Value)
	}
	return out
}

// vector reads three lengths.
func (r *reader) vector(n *node, what string, lim limits) ([3]float64, bool) {
	var v [3]float64
	got := r.lengths(n, what, 3, 3, lim)
	copy(v[:], got)
	return v, len(got) == 3
}

// texts reads a list of texts; a single text stands for a list of one.
func (o *object) texts(key string) []string {
	n := o.get(key)
	if n == nil {
		return nil
	}
	if n.kind == scalar {
		return []string{strings.TrimSpace(n.text)}
	}
	var out []string
	for _, item := range o.r.list(n, o.path+" "+key, 0, many) {
		out = append(out, o.r.textOf(item, o.path+" "+key))
	}
	return out
}

// bands reads {bands: [nine numbers in dB]}; the numbers may carry the unit dB.
func (r *reader) bands(n *node, what string) *spectrum.Bands {
	if n == nil {
		return nil
	}
	if n.kind == mapping {
		o := r.object(n, what)
		inner := o.get("bands")
		o.done()
		return r.bands(inner, what)
	}
	var b spectrum.Bands
	items := r.list(n, what+" bands (31.5 Hz to 8 kHz)", spectrum.N, spectrum.N)
	for i, item := range items {
		if item.kind != scalar {
			r.wrong(item, "", "%s: a band must be a number in dB, not %s", what, item.kind)
			return nil
		}
		q, err := ParseQuantity(item.text, Number, Level)
		if err != nil {
			r.fail(item, what, err)
			return nil
		}
		b[i] = q.Value
	}
	if len(items) != spectrum.N {
		return nil
	}
	return &b
}

// price reads an amount of money: a plain number, or one with the currency beside it.
func (o *object) price(key string) *float64 {
	n := o.get(key)
	if n == nil {
		return nil
	}
	what := o.path + " " + key
	if n.kind != scalar {
		o.r.wrong(n, "", "%s must be an amount, such as 900, not %s", what, n.kind)
		return nil
	}
	text := strings.TrimFunc(n.text, func(c rune) bool {
		return c == '€' || c == '£' || c == '$' || c == ' ' || c >= 'A' && c <= 'Z'
	})
	q, err := ParseQuantity(text, Number)
	if err != nil {
		o.r.fail(n, what, err)
		return nil
	}
	if !o.r.within(n, what, q, notNegative) {
		return nil
	}
	return &q.Value
}
