package report

import (
	"sync"

	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/report/proof"
	"hushwake/path/study/verify"
)

// checked is the published checks of a page, worked out once. It names no function that works them out, for then a program
// without a page would carry them all.
var checked struct {
	once sync.Once
	rows []verify.Result
	err  error
}

func verified() ([]verify.Result, error) {
	checked.once.Do(func() { checked.rows, checked.err = verify.Headline() })
	return checked.rows, checked.err
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
			Ours: proof.Short(k.Ours), Tolerance: proof.Short(&k.Tolerance), Passed: k.Verdict == verify.Holds})
	}
}
