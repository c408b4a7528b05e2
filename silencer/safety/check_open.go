package safety

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"hushwake/silencer"
	"hushwake/silencer/loss"
	"hushwake/source/gas"
	"hushwake/source/said"
)

// unstatedLeast is how much of the loss taken for a silencer of which nobody says anything may not be there.
const unstatedLeast = 0.9

// askSound asks for the loss of sound of parts whose sheet states none. One's own silencer can be looked at: its loss is a
// wide prior, and nobody is to be asked.
func (i *inspection) askSound() {
	i.each(func(el silencer.Element, r silencer.Row, _ float64) {
		if g := el.Quoted(); g != nil && g.Look == nil && !g.StatesSound() {
			i.ask([]string{fmt.Sprintf("Insertion loss of %s in the octave bands 31.5 Hz to 8 kHz, and the test it comes from?", r.Name)})
		}
	})
}

// BasisQuestion asks for which gas a quoted pressure loss holds, with both answers in Pa.
func BasisQuestion(of string, low, high float64) string {
	return said.Textf("Does the pressure loss of %s hold for cold air at the same volume flow ({%.1f kPa} here) or at the same mass flow ({%.1f kPa})?", of, math.Min(low, high)/1e3, math.Max(low, high)/1e3)
}

// openPressure is what of the back pressure at rated hangs on an answer that the file doesn't hold, Pa: a quoted loss
// that can be read two ways (asked where the limit lies between), a silencer without a stated loss (always asked).
func (i *inspection) openPressure() (pa float64, unstated, basis []string) {
	var silent []string
	i.each(func(el silencer.Element, r silencer.Row, in float64) {
		g := el.Quoted()
		switch {
		case g == nil:
		case g.Loss == nil:
			pa += unstatedLeast * r.PressureLoss * cmp.Or(r.Share, 1)
			if g.Look == nil { // one's own silencer can be looked at; nobody is to be asked
				silent = append(silent, r.Name)
			}
		case g.Loss.Basis == silencer.BasisUnknown:
			if low, high, ok := i.bothReadings(g, r, in); ok && high > 1.02*low {
				pa += (high - low) * cmp.Or(r.Share, 1)
				basis = append(basis, BasisQuestion(r.Name, low, high))
			}
		}
	})
	if len(silent) > 0 && i.c.Promised == nil {
		unstated = append(unstated, fmt.Sprintf("What is the pressure loss of %s, at which flow and gas temperature; or the back pressure of the whole line at the engine, at rated, hot?", strings.Join(silent, " and ")))
	}
	return pa, unstated, basis
}

// bothReadings are the two answers of a quoted loss without a basis at rated, Pa.
func (i *inspection) bothReadings(g *silencer.Given, r silencer.Row, in float64) (low, high float64, ok bool) {
	s := i.c.RatedFeed.Gas.At(in, gas.Atmosphere)
	d, err := g.Loss.Scale(loss.Duty{MassFlow: float64(i.c.Rated.MassFlow) * cmp.Or(r.Share, 1), Density: s.Density, Temperature: in})
	return d.Low, d.High, err == nil && s.Density > 0
}

// ask adds what has to be answered before the line can be judged; such a line is not refused.
func (i *inspection) ask(questions []string) {
	for _, q := range questions {
		i.add(Finding{Code: CodeAskFirst, Severity: Caution, Text: q, Action: "ask the yard or maker before ordering", Source: "not stated in the boat file", Ask: true})
	}
}

// promised compares what is promised for the whole line with the limit and with this estimate. It says whether the
// promise stands where the estimate is over the limit.
func (i *inspection) promised(p float64) (stands bool) {
	if i.c.Promised == nil {
		return false
	}
	most := *i.c.Promised
	if limit := i.c.Limit; limit != nil && most > *limit {
		i.ask([]string{said.Textf("The back pressure promised for the line may reach {%.1f kPa}, over the engine's limit of {%.1f kPa}: can it be kept under the limit?", most/1e3, *limit/1e3)})
		return false
	}
	if p > 1.25*most { // more than this estimate's own doubt of fittings: judgement
		i.add(Finding{Code: "PROMISE-AND-ESTIMATE-DIFFER", Severity: Caution, Source: "promise stated in the boat file; " + practice,
			Text:   said.Textf("At most {%.1f kPa} are promised for the line; as drawn it takes {%.1f kPa} at rated.", most/1e3, p/1e3),
			Action: "ask for bores, bends and the silencer's loss that the promise is reckoned with"})
	}
	if least := i.c.PromisedLeast; 1.25*p < least {
		i.add(Finding{Code: "PROMISE-AND-ESTIMATE-DIFFER", Severity: Caution, Source: "promise stated in the boat file; " + practice,
			Text:   said.Textf("{%.1f kPa} or more are stated for the line; as drawn it takes {%.1f kPa} at rated.", least/1e3, p/1e3),
			Action: "ask what else is in the line: bores, bends and the silencer's loss"})
	}
	return i.c.Limit != nil
}
