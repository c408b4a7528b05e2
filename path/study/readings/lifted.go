package readings

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/silencer/safety"
)

// codeOddReading is of a line whose back pressure is over the limit but for readings too odd to be taken for the truth of it.
const codeOddReading = "OVER-LIMIT-BUT-FOR-A-READING"

// Rejudge finds anew what is said about a prediction that the readings moved from was. Back pressures that were read
// oddly low correct figures, but lift no refusal: of the line that they were read on they are in doubt, and of others they say
// nothing.
func (k *Known) Rejudge(was, p *path.Prediction) {
	path.Rejudge(k.Boat, was, p)
	odd := k.OddlyLow()
	if odd == nil {
		return
	}
	for j := range p.Exhausts {
		if f, over := overLine(k.Boat, was, j); over {
			if _, still := overLine(k.Boat, p, j); !still {
				p.Findings, p.Refused = append([]safety.Finding{p.OfLine(butFor(odd, f), j)}, p.Findings...), true
			}
		}
	}
}

func (k *Known) rejudge(was, p *path.Prediction) {
	k.Rejudge(was, p)
	k.overMeasured(p)
}

// OddlyLow lists the back pressures that count though they are odd, and lie under what the model expects, by number.
func (k *Known) OddlyLow() (numbers []int) {
	for _, r := range k.Readings() {
		if r.BackPress == nil {
			continue
		}
		if slices.ContainsFunc(k.Fit.Residuals, func(x Residual) bool { return x.Reading == r.Index && x.Used && x.Odd && x.Standardised < 0 }) {
			numbers = append(numbers, r.Index)
		}
	}
	return numbers
}

// overLine is the refusal of a line for its back pressure.
func overLine(b *path.Boat, p *path.Prediction, exhaust int) (f safety.Finding, over bool) {
	r := &p.Exhausts[exhaust]
	x, ok := p.Layout.Exhaust(r.Engine)
	if !ok {
		return f, false
	}
	all := safety.Findings(&x.Line, path.Circumstances(b, p, r))
	i := slices.IndexFunc(all, func(f safety.Finding) bool { return f.Code == safety.CodeOverLimit })
	if i < 0 {
		return f, false
	}
	return all[i], true
}

// Unbelieved says whether the back pressure of a prediction is one that odd readings brought under the limit, so that it is refused all the same.
func Unbelieved(p *path.Prediction) bool {
	return slices.ContainsFunc(p.Findings, func(f safety.Finding) bool { return f.Code == codeOddReading })
}

// butFor is a refusal that odd readings would lift.
func butFor(odd []int, f safety.Finding) safety.Finding {
	names := strings.ReplaceAll(strings.Trim(fmt.Sprint(odd), "[]"), " ", ", ")
	f.Code, f.Source = codeOddReading, f.Source+"; judgement: an odd reading lifts no refusal"
	f.Text = fmt.Sprintf("Refused without reading %s, which is odd (take it again): %s", names, strings.ToLower(f.Text[:1])+f.Text[1:])
	f.Action = fmt.Sprintf("take reading %s again, at rated and on this line: it would lift the refusal; else %s", names, f.Action)
	return f
}
