package report

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/study/offers"
	"hushwake/path/study/survey"
)

// offers judges the quotes of the file and ranks them with the readings to expect.
func (w *Comparison) offers() []offers.Judged {
	judged := w.judged()
	if len(judged) == 0 {
		return nil
	}
	before := w.today(acceptanceMeter)
	before.Only = w.Seat()
	return offers.Rank(judged, w.Predictions, w.Seat(), survey.Acceptance(w.Model, w.sample, w.Known.Draws, before))
}

// judged brings the quotes of the file to the duty of the first engine whose line uses one.
func (w *Comparison) judged() []offers.Judged {
	if len(w.Boat.Quotes) == 0 {
		return nil
	}
	duty := w.quoteDuty()
	return form.Each(w.Boat.Quotes, func(q path.Quote) offers.Judged { return offers.Judge(q, duty) })
}

// today is how things stand: the layout on board, "" where the file doesn't tell it, and what was read.
func (w *Comparison) today(meter float64) survey.Before {
	at := survey.Before{Readings: w.Known.Readings(), Meter: meter}
	if l, _, known := w.Boat.Present(); known {
		at.Layout = l.Name
	}
	return at
}

// acceptanceMeter is the standard deviation of the meter in an acceptance reading, dB (judgement).
const acceptanceMeter = 1.5

// quoteDuty is what an offered silencer has to serve, from the first layout that uses one.
func (w *Comparison) quoteDuty() offers.Duty {
	for _, p := range w.Predictions {
		for _, q := range w.Boat.Quotes {
			if d, ok := offers.DutyOf(p, q.Name); ok {
				return d
			}
		}
	}
	return offers.Duty{}
}

// sayOffers shows the offers on one basis and what to ask.
func (w *Comparison) sayOffers(t *form.Text, u form.Units) {
	all := w.offers()
	if len(all) == 0 {
		return
	}
	t.Line("\nOffers on one basis, judged at %s:\n", w.Seat())
	t.Table(w.offerTable(all, u))
	for _, j := range all {
		for _, text := range j.Warnings {
			t.Say("  note: ", "%s", u.Local(text))
		}
	}
	if w.pressureRead() {
		t.Say("  note: ", "hot losses stand here as quoted; the back pressures of layouts above are moved by what was read on board")
	}
	for _, text := range w.offerEars(all) {
		t.Say("  to the ear: ", "%s", form.Sentence(text))
	}
	t.Line("\nTo send back:")
	for _, j := range all {
		for _, q := range j.Questions {
			t.Say("  "+j.Name+": ", "%s", u.Local(q))
		}
		if j.Level != nil {
			t.Say("  "+j.Name+": ", "after fitting, %s should read %s dB(A), in eight cases of ten %s to %s, with \"%s\" at the running duty.",
				w.Seat(), form.Whole(*j.Level), form.Whole(*j.Low), form.Whole(*j.High), j.Layout)
		}
		if j.CantTell != "" {
			t.Say("  "+j.Name+": ", "%s.", j.CantTell)
		}
	}
}

// pressureRead tells whether the back pressures of lines are moved by readings, which those of offers are not.
func (w *Comparison) pressureRead() bool {
	return slices.ContainsFunc(w.Known.Readings(), func(r path.Reading) bool { return r.BackPress != nil && !r.Strike })
}

func (w *Comparison) offerTable(all []offers.Judged, u form.Units) *form.Table {
	t := form.NewTable(">", "offer", ">dB(A) off", ">hot loss at rated,\nas quoted", ">whole price", "judged")
	for _, j := range all {
		rank, off := "-", "?"
		if j.Rank > 0 {
			rank = fmt.Sprint(j.Rank)
		}
		if j.LossDBA != nil {
			off = form.Whole(*j.LossDBA)
		}
		t.Add(rank, j.Name, off, dropText(j, u), priceFrom(w.Boat, j.Total, j.UnpricedExtras), u.Local(j.Verdict))
	}
	return t
}

// twoReadings says whether the pressure drop depends on how the basis of the quote is read.
func twoReadings(j offers.Judged) bool {
	return j.DropHigh != nil && j.DropLow != nil && *j.DropHigh > *j.DropLow*1.02
}

func dropText(j offers.Judged, u form.Units) string {
	switch {
	case j.Drop == nil:
		return "?"
	case twoReadings(j):
		return u.Show(*j.DropLow, quantity.Pressure) + " or " + u.Show(*j.DropHigh, quantity.Pressure)
	}
	return u.Show(*j.Drop, quantity.Pressure)
}

// Price prints a price in the currency of the file.
func Price(b *path.Boat, p *float64) string {
	if p == nil {
		return "unknown"
	}
	return strings.TrimSpace(fmt.Sprintf("%.0f %s", *p, b.Currency))
}

// priceFrom says where a part has no price that the whole costs more.
func priceFrom(b *path.Boat, p *float64, unpriced []string) string {
	if p != nil && len(unpriced) > 0 {
		return "from " + Price(b, p)
	}
	return Price(b, p)
}
