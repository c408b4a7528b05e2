package report

import (
	"cmp"
	"fmt"
	"slices"
	"sort"
	"strings"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/silencer/safety"
)

// sharedFinding is a finding with the layouts it concerns; where is empty when it concerns all.
type sharedFinding struct {
	safety.Finding
	where string
	in    []string // the layouts, by name
	parts bool     // the text begins with the parts that it concerns
	more  []string // other layouts that have such a thing too
}

// severities ranks findings, most dangerous first.
var severities = map[string]int{safety.Danger: 0, safety.Warning: 1, safety.Caution: 2, safety.Note: 3}

// cautions gathers the cautions of all layouts, those of one wording together, most dangerous first.
// Each names up to n layouts.
func (w *Comparison) cautions(n int, u form.Units) []sharedFinding {
	return w.gather(w.Predictions, false, n, u)
}

// refusals gathers why layouts are refused.
func (w *Comparison) refusals(u form.Units) []sharedFinding {
	return w.gather(w.Predictions, true, allNames, u)
}

// allNames sets no bound to how many layouts are named.
const allNames = 1 << 20

// sort of a finding: those of one sort may be told in one sentence.
type findingSort struct{ code, severity, action, source string }

func (w *Comparison) gather(of []path.Prediction, refusing bool, n int, u form.Units) []sharedFinding {
	remarks := map[findingSort][]remark{}
	var sorts []findingSort
	known := w.names()
	for _, p := range of {
		for _, f := range p.Findings {
			if f.Refuse != refusing {
				continue
			}
			s := findingSort{f.Code, f.Severity, f.Action, f.Source}
			if remarks[s] == nil {
				sorts = append(sorts, s)
			}
			about, rest := split(f.Text, known)
			remarks[s] = append(remarks[s], remark{p.Layout.Name, about, rest, placeOrEngine(&p, about)})
		}
	}
	sort.SliceStable(sorts, func(i, j int) bool { return severities[sorts[i].severity] < severities[sorts[j].severity] })
	var out []sharedFinding
	for _, s := range sorts {
		for _, m := range mergeRemarks(remarks[s]) {
			out = append(out, sharedFinding{safety.Finding{Code: s.code, Severity: s.severity, Text: m.whole(u),
				Action: u.Local(s.action), Source: s.source, Refuse: refusing}, m.where(w.layoutNames(), n), m.layouts, len(m.about) > 0, nil})
		}
	}
	return out
}

// placeOrEngine is the one place or engine that something is said of; "" where it is a part.
func placeOrEngine(p *path.Prediction, about []string) string {
	if len(about) != 1 || p.Layout == nil {
		return ""
	}
	_, engine := p.Layout.Engine(about[0])
	if engine || slices.ContainsFunc(p.Listeners, func(h path.Heard) bool { return h.Listener.Name == about[0] }) {
		return about[0]
	}
	return ""
}

// sayRisks has a line for each refusal, question and danger; that of carbon monoxide is always one of them.
func (w Brief) sayRisks(t *form.Text, most int, u form.Units) {
	t.Brief(1, fmt.Sprintf("%-8s ", safety.Danger), "Carbon monoxide kills without smell: alarms where people sleep.")
	var all []form.Risk
	for _, f := range w.refusals(u) {
		all = append(all, form.Risk{Sort: "refused", Text: w.of(f.in) + form.Sentence(f.Text)})
	}
	for i := range w.Predictions {
		if w.Asked(i) {
			all = append(all, form.Risk{Sort: "ask", Text: w.of([]string{w.Predictions[i].Layout.Name}) + form.Sentence(u.Local(w.asks[i].questions[0]))})
		}
	}
	hazards, notes := w.hazards(u)
	for _, f := range hazards {
		all = append(all, form.Risk{Sort: f.Severity, Text: w.whose(f) + form.Sentence(f.Text)})
	}
	if left := t.Risks(all, most-2, notes); left != "" {
		t.Line("and %s more: --full tells all", left)
	}
}

// hazards are the dangers and warnings beside carbon monoxide, which is said first of all, and how many cautions and notes there
// are. Those of what is advised and of today's come first, with the parts and figures of these alone; the same in other layouts is
// said to be there.
func (w Brief) hazards(u form.Units) (out []sharedFinding, notes map[string]int) {
	notes = map[string]int{}
	every := w.cautions(allNames, u)
	own := every
	if w.advise().Layout != "" {
		own = w.gather(w.inDetail(), false, allNames, u)
	}
	grave := func(f sharedFinding) bool { return f.Severity == safety.Danger || f.Severity == safety.Warning }
	for _, f := range own {
		if i := slices.IndexFunc(every, func(e sharedFinding) bool { return e.Finding == f.Finding }); i >= 0 && !f.parts {
			f.in = every[i].in
		}
		for _, e := range every { // left out below, as its parts and figures are told in short
			if e.Code == f.Code && slices.Contains(e.in, f.in[0]) {
				f.more = append(f.more, slices.DeleteFunc(slices.Clone(e.in), func(l string) bool { return slices.Contains(slices.Concat(f.in, f.more), l) })...)
			}
		}
		if grave(f) && f.Code != safety.Monoxide {
			out = append(out, f)
		}
	}
	for _, f := range every {
		switch {
		case f.Code == safety.Monoxide:
		case !grave(f):
			notes[f.Severity]++
		case !slices.ContainsFunc(own, func(o sharedFinding) bool { return o.Code == f.Code && slices.Contains(f.in, o.in[0]) }):
			out = append(out, f)
		}
	}
	slices.SortStableFunc(out, func(a, b sharedFinding) int {
		return cmp.Or(severities[a.Severity]-severities[b.Severity], verdictFirst[b.Code]-verdictFirst[a.Code])
	})
	return out, notes
}

// verdictFirst puts what the table has a word for in capitals before its like.
var verdictFirst = map[string]int{"BOX-COOKED": 1, "BOX-STARVED": 1}

// inDetail are the predictions of what is advised and of today's.
func (w Brief) inDetail() (out []path.Prediction) {
	today := w.today(0).Layout
	for i, p := range w.Predictions {
		if i == w.take() || p.Layout.Name == today {
			out = append(out, p)
		}
	}
	return out
}

// whose names the layouts of a finding.
func (w Brief) whose(f sharedFinding) string {
	if len(f.more) == 0 {
		return w.of(f.in)
	}
	return strings.TrimSuffix(w.of(f.in), ": ") + " (likewise " + form.Runs(form.Each(f.more, w.place)) + "): "
}
