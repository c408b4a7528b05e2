package boatfile

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/spelling"
	"hushwake/path/panel"
	"hushwake/source"
)

// reader collects everything that is said about a file while it is decoded.
type reader struct {
	folder      string // from which other files are named
	problems    []Problem
	assumptions []source.Assumption
	warnings    []string
	noted       map[string]bool
	materials   *panel.Materials
	sea         float64 // K
	shared      []*shared
	open        map[*path.Layout]*slotted
}

// wrong notes a problem at a node.
func (r *reader) wrong(n *node, hint, format string, args ...any) {
	p := Problem{Line: 1, Column: 1, Message: fmt.Sprintf(format, args...), Hint: hint}
	if n != nil {
		p.Line, p.Column, p.fault = n.line, n.column, format
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
	r.assumed(source.Assumption{Field: field, Value: value, Source: src, PlusMinusDB: plusMinus})
}

// assumeOf does so with the exact path of what the value belongs to, by which predictions find its price.
func (r *reader) assumeOf(of, key, value, src string, plusMinus float64) {
	r.assumed(source.Assumption{Of: of, Field: of + " " + key, Value: value, Source: src, PlusMinusDB: plusMinus})
}

func (r *reader) assumed(a source.Assumption) {
	if r.noted == nil {
		r.noted = map[string]bool{}
	}
	if key := a.Field + "\x00" + a.Value; !r.noted[key] {
		r.noted[key] = true
		r.assumptions = append(r.assumptions, a)
	}
}

// object is a mapping whose keys are asked for one by one, so that the rest are known to be wrong.
type object struct {
	r     *reader
	n     *node
	path  string // how the place is spoken of in messages and assumptions
	known []string
}

// mainKey is what a single value means where a mapping belongs.
var mainKey = map[string]string{"hull": "material", "mounts": "kind"}

// object opens a mapping; it is usable (and empty) even when the node is none.
func (r *reader) object(n *node, path string) *object {
	if n != nil && n.kind != mapping {
		if !n.unknown() {
			hint := ""
			if m := gluedKey.FindStringSubmatch(n.text); m != nil && n.kind == scalar {
				hint = "write {" + m[1] + ": " + m[2] + "}"
			} else if key := mainKey[path[strings.LastIndex(path, ".")+1:]]; key != "" && n.kind == scalar {
				hint = "write {" + key + ": " + strings.TrimSpace(n.text) + "}"
			}
			r.wrong(n, hint, "%s must be a mapping (key: value), not %s", path, n.kind)
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
	return len(key) > 3 && slices.ContainsFunc(o.n.keys, func(k *node) bool {
		return spelling.Distance(strings.ToLower(k.text), key) <= 2 || slices.Contains(otherKeys[strings.ToLower(k.text)], key)
	})
}

// has tells whether a key holds something.
func (o *object) has(key string) bool {
	_, v := o.n.find(key)
	return !v.unknown()
}

// unstated tells whether a key stands there, and its value is unknown.
func (o *object) unstated(key string) bool {
	_, v := o.n.find(key)
	return v != nil && v.unknown()
}

// done reports every key that nobody asked for.
func (o *object) done() {
	for _, k := range o.n.keys {
		if slices.Contains(o.known, k.text) {
			continue
		}
		allowed := slices.Compact(slices.Sorted(slices.Values(o.known)))
		o.r.wrong(k, meantKey(k.text, allowed, keysOf(o.n)), "unknown key %q in %s; allowed: %s", spelling.Clip(k.text), o.path, strings.Join(allowed, ", "))
	}
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
	r.wrong(n, meant(w, allowed), "%s: %q is not known; allowed: %s", what, spelling.Clip(w), strings.Join(allowed, ", "))
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
