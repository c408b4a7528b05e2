package report

import (
	"fmt"
	"hushwake/path/report/form"
	"hushwake/source/said"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
)

// remark is something said of a layout; about is the element, partition or place it concerns.
type remark struct {
	layout string
	about  []string
	text   string
	of     string // what it concerns, where every layout has that: a place or an engine
}

// merged is a remark made of several that differ only in what they concern and in figures.
type merged struct {
	layouts, about, texts []string
}

// slot is what may differ between remarks that are one: a figure or what stands in brackets.
var slot = regexp.MustCompile(`\([^()]*\)|` + said.Figure + `|\d+(?:\.\d+)?`)

// mergeRemarks puts remarks of one wording together, in the order of the first of each, those of places and engines where they are
// said of the same layouts.
func mergeRemarks(all []remark) []merged {
	var out []merged
	place, layouts := map[string]int{}, map[string]string{}
	wording := func(r remark) string { return slot.ReplaceAllString(r.text, "\x00") }
	for _, r := range all {
		if r.of != "" {
			layouts[r.of+wording(r)] += "\x00" + r.layout
		}
	}
	for _, r := range all {
		key := wording(r) + layouts[r.of+wording(r)]
		i, ok := place[key]
		if !ok {
			i = len(out)
			place[key] = i
			out = append(out, merged{})
		}
		m := &out[i]
		m.layouts, m.texts = addOnce(m.layouts, r.layout), addOnce(m.texts, r.text)
		for _, name := range r.about {
			m.about = addOnce(m.about, name)
		}
	}
	return out
}

func addOnce(all []string, one string) []string {
	if one == "" || slices.Contains(all, one) {
		return all
	}
	return append(all, one)
}

// comeOut stands behind a level that a finding tells: a range of it over layouts is none of doubt.
const comeOut = " dB(A) come out"

// text is the wording with each differing figure as a range and each differing bracket as a list.
func (m merged) text() string {
	first := m.texts[0]
	if len(m.texts) == 1 {
		return first
	}
	var b strings.Builder
	end, levels := 0, ""
	for k, at := range slot.FindAllStringIndex(first, -1) {
		b.WriteString(first[end:at[0]])
		end = at[1]
		values := make([]string, len(m.texts))
		for i, t := range m.texts {
			values[i] = slot.FindAllString(t, -1)[k]
		}
		figure := span(values, strings.HasSuffix(said.Plain(first[:at[0]]), "up to "))
		if b.WriteString(figure); figure != values[0] && strings.HasPrefix(first[end:], comeOut) {
			levels = figure
		}
	}
	out := b.String() + first[end:]
	if levels != "" {
		out = strings.Replace(out, levels+comeOut, levels+" dB(A), from layout to layout and without their doubt, come out", 1)
	}
	return out
}

// span is one value, a range of figures (the largest behind "up to"), or a list of brackets in one.
func span(values []string, upTo bool) string {
	different := form.Unique(values)
	if len(different) == 1 {
		return values[0]
	}
	if strings.HasPrefix(values[0], "(") {
		values = different
		if inner, ok := sameWords(values); ok {
			return inner
		}
		for i, v := range values {
			values[i] = strings.Trim(v, "()")
		}
		return "(" + form.Few(values, "; ", 3) + ")"
	}
	sort.SliceStable(values, func(i, j int) bool { return said.Value(values[i]) < said.Value(values[j]) })
	if upTo {
		return values[len(values)-1]
	}
	return values[0] + "-" + values[len(values)-1]
}

// sameWords merges brackets that differ in figures only.
func sameWords(brackets []string) (string, bool) {
	inner := make([]remark, len(brackets))
	for i, b := range brackets {
		inner[i].text = strings.Trim(b, "()")
	}
	if m := mergeRemarks(inner); len(m) == 1 {
		return "(" + m[0].text() + ")", true
	}
	return "", false
}

// where says which layouts are concerned: nothing if all, the others if those are fewer, else the
// first n by name.
func (m merged) where(order []string, n int) string {
	if len(m.layouts) >= len(order) {
		return ""
	}
	rest := slices.DeleteFunc(slices.Clone(order), func(l string) bool { return slices.Contains(m.layouts, l) })
	if len(order) >= 4 && len(rest) <= len(order)/3 {
		return "all but " + form.QuotedList(rest, len(rest))
	}
	return form.QuotedList(m.layouts, n)
}

// others are the parts of a list that was cut short.
const others = "others"

