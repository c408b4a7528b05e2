package charts

import (
	"cmp"
	"slices"
	"sort"
	"strings"

	"hushwake/path/report"
	"hushwake/path/report/form"
)

// gravest is the order of severities, the most dangerous first.
var gravest = []string{"danger", "warning", "caution", "note"}

// saidCaution is a caution with the layouts it concerns; none means all.
type saidCaution struct {
	report.Caution
	in []int
}

// saidOnce puts cautions of one wording together, most dangerous first.
func saidOnce(r *report.Page) []saidCaution {
	var out []saidCaution
	place := map[[4]string]int{}
	add := func(c report.Caution, in []int) {
		key := [4]string{c.Severity, c.Text, c.Action, c.Source}
		k, met := place[key]
		if !met {
			place[key] = len(out)
			out = append(out, saidCaution{c, slices.Clone(in)})
			return
		}
		if len(in) == 0 || len(out[k].in) == 0 {
			out[k].in = nil
			return
		}
		for _, i := range in {
			if !slices.Contains(out[k].in, i) {
				out[k].in = append(out[k].in, i)
			}
		}
	}
	for _, c := range r.Cautions {
		add(c, c.Places)
	}
	for i, y := range r.Layouts {
		for _, c := range y.Cautions {
			add(c, []int{i})
		}
	}
	for k := range out {
		slices.Sort(out[k].in)
		if len(out[k].in) == len(r.Layouts) {
			out[k].in = nil
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return grave(out[a].Severity) < grave(out[b].Severity) })
	return out
}

func grave(severity string) int {
	if k := slices.Index(gravest, severity); k >= 0 {
		return k
	}
	return len(gravest)
}

func cautionsSection(r *report.Page, all []saidCaution) section {
	s := section{ID: "cautions", matter: matter{Lead: []string{"Read these before anything is cut, welded or ordered. " +
		"This is an estimate, not a design approval: the engine maker's limits, the local code and the rules of flag and class govern; " +
		"welding, hot work, hull openings, fuel, gas and carbon monoxide are work for a qualified person."}}}
	every, some := list{Title: "With every layout, most dangerous first"}, list{Title: "With some layouts only, most dangerous first"}
	for _, c := range all {
		if len(c.in) == 0 {
			every.Items = append(every.Items, cautionItem("", c.Caution))
			continue
		}
		some.Items = joined(some.Items, cautionItem(layoutsSaid(r, c.in)+": ", c.Caution))
	}
	for _, l := range []list{every, some} {
		if len(l.Items) > 0 {
			s.Lists = append(s.Lists, l)
		}
	}
	s.Title = "Cautions in full: " + cautionCount(slices.Concat(every.Items, some.Items))
	return s
}

// layoutsSaid is "Layout 3" or "Layouts 1, 2 and 8".
func layoutsSaid(r *report.Page, in []int) string {
	if len(in) == 1 {
		return "Layout " + tag(r, in[0])
	}
	in = slices.SortedFunc(slices.Values(in), func(a, b int) int { return cmp.Compare(r.Layouts[a].Place, r.Layouts[b].Place) })
	var tags []string
	for _, i := range in {
		tags = append(tags, tag(r, i))
	}
	return "Layouts " + strings.Join(tags[:len(tags)-1], ", ") + " and " + tags[len(tags)-1]
}

// joined adds an item; to one of its kind with the same remarks only what it says itself.
func joined(all []item, one item) []item {
	for k := range all {
		if all[k].Kind == one.Kind && len(one.Detail) > 0 && slices.Equal(all[k].Detail, one.Detail) {
			all[k].Text += " " + one.Text
			return all
		}
	}
	return append(all, one)
}

func cautionItem(of string, c report.Caution) item {
	it := item{Kind: c.Severity, Text: of + c.Text}
	if c.Action != "" {
		it.Detail = append(it.Detail, c.Action)
	}
	if c.Source != "" {
		it.Detail = append(it.Detail, "Source: "+c.Source)
	}
	return it
}

// cautionCount counts the cautions as they are listed, by how grave they are.
func cautionCount(all []item) string {
	n := map[string]int{}
	for _, c := range all {
		n[c.Kind]++
	}
	var parts []string
	for _, s := range gravest {
		if n[s] > 0 {
			parts = append(parts, form.Counted(n[s], s))
		}
	}
	if parts == nil {
		return "none of its own"
	}
	return strings.Join(parts, ", ")
}
