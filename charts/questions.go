package charts

import (
	"fmt"
	"strings"

	"hushwake/path/report"
	"hushwake/path/report/form"
)

// helpsSection lists single changes, the most telling first.
func helpsSection(r *report.Page) section {
	s := section{ID: "helps", Title: "What would help most: nothing that was tried"}
	if len(r.Helps.Changes) == 0 || len(r.Listeners) == 0 {
		s.Empty = "No single change that was tried is heard anywhere."
		return s
	}
	best := r.Helps.Changes[0]
	s.Title = fmt.Sprintf("What would help “%s” most: %s, %s at %s", r.Helps.Layout, best.Change, signed(best.DB[r.Main]), r.Listeners[r.Main].Name)
	t := table{Caption: "One change at a time, dB; minus is quieter", Cards: true, Few: true, Head: []string{"Change"}}
	for _, l := range r.Listeners {
		t.Head = append(t.Head, l.Name)
	}
	for _, c := range r.Helps.Changes {
		row := []cell{words(c.Change)}
		for j := range r.Listeners {
			row = append(row, gain(&c.DB[j], false))
		}
		t.Rows = append(t.Rows, row)
	}
	s.Tables = []table{t}
	return s
}

// questionsSection is what to ask, what to measure and what to do next.
func questionsSection(r *report.Page) section {
	asks, n := asked(r)
	next := nextSteps(r)
	s := section{ID: "questions", Title: "Before anything is ordered: " + form.Counted(len(next.Items), "thing") + " to do", Sheet: 3}
	if n > 0 {
		s.Title = "Before anything is ordered: " + form.Counted(n, "question") + " to send back"
		s.Lists = append(s.Lists, asks)
	}
	s.Lists = append(s.Lists, next)
	return s
}

// asked are the questions on offers, and on layouts that can't be judged, each once.
func asked(r *report.Page) (l list, n int) {
	l.Title = "Questions for the makers"
	seen := map[string]bool{}
	add := func(name string, questions []string) {
		it := item{Kind: "ask", Text: name + ":"}
		for _, q := range questions {
			key := q
			for _, o := range r.Offers { // a layout names the offer that it asks about
				key = strings.ReplaceAll(key, " of "+o.Name, "")
			}
			if !seen[key] {
				seen[key] = true
				it.Detail = append(it.Detail, q)
			}
		}
		if len(it.Detail) > 0 {
			n += len(it.Detail)
			l.Items = append(l.Items, it)
		}
	}
	for _, k := range offerOrder(r.Offers) {
		add(r.Offers[k].Name, r.Offers[k].Questions)
	}
	for i, y := range r.Layouts {
		add("layout "+tag(r, i)+", "+y.Name, y.Questions)
	}
	return l, n
}

// nextSteps says what to do now, in order.
func nextSteps(r *report.Page) list {
	l := list{Title: "What to do and to measure next"}
	say := func(text string) { l.Items = append(l.Items, item{Text: text}) }
	i := r.Chosen
	if i < 0 {
		say("Change the refused layouts as said above, or ask about those that can't be judged: none may be built as drawn.")
	} else {
		if box := hurtsEngine(r, i); box != "" {
			say("Layout " + tag(r, i) + " leaves the engine " + box + " in its box: give it the air that the section on the box asks for, or take another layout.")
		}
		l.Items = append(l.Items, overLimits(r, i)...)
	}
	if len(r.Listeners) == 0 {
		return l
	}
	if r.Listeners[r.Main].Read {
		say("Measure at " + r.Listeners[r.Main].Name + " again after the change, with the instrument of the reading before, at the same speed, load and doors: " +
			"its own error then drops out of the difference.")
	} else {
		say("Measure at " + r.Listeners[r.Main].Name + " before anything is changed, at the same speed, load and doors: " +
			"it narrows every band on this page, and without it no gain can be shown afterwards.")
	}
	for k, m := range r.Measure {
		if k == measuresShown || m.After > 0.95*m.Before || m.Listener == r.Main {
			continue
		}
		say(fmt.Sprintf("A telephone at %s now would narrow the doubt at %s with layout %s from ±%s to ±%s (one standard deviation).", r.Listeners[m.Listener].Name,
			r.Listeners[r.Main].Name, tag(r, max(r.Chosen, 0)), decibel.bare(&m.Before), decibel.text(&m.After)))
	}
	say("The survey command lists all readings worth taking, with how: some narrow more, such as those without load, and it weighs the doubt over all layouts at once. The enquiry command writes the request for quotes.")
	return l
}

// measuresShown is how many readings are named.
const measuresShown = 2

// overLimits names for each limit that the layout misses the route to treat first.
func overLimits(r *report.Page, i int) []item {
	var out []item
	for j, l := range r.Listeners {
		over := excess(r, i, j)
		if over <= 0 {
			continue
		}
		s := fmt.Sprintf("At %s layout %s stays %s over the limit of %s", l.Name, tag(r, i), wholeOver(over), limitDB.text(l.LimitDBA))
		if by := shares(r.Layouts[i].Heard[j].Paths); len(by) > 0 && by[0].share > 0 {
			s += leadingWay(by[0])
		}
		out = append(out, item{Text: s + "."})
	}
	return out
}

// leadingWay says whether one route rules or several must be treated together.
func leadingWay(s shareOf) string {
	if s.share < 0.4 {
		return fmt.Sprintf(": no single way rules there, the largest, %q, is %s of the energy; several must be treated together", s.name, percent.text(&s.share))
	}
	return fmt.Sprintf(": the largest part (%s of the energy) comes by %q; treat that first", percent.text(&s.share), s.name)
}
