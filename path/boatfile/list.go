package boatfile

import (
	"fmt"
	"strconv"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/source/spectrum"
)

// whole reads a whole number within bounds.
func (r *reader) whole(n *node, what string, lo, hi int) (int, bool) {
	if n == nil {
		return 0, false
	}
	v, err := strconv.Atoi(strings.TrimSpace(n.text))
	if n.kind != scalar || err != nil {
		r.wrong(n, numberHint(n.text), "%s must be a whole number from %d to %d", what, lo, hi)
		return 0, false
	}
	if v < lo || v > hi {
		r.wrong(n, fmt.Sprintf("give a whole number from %d to %d", lo, hi), "%s: %d is impossible; %d to %d fit", what, v, lo, hi)
		return 0, false
	}
	return v, true
}

// numberWords are small numbers in words.
var numberWords = []string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

func numberHint(text string) string {
	low := strings.ToLower(strings.TrimSpace(text))
	for i, w := range numberWords {
		if i > 0 && (low == w || strings.HasPrefix(low, w+" ")) {
			return fmt.Sprintf("write %d", i)
		}
	}
	if v, rest, err := quantity.LeadingNumber(low); err == nil && rest != "" {
		return fmt.Sprintf("write %.0f", v)
	}
	return ""
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
	q, err := quantity.Parse(n.text, quantity.Number)
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
		hint := ""
		if lo == 3 && strings.HasSuffix(what, " at") {
			hint = "forward from the transom, to starboard, up from the waterline: such as [5.0 m, 0 m, 1.2 m]"
		}
		r.wrong(n, hint, "%s has %d entries; %s fit", what, len(n.items), count)
		return nil
	}
	return n.items
}

// many is the most entries that a list of a boat file may have.
const many = 200

// lengths reads a list of lengths.
func (r *reader) lengths(n *node, what string, lo, hi int, lim limits) []float64 {
	var out []float64
	for _, item := range r.list(n, what, lo, hi) {
		q, ok := r.quantity(item, what, lim, quantity.Length)
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
	if n != nil && n.kind == sequence && len(n.items) != 3 && r.glued(n.items, what) {
		return v, false
	}
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
		q, err := quantity.Parse(item.text, quantity.Number, quantity.Level)
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
	q, err := quantity.Parse(text, quantity.Number)
	if err != nil {
		o.r.fail(n, what, err)
		return nil
	}
	if !o.r.within(n, what, q, notNegative) {
		return nil
	}
	return &q.Value
}
