package decode

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path/boatfile/spelling"
	"hushwake/source"
	"hushwake/source/said"
)

// Reader collects everything that is said about a file while it is decoded.
type Reader struct {
	Folder      string // from which other files are named
	Problems    []Problem
	Assumptions []source.Assumption
	Warnings    []string
	noted       map[string]bool
}

// Wrong notes a problem at a node.
func (r *Reader) Wrong(n *Node, hint, format string, args ...any) {
	p := Problem{Line: 1, Column: 1, Message: fmt.Sprintf(format, args...), Hint: hint}
	if n != nil {
		p.Line, p.Column, p.fault = n.Line, n.Column, format
	}
	r.Problems = append(r.Problems, p)
}

// Warn notes something implausible but possible, once; quantities stand in braces of the format, as in said.Textf.
func (r *Reader) Warn(n *Node, format string, args ...any) {
	text := said.Textf(format, args...)
	if n != nil {
		text = fmt.Sprintf("line %d: %s", n.Line, text)
	}
	if !slices.Contains(r.Warnings, text) {
		r.Warnings = append(r.Warnings, text)
	}
}

// Assume lists a value that the program filled in, once.
func (r *Reader) Assume(field, value, src string, plusMinus float64) {
	r.assumed(source.Assumption{Field: field, Value: value, Source: src, PlusMinusDB: plusMinus})
}

// AssumeOf does so with the exact path of what the value belongs to, by which predictions find its price.
func (r *Reader) AssumeOf(of, key, value, src string, plusMinus float64) {
	r.assumed(source.Assumption{Of: of, Field: of + " " + key, Value: value, Source: src, PlusMinusDB: plusMinus})
}

func (r *Reader) assumed(a source.Assumption) {
	if r.noted == nil {
		r.noted = map[string]bool{}
	}
	if key := a.Field + "\x00" + a.Value; !r.noted[key] {
		r.noted[key] = true
		r.Assumptions = append(r.Assumptions, a)
	}
}

// Object is a mapping whose keys are asked for one by one, so that the rest are known to be wrong.
type Object struct {
	r     *Reader
	At    *Node    // the mapping
	Path  string   // how the place is spoken of in messages and assumptions
	Known []string // keys that were asked for
}

// mainKey is what a single value means where a mapping belongs.
var mainKey = map[string]string{"hull": "material", "mounts": "kind", "promised": "back_pressure", "lagging": "thickness"}

// asMapping words a single value as the mapping that belongs there; "" = nobody knows which key is meant.
func asMapping(section, text string) string {
	key, low := mainKey[section], strings.ToLower(text)
	switch {
	case key == "":
		return ""
	case low == "yes" || low == "true" || low == "on":
		return "write {" + key + ": unknown}"
	case section == "lagging" && !strings.ContainsAny(text, "0123456789"):
		key = "material"
	}
	return "write {" + key + ": " + text + "}"
}

// Object opens a mapping; it is usable (and empty) even when the node is none.
func (r *Reader) Object(n *Node, path string) *Object {
	if n != nil && n.Kind != Mapping {
		if !n.Unknown() {
			hint := ""
			if m := GluedKey.FindStringSubmatch(n.Text); m != nil && n.Kind == Scalar {
				hint = "write {" + m[1] + ": " + m[2] + "}"
			} else if n.Kind == Scalar {
				hint = asMapping(path[strings.LastIndex(path, ".")+1:], strings.TrimSpace(n.Text))
			}
			r.Wrong(n, hint, "%s must be a mapping (key: value), not %s", path, n.Kind)
		}
		return &Object{r: r, At: &Node{Kind: Mapping, Line: n.Line, Column: n.Column}, Path: path}
	}
	if n == nil {
		n = &Node{Kind: Mapping, Line: 1, Column: 1}
	}
	return &Object{r: r, At: n, Path: path}
}

// Raw gives a key's node as it stands, nil when absent.
func (o *Object) Raw(key string) *Node {
	o.Known = append(o.Known, key)
	_, v := o.At.Find(key)
	return v
}

// Get gives a key's node, nil when it is absent or the owner doesn't know.
func (o *Object) Get(key string) *Node {
	v := o.Raw(key)
	if v.Unknown() {
		return nil
	}
	return v
}

