package report

import (
	"sort"

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
	more  bool     // other layouts have such a thing too
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
			remarks[s] = append(remarks[s], remark{p.Layout.Name, about, rest})
		}
	}
	sort.SliceStable(sorts, func(i, j int) bool { return severities[sorts[i].severity] < severities[sorts[j].severity] })
	var out []sharedFinding
	for _, s := range sorts {
		for _, m := range mergeRemarks(remarks[s]) {
			out = append(out, sharedFinding{safety.Finding{Code: s.code, Severity: s.severity, Text: m.whole(u),
				Action: u.Local(s.action), Source: s.source, Refuse: refusing}, m.where(w.layoutNames(), n), m.layouts, len(m.about) > 0, false})
		}
	}
	return out
}
