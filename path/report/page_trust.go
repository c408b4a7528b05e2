package report

import (
	"fmt"
	"sync"

	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/report/proof"
	"hushwake/path/study/verify"
)

// headline is the published checks of a page. It holds no function: one that is named here would be linked into every
// program, whether it draws a page or not, with all tables of the checks.
var headline struct {
	sync.Once
	checks []verify.Result
	err    error
}

// verified is the published checks of a page, worked out once.
func verified() ([]verify.Result, error) {
	headline.Do(func() { headline.checks, headline.err = verify.Headline() })
	return headline.checks, headline.err
}

// pageTrust adds assumptions and what the program is checked against.
func (w *Comparison) pageTrust(r *Page, u form.Units) {
	for _, a := range w.assumptions() {
		r.Assumptions = append(r.Assumptions, parts.Assumption{Field: a.Field, Value: u.Local(a.Value), Source: u.Local(a.Source), PlusMinus: a.PlusMinus})
	}
	checks, err := verified()
	if err != nil {
		return
	}
	for _, k := range checks {
		r.VerifiedBy = append(r.VerifiedBy, PageCheck{What: k.What, Source: k.Source, Expected: proof.WithUnit(form.Num(k.Expected), k.Unit),
			Ours: proof.Short(k.Ours), Tolerance: fmt.Sprintf("%.2g", k.Tolerance), Passed: k.Verdict == verify.Holds})
	}
}
