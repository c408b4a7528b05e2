package report

import (
	"fmt"

	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/report/proof"
	"hushwake/path/study/verify"
)

// pageTrust adds assumptions and what the program is checked against.
func (w *Comparison) pageTrust(r *Page, verified func() (verify.Report, error), u form.Units) {
	for _, a := range w.assumptions() {
		r.Assumptions = append(r.Assumptions, parts.Assumption{Field: a.Field, Value: u.Local(a.Value), Source: u.Local(a.Source), PlusMinus: a.PlusMinus})
	}
	v, err := verified()
	if err != nil {
		return
	}
	for _, k := range headline(v.Checks) {
		r.VerifiedBy = append(r.VerifiedBy, PageCheck{What: k.What, Source: k.Source, Expected: fmt.Sprintf("%.5g %s", k.Expected, k.Unit),
			Ours: proof.Short(k.Ours), Tolerance: fmt.Sprintf("%.2g", k.Tolerance), Passed: k.Verdict == verify.Holds})
	}
}

// headline takes the first check of every publication, and every one that fails: the page shows what
// sort of proof there is, 'verify' shows all.
func headline(all []verify.Result) (out []verify.Result) {
	seen := map[string]bool{}
	for _, k := range all {
		if seen[k.Source] && k.Verdict == verify.Holds {
			continue
		}
		seen[k.Source] = true
		out = append(out, k)
	}
	return out
}
