package main

import (
	"fmt"
	"strings"

	"hushwake/path/boatfile"
	"hushwake/path/study/offers"
	"hushwake/path/study/survey"
)

// offers judges the quotes of the file on the duty of the first engine whose line uses one.
func (w *worked) offers() []offers.Judged {
	if len(w.boat.Quotes) == 0 {
		return nil
	}
	duty := w.quoteDuty()
	judged := make([]offers.Judged, len(w.boat.Quotes))
	for i, q := range w.boat.Quotes {
		judged[i] = offers.Judge(q, duty)
	}
	expected, err := survey.Acceptance(w.model, w.model.Prior(), acceptanceMeter, w.spread.Draws)
	if err != nil {
		return judged
	}
	return offers.Rank(judged, w.predictions, w.boat.Listeners[w.listener].Name, expected)
}

// acceptanceMeter is the standard deviation of the meter in an acceptance reading, dB (judgement).
const acceptanceMeter = 1.5

// quoteDuty is what an offered silencer has to serve, from the first layout that uses one.
func (w *worked) quoteDuty() offers.Duty {
	for _, p := range w.predictions {
		for _, q := range w.boat.Quotes {
			if d, ok := offers.DutyOf(p, q.Name); ok {
				return d
			}
		}
	}
	return offers.Duty{}
}

// printOffers prints the offers on one basis and what to ask.
func (c *common) printOffers(w *worked) {
	all := w.offers()
	if len(all) == 0 {
		return
	}
	fmt.Fprintf(c.out, "\nOffers on one basis, judged at %s:\n\n", w.boat.Listeners[w.listener].Name)
	t := table{head: []string{"", "offer", "dB(A) off", "hot loss at rated", "whole price", "judged"}, right: []bool{true, false, true, true, true, false}}
	for _, j := range all {
		rank := "-"
		if j.Rank > 0 {
			rank = fmt.Sprint(j.Rank)
		}
		t.add(rank, j.Name, orDash(j.LossDBA, "%.0f"), c.dropText(j), c.price(w.boat, j.Total), c.local(j.Verdict))
	}
	t.print(c.out)
	for _, j := range all {
		for _, text := range j.Warnings {
			paragraph(c.out, "  note: ", c.local(text))
		}
	}
	fmt.Fprintln(c.out, "\nTo send back:")
	for _, j := range all {
		for _, q := range j.Questions {
			paragraph(c.out, "  "+j.Name+": ", c.local(q))
		}
		if j.Level != nil {
			paragraph(c.out, "  "+j.Name+": ", fmt.Sprintf("after fitting, %s should read %.0f dB(A), in eight cases of ten %.0f to %.0f, with \"%s\" at the running duty.",
				w.boat.Listeners[w.listener].Name, *j.Level, *j.Low, *j.High, j.Layout))
		}
	}
}

func orDash(v *float64, format string) string {
	if v == nil {
		return "?"
	}
	return fmt.Sprintf(format, *v)
}

func (c *common) dropText(j offers.Judged) string {
	switch {
	case j.Drop == nil:
		return "?"
	case *j.DropHigh > *j.DropLow*1.02:
		return c.show(*j.DropLow, boatfile.Pressure) + " or " + strings.TrimSpace(c.show(*j.DropHigh, boatfile.Pressure))
	}
	return c.show(*j.Drop, boatfile.Pressure)
}