// Must is get for the few keys that are required.
func (o *Object) Must(key, what string) *Node {
	v := o.Raw(key)
	switch {
	case v == nil && o.Misspelt(key): // done reports it
		return nil
	case v == nil:
		o.r.Wrong(o.At, fmt.Sprintf("add %s: %s", key, what), "%s lacks %q, which is required", o.Path, key)
		return nil
	case v.Unknown():
		o.r.Wrong(v, fmt.Sprintf("give %s, such as %s", key, what), "%s of %s is required and can't be unknown", key, o.Path)
		return nil
	}
	return v
}

// Misspelt tells whether a key of the mapping is a slip of the one wanted.
func (o *Object) Misspelt(key string) bool {
	return len(key) > 3 && slices.ContainsFunc(o.At.Keys, func(k *Node) bool {
		return spelling.Distance(strings.ToLower(k.Text), key) <= 2 || slices.Contains(otherKeys[strings.ToLower(k.Text)], key)
	})
}

// Has tells whether a key holds something.
func (o *Object) Has(key string) bool {
	_, v := o.At.Find(key)
	return !v.Unknown()
}

// Unstated tells whether a key stands there, and its value is unknown.
func (o *Object) Unstated(key string) bool {
	_, v := o.At.Find(key)
	return v != nil && v.Unknown()
}

// Done reports every key that nobody asked for.
func (o *Object) Done() {
	for _, k := range o.At.Keys {
		if slices.Contains(o.Known, k.Text) {
			continue
		}
		allowed := slices.Compact(slices.Sorted(slices.Values(o.Known)))
		o.r.Wrong(k, meantKey(k.Text, allowed, KeysOf(o.At)), "unknown key %q in %s; allowed: %s", spelling.Clip(k.Text), o.Path, strings.Join(allowed, ", "))
	}
}

// Text reads an optional text.
func (o *Object) Text(key string) string {
	n := o.Get(key)
	if n == nil {
		return ""
	}
	return o.r.TextOf(n, o.Path+" "+key)
}

// TextOf reads a text; what names it in messages.
func (r *Reader) TextOf(n *Node, what string) string {
	if n.Kind != Scalar {
		r.Wrong(n, "", "%s must be a text, not %s", what, n.Kind)
		return ""
	}
	return strings.TrimSpace(n.Text)
}

// Word reads one of a few words; "" when absent.
func (o *Object) Word(key string, allowed ...string) string {
	n := o.Get(key)
	if n == nil {
		return ""
	}
	return o.r.WordOf(n, o.Path+" "+key, allowed)
}

// WordOf reads one of a few words; "" when it is none of them.
func (r *Reader) WordOf(n *Node, what string, allowed []string) string {
	if n.Kind != Scalar {
		r.Wrong(n, "", "%s must be one of %s, not %s", what, strings.Join(allowed, ", "), n.Kind)
		return ""
	}
	w := strings.TrimSpace(n.Text)
	for _, a := range allowed {
		if strings.EqualFold(a, w) {
			return a
		}
	}
	r.Wrong(n, Meant(w, allowed), "%s: %q is not known; allowed: %s", what, spelling.Clip(w), strings.Join(allowed, ", "))
	return ""
}

// Flag reads true or false.
func (o *Object) Flag(key string) (value, stated bool) {
	n := o.Get(key)
	if n == nil {
		return false, false
	}
	switch o.r.WordOf(n, o.Path+" "+key, []string{"true", "false", "yes", "no"}) {
	case "true", "yes":
		return true, true
	case "false", "no":
		return false, true
	}
	return false, false
}

// WordOr is Word with a default.
func (o *Object) WordOr(key, def string, allowed ...string) string {
	if w := o.Word(key, allowed...); w != "" {
		return w
	}
	return def
}

// MustWord is Word for a key that is required.
func (o *Object) MustWord(key string, allowed ...string) string {
	n := o.Must(key, strings.Join(allowed, " or "))
	if n == nil {
		return ""
	}
	return o.r.WordOf(n, o.Path+" "+key, allowed)
}

// MustText is Text for a key that is required.
func (o *Object) MustText(key, example string) string {
	n := o.Must(key, example)
	if n == nil {
		return ""
	}
	return o.r.TextOf(n, o.Path+" "+key)
}
