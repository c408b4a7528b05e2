package decode

import (
	"fmt"
	"strconv"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/source/spectrum"
)

// Whole reads a whole number within bounds.
func (r *Reader) Whole(n *Node, what string, lo, hi int) (int, bool) {
	if n == nil {
		return 0, false
	}
	v, err := strconv.Atoi(strings.TrimSpace(n.Text))
	if n.Kind != Scalar || err != nil {
		r.Wrong(n, numberHint(n.Text), "%s must be a whole number from %d to %d", what, lo, hi)
		return 0, false
	}
	if v < lo || v > hi {
		r.Wrong(n, fmt.Sprintf("give a whole number from %d to %d", lo, hi), "%s: %d is impossible; %d to %d fit", what, v, lo, hi)
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

// Number reads a plain number without a unit.
func (r *Reader) Number(n *Node, what string, lim Limits) (float64, bool) {
	if n == nil {
		return 0, false
	}
	if n.Kind != Scalar {
		r.Wrong(n, "", "%s must be a plain number, not %s", what, n.Kind)
		return 0, false
	}
	q, err := quantity.Parse(n.Text, quantity.Number)
	if err != nil {
		r.Fail(n, what, err)
		return 0, false
	}
	return q.Value, r.within(n, what, q, lim)
}

// placeHint is how a place is written.
const placeHint = "forward from the transom, to starboard, up from the waterline: such as [5.0 m, 0 m, 1.2 m]"

func isPlace(what string, entries int) bool { return entries == 3 && strings.HasSuffix(what, " at") }

// List opens a sequence with between lo and hi entries.
func (r *Reader) List(n *Node, what string, lo, hi int) []*Node {
	if n == nil {
		return nil
	}
	if n.Kind != Sequence {
		hint := "a list is written [one, two]"
		if isPlace(what, lo) {
			hint = "a place stands in brackets, " + placeHint
		} else if n.Kind == Scalar && lo <= 1 && !wholeText.MatchString(n.Text) {
			hint = "write [" + strings.TrimSpace(n.Text) + "]"
		}
		r.Wrong(n, hint, "%s must be a list, not %s", what, n.Kind)
		return nil
	}
	if len(n.Items) < lo || len(n.Items) > hi {
		count := strconv.Itoa(lo)
		if hi != lo {
			count = fmt.Sprintf("%d to %d", lo, hi)
		}
		hint := ""
		if isPlace(what, lo) {
			hint = placeHint
		}
		r.Wrong(n, hint, "%s has %d entries; %s fit", what, len(n.Items), count)
		return nil
	}
	return n.Items
}

// Most is the most entries that a list of a boat file may have.
const Most = 200

// Lengths reads a list of lengths.
func (r *Reader) Lengths(n *Node, what string, lo, hi int, lim Limits) []float64 {
	var out []float64
	if n != nil && n.Kind == Scalar && wholeText.MatchString(n.Text) {
		if k, err := strconv.Atoi(n.Text); err == nil && k >= max(lo, 1) && k <= hi {
			r.Wrong(n, "such as ["+strings.Repeat("300 mm, ", k-1)+"300 mm]; each with its own length", "%s: %d is how many; their lengths belong here", what, k)
			return nil
		}
	}
	for _, item := range r.List(n, what, lo, hi) {
		q, ok := r.Quantity(item, what, lim, quantity.Length)
		if !ok {
			return nil
		}
		out = append(out, q.Value)
	}
	return out
}

// Vector reads three lengths.
func (r *Reader) Vector(n *Node, what string, lim Limits) ([3]float64, bool) {
	var v [3]float64
	if n != nil && n.Kind == Sequence && len(n.Items) != 3 && r.glued(n.Items, what) {
		return v, false
	}
	got := r.Lengths(n, what, 3, 3, lim)
	copy(v[:], got)
	return v, len(got) == 3
}

// Texts reads a list of texts; a single text stands for a list of one.
func (o *Object) Texts(key string) []string {
	n := o.Get(key)
	if n == nil {
		return nil
	}
	if n.Kind == Scalar {
		return []string{strings.TrimSpace(n.Text)}
	}
	var out []string
	for _, item := range o.r.List(n, o.Path+" "+key, 0, Most) {
		out = append(out, o.r.TextOf(item, o.Path+" "+key))
	}
	return out
}

// Bands reads {bands: [nine numbers in dB]}; the numbers may carry the unit dB.
func (r *Reader) Bands(n *Node, what string) *spectrum.Bands {
	if n == nil {
		return nil
	}
	if n.Kind == Mapping {
		o := r.Object(n, what)
		inner := o.Get("bands")
		o.Done()
		return r.Bands(inner, what)
	}
	var b spectrum.Bands
	items := r.List(n, what+" bands (31.5 Hz to 8 kHz)", spectrum.N, spectrum.N)
	for i, item := range items {
		if item.Kind != Scalar {
			r.Wrong(item, "", "%s: a band must be a number in dB, not %s", what, item.Kind)
			return nil
		}
		q, err := quantity.Parse(item.Text, quantity.Number, quantity.Level)
		if err != nil {
			r.Fail(item, what, err)
			return nil
		}
		b[i] = q.Value
	}
	if len(items) != spectrum.N {
		return nil
	}
	return &b
}

// Price reads an amount of money: a plain number, or one with the currency beside it.
func (o *Object) Price(key string) *float64 {
	n := o.Get(key)
	if n == nil {
		return nil
	}
	what := o.Path + " " + key
	if n.Kind != Scalar {
		o.r.Wrong(n, "", "%s must be an amount, such as 900, not %s", what, n.Kind)
		return nil
	}
	text := strings.TrimFunc(n.Text, func(c rune) bool {
		return c == '€' || c == '£' || c == '$' || c == ' ' || c >= 'A' && c <= 'Z'
	})
	q, err := quantity.Parse(text, quantity.Number)
	if err != nil {
		o.r.Fail(n, what, err)
		return nil
	}
	if !o.r.within(n, what, q, NotNegative) {
		return nil
	}
	return &q.Value
}

// Section opens a mapping of names; it is never nil.
func (r *Reader) Section(n *Node, what string) *Node {
	if n == nil {
		return &Node{Kind: Mapping}
	}
	if n.Kind != Mapping {
		if n.Kind != Null {
			r.Wrong(n, "no dash: each stands under its own name, \"NAME: {...}\", not \"- {name: NAME, ...}\"", "%s must be a mapping of names, not %s", what, n.Kind)
		}
		return &Node{Kind: Mapping}
	}
	if len(n.Keys) > Most {
		r.Wrong(n, "", "%s has %d entries; %d at most", what, len(n.Keys), Most)
		return &Node{Kind: Mapping}
	}
	for _, k := range n.Keys {
		if strings.TrimSpace(k.Text) == "" {
			r.Wrong(k, "", "a name in %s is empty", what)
		}
	}
	return n
}
