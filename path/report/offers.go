package report

import (
	"fmt"

	"hushwake/path/boatfile"
	"hushwake/path/study/offers"
	"hushwake/path/study/survey"
)

// offers judges the quotes of the file on the duty of the first engine whose line uses one.
func (w *Comparison) offers() []offers.Judged {
	if len(w.Boat.Quotes) == 0 {
		return nil
	}
	duty := w.quoteDuty()
	judged := make([]offers.Judged, len(w.Boat.Quotes))
	for i, q := range w.Boat.Quotes {
		judged[i] = offers.Judge(q, duty)
	}
	return offers.Rank(judged, w.Predictions, w.seat(), survey.Acceptance(w.Model, w.Known.Draws, w.today(acceptanceMeter)))
}

// today is how things stand: the layout that the readings were taken on, else the first of the file.
func (w *Comparison) today(meter float64) survey.Before {
	at := survey.Before{Readings: w.Known.Readings(), Meter: meter}
	for _, r := range at.Readings {
		if r.Layout != "" && at.Layout == "" {
			at.Layout = r.Layout
		}
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
func (w *Comparison) sayOffers(t *Text, u Units) {
	all := w.offers()
	if len(all) == 0 {
		return
	}
	t.line("\nOffers on one basis, judged at %s:\n", w.seat())
	t.table(w.offerTable(all, u))
	for _, j := range all {
		for _, text := range j.Warnings {
			t.say("  note: ", "%s", u.local(text))
		}
	}
	t.line("\nTo send back:")
	for _, j := range all {
		for _, q := range j.Questions {
			t.say("  "+j.Name+": ", "%s", u.local(q))
		}
		if j.Level != nil {
			t.say("  "+j.Name+": ", "after fitting, %s should read %.0f dB(A), in eight cases of ten %.0f to %.0f, with \"%s\" at the running duty.",
				w.seat(), *j.Level, *j.Low, *j.High, j.Layout)
		}
	}
}

func (w *Comparison) offerTable(all []offers.Judged, u Units) *Table {
	t := newTable(">", "offer", ">dB(A) off", ">hot loss at rated", ">whole price", "judged")
	for _, j := range all {
		rank, off := "-", "?"
		if j.Rank > 0 {
			rank = fmt.Sprint(j.Rank)
		}
		if j.LossDBA != nil {
			off = fmt.Sprintf("%.0f", *j.LossDBA)
		}
		t.add(rank, j.Name, off, dropText(j, u), price(w.Boat, j.Total), u.local(j.Verdict))
	}
	return t
}

// twoReadings says whether the pressure drop depends on how the basis of the quote is read.
func twoReadings(j offers.Judged) bool {
	return j.DropHigh != nil && j.DropLow != nil && *j.DropHigh > *j.DropLow*1.02
}

func dropText(j offers.Judged, u Units) string {
	switch {
	case j.Drop == nil:
		return "?"
	case twoReadings(j):
		return u.show(*j.DropLow, boatfile.Pressure) + " or " + u.show(*j.DropHigh, boatfile.Pressure)
	}
	return u.show(*j.Drop, boatfile.Pressure)
}