// andMore ends a list of names that was cut short.
var andMore = regexp.MustCompile(` and \d+ more$`)

// split takes what a text concerns off its front, where those are names known on this boat: each as it is written in the file.
func split(text string, known map[string]string) (about []string, rest string) {
	front, rest, ok := strings.Cut(text, ": ")
	if !ok {
		return nil, text
	}
	front = strings.TrimPrefix(front, "partition ")
	if name, ok := known[strings.ToLower(front)]; ok {
		return []string{name}, rest
	}
	for _, name := range strings.Split(andMore.ReplaceAllString(front, ""), ", ") {
		written, ok := known[strings.ToLower(name)]
		if !ok {
			return nil, text
		}
		about = append(about, written)
	}
	if andMore.MatchString(front) {
		about = append(about, others)
	}
	return about, rest
}

// whole is the wording behind what it concerns.
func (m merged) whole(u form.Units) string {
	text := u.Local(m.text())
	if len(m.about) == 0 {
		return text
	}
	names := slices.DeleteFunc(slices.Clone(m.about), func(s string) bool { return s == others })
	if len(names) == len(m.about) {
		return form.Few(names, ", ", 4) + ": " + text
	}
	return strings.Join(names[:min(len(names), 4)], ", ") + " and others: " + text // how many is not known any more
}

// Shared is a sentence with the layouts of which it is said, by index.
type Shared struct {
	Text string
	In   []int
}

// Together puts the sentences of the layouts that differ in figures only into one, the figures as ranges.
func Together(layouts [][]string) (out []Shared) {
	var all []remark
	for i, sentences := range layouts {
		for _, text := range sentences {
			all = append(all, remark{layout: strconv.Itoa(i), text: text})
		}
	}
	for _, m := range mergeRemarks(all) {
		one := Shared{Text: m.text()}
		for _, name := range m.layouts {
			i, _ := strconv.Atoi(name)
			one.In = append(one.In, i)
		}
		out = append(out, one)
	}
	return out
}

// names are those of elements, partitions, places, engines, spaces and offers as they are written, by their lower case.
func (w *Comparison) names() map[string]string {
	out := map[string]string{}
	add := func(s string) { out[strings.ToLower(s)] = s }
	for _, q := range w.Boat.Quotes {
		add(q.Name)
	}
	for _, l := range w.Boat.Listeners {
		add(l.Name)
	}
	for i := range w.Predictions {
		for _, x := range w.Predictions[i].Layout.Exhausts {
			add(x.Engine)
			for k, e := range x.Line.Elements {
				add(e.Base().Name)
				add(fmt.Sprintf("%s %d", e.Kind(), k+1))
			}
		}
		for _, p := range w.Predictions[i].Layout.Partitions {
			add(p.Name)
			add(p.Between[0] + "/" + p.Between[1])
		}
	}
	delete(out, "")
	return out
}

// Warned are those of the file and of every layout, one by one, each with its layout where it is
// not of all.
func (w *Comparison) Warned() []string {
	out := append([]string(nil), w.Boat.Warnings...)
	count := map[string]int{}
	for _, p := range w.Predictions {
		for _, t := range form.Unique(p.Warnings) {
			count[said.Plain(t)]++
		}
	}
	for _, p := range w.Predictions {
		for _, t := range p.Warnings {
			if count[said.Plain(t)] < len(w.Predictions) {
				t = p.Layout.Name + ": " + t
			}
			out = append(out, t)
		}
	}
	return form.Unique(append(out, w.remarks()...))
}

// remarks are what is odd about the readings of the file, and what of them is left out.
func (w *Comparison) remarks() []string {
	if w.Known == nil {
		return nil
	}
	return w.Known.Remarks()
}

// Warnings are the warnings for a person: those of one wording in one line, in the units asked for.
func (w *Comparison) Warnings(u form.Units) []string {
	out := u.LocalAll(w.Boat.Warnings)
	var all []remark
	known := w.names()
	for _, p := range w.Predictions {
		for _, t := range p.Warnings {
			about, rest := split(t, known)
			all = append(all, remark{layout: p.Layout.Name, about: about, text: rest})
		}
	}
	order := w.layoutNames()
	for _, m := range mergeRemarks(all) {
		text := m.whole(u)
		if where := m.where(order, 3); where != "" {
			text += " (with " + where + ")"
		}
		out = append(out, text)
	}
	for _, text := range w.remarks() {
		out = append(out, u.Local(text))
	}
	return out
}
