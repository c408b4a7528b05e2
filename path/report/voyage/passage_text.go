package voyage

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/study/passage"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
)

// Text is each passage with a row for each layout, what it asks for by law, and what no silencer takes out.
func (w *Voyages) Text(u form.Units) *form.Text {
	t := &form.Text{}
	t.Say("", "%s", w.boat.Text)
	for _, p := range w.all {
		t.Blank()
		t.Say("", "%s", passageHead(p, u))
		t.Blank()
		t.Table(w.passageTable(p, u))
		for _, s := range w.passageNotes(p, u) {
			t.Say("  - ", "%s", s)
		}
	}
	t.Blank()
	w.sayMarks(t)
	w.sayProfile(t)
	t.Say("", "The figures are the exposure of a day, LEX,8h, dB(A), of one who stays there while engines run: 3 dB more is twice the dose; "+
		"hours without an engine count as silence. In brackets the band of eight cases of ten. %s. A day of 24 h gives no recovery between doses. "+
		"Fuel is by the rated consumption, a straight line of fuel over power (judgement) and what the line's back pressure costs.", passageAsks())
	t.Blank()
	t.Blocks = append(t.Blocks, report.FloorText(w.floors, w.beats).Blocks...)
	w.sayShares(t)
	return t
}

// passageHead says how long it is and what runs in a day of it.
func passageHead(p passage.Passage, u form.Units) string {
	text := p.Name + ": " + counted(p.Days, "day")
	if p.Days < 1 {
		text = fmt.Sprintf("%s: %.3g h", p.Name, p.Hours)
	}
	switch {
	case p.Cycle != "":
		return text + ", no legs stated: as " + p.Cycle + "."
	case len(p.Layouts) == 0:
		return text + "."
	}
	var legs []string
	for _, g := range p.Layouts[0].Legs {
		run := form.Each(g.Running, func(r passage.Running) string {
			return fmt.Sprintf("%s at %.0f rpm and %s", r.Engine, r.Duty.Speed, u.Power(r.Duty.Power))
		})
		legs = append(legs, fmt.Sprintf("%s for %.3g h", strings.Join(run, ", "), g.Hours))
	}
	return text + ", a day with " + strings.Join(legs, "; ") + "."
}

// sayProfile says which of the two profiles rules where the file has both.
func (w *Voyages) sayProfile(t *form.Text) {
	if p := w.boat.Passage; len(w.boat.Passages) > 0 && p != nil && p.Hours > 0 && p.Watch > 0 {
		t.Say("", "Here the legs and watches of 'passages' rule; 'hushwake compare' takes 'passage' of the file, %.0f h at one duty with watches of %.3g h.", p.Hours, p.Watch)
	}
}

// passageTable has the layouts as rows.
func (w *Voyages) passageTable(p passage.Passage, u form.Units) *form.Table {
	t := form.NewTable("layout")
	for _, l := range w.boat.Listeners {
		t.Column(l.Name, true)
	}
	watched := len(p.Layouts) > 0 && p.Layouts[0].Watch != nil
	if watched {
		t.Column("on watch", true)
	}
	t.Column("fuel", true)
	t.Column("fuel price", true)
	for i, l := range p.Layouts {
		row := []string{w.marked(i, "\n")}
		for _, e := range l.Places {
			row = append(row, form.LevelText(e.Exposure, e.Low, e.High))
		}
		if watched {
			row = append(row, form.LevelText(l.Watch.Exposure, l.Watch.Low, l.Watch.High))
		}
		if w.judged.Asked(i) {
			t.Add(append(row, "?", "?")...)
			continue
		}
		t.Add(append(row, fuelText(l.Fuel, u), report.Price(w.boat, w.newPassageLayout(p, i).FuelPrice))...)
	}
	return t
}

// fuelText is an amount of fuel, m3, to three figures.
func fuelText(m3 float64, u form.Units) string {
	if math.IsNaN(m3) || m3 <= 0 {
		return "-"
	}
	return u.Three(m3, quantity.Volume)
}

// counted is a number of things, of one without the plural.
func counted(n float64, of string) string {
	if n == 1 {
		return "1 " + of
	}
	return fmt.Sprintf("%.3g %ss", n, of)
}

// sound tells whether a layout may be praised, by what the advice counts out.
func (w *Voyages) sound(layout int) bool {
	p := &w.judged.Predictions[layout]
	return !p.Refused && !w.judged.Asked(layout) && !readings.OverMeasured(p)
}

// marked is the name of a layout, with its verdict in capitals where it may not be praised.
func (w *Voyages) marked(layout int, joint string) string {
	name := w.judged.Predictions[layout].Layout.Name
	if w.sound(layout) {
		return name
	}
	return name + joint + strings.ToUpper(w.judged.Verdict(layout))
}

// sayMarks says what the marks of the layouts stand for.
func (w *Voyages) sayMarks(t *form.Text) {
	var asked bool
	var marks []string
	for i := range w.judged.Predictions {
		asked = asked || w.judged.Asked(i)
		mark := strings.ToUpper(w.judged.Verdict(i))
		if readings.OverMeasured(&w.judged.Predictions[i]) {
			mark += " (as measured)"
		}
		if !w.sound(i) && !w.judged.Asked(i) && !slices.Contains(marks, mark) {
			marks = append(marks, mark)
		}
	}
	if len(marks) > 0 {
		t.Say("", "%s whatever the level: 'hushwake compare %s' says why.", strings.Join(marks, " or "), form.File(w.boat.File))
	}
	if asked {
		t.Say("", "ASK FIRST: its sheets don't say enough for a figure; the span is from the best to the worst that they may mean.")
	}
}

// passageAsks names what is asked of a day of 8 h, and of one of 24 h by the level that belongs to it.
func passageAsks() string {
	of8, of24 := report.Asks()
	return fmt.Sprintf("Action and limit values of this figure are %s. Averaged over the 24 h of the day it is %.1f dB lower: of that, %s are asked", of8, -passage.Place{}.MeanOfDay(), of24)
}

// passageNotes are the watch, the year, the best cruising speeds, and the lines of shaft and propeller.
func (w *Voyages) passageNotes(p passage.Passage, u form.Units) (all []string) {
	if len(p.Layouts) == 0 {
		return nil
	}
	if first := p.Layouts[0]; first.Watch != nil {
		all = append(all, fmt.Sprintf("On watch: %.3g h on and %.3g h off at %s. %s", p.Voyage.Watch.On, p.Voyage.Watch.Off, first.Watch.Name,
			w.dayText(p, func(l passage.Layout) passage.Place { return l.Watch.Place }, u)))
		if slices.ContainsFunc(p.Layouts, func(l passage.Layout) bool { return !l.Between() }) {
			all = append(all, fmt.Sprintf("On watch may lie over both places: in every case it lies between %s and %s, but which of them is the loud one is not the same in each, "+
				"and the middle of the louder is over the middle of either.", first.Watch.At, first.Watch.Rest))
		}
	} else if len(first.Places) > 0 {
		all = append(all, form.Sentence("a day at "+first.Places[0].Name+": "+w.dayText(p, func(l passage.Layout) passage.Place { return l.Places[0] }, u)))
	}
	if p.Times > 0 && p.Layouts[0].Fuel > 0 {
		all = append(all, fmt.Sprintf("%s a year: %s of fuel with %s.", counted(p.Times, "time"), fuelText(p.Layouts[0].Fuel*p.Times, u), form.Quote(p.Layouts[0].Name)))
	}
	seen := map[string]bool{} // of several layouts of which the same is true the first tells it
	for i, l := range p.Layouts {
		if i > 0 && !w.sound(i) {
			continue
		}
		if speeds := fmt.Sprint(form.Each(l.Cruise, func(c passage.Cruised) float64 { return c.Speed })); !seen[speeds] {
			seen[speeds], all = true, append(all, cruiseTexts(l, u)...)
		}
	}
	return append(all, lineTexts(p.Layouts[0].Legs)...)
}

// dayText holds the day of one person with the first layout against the action values and against the quietest layout.
func (w *Voyages) dayText(p passage.Passage, of func(passage.Layout) passage.Place, u form.Units) string {
	first, day := p.Layouts[0], of(p.Layouts[0])
	best := -1
	for i, l := range p.Layouts {
		if w.sound(i) && (best < 0 || of(l).Exposure < of(p.Layouts[best]).Exposure) {
			best = i
		}
	}
	text := fmt.Sprintf("%s makes %s dB(A), %s", form.Quote(first.Name), form.LevelText(day.Exposure, day.Low, day.High), standing(day))
	if !w.sound(0) {
		text += "; it is " + strings.ToUpper(w.judged.Verdict(0))
	}
	mean := form.Decibel(day.MeanOfDay())
	if best > 0 {
		text += quietest(first, p.Layouts[best], of, u)
		mean += ", with the quietest " + form.Decibel(of(p.Layouts[best]).MeanOfDay())
	}
	if !math.IsNaN(day.Exposure) {
		text += "; averaged over 24 h " + mean
	}
	return text + "."
}

// standing holds a day against the action values, by its middle and by its band.
func standing(e passage.Place) string {
	is, may := "under every action value", ""
	for _, a := range report.Hearing() {
		of := fmt.Sprintf("the %.0f of the %s", a.Limit, strings.Join(a.Names, " and the "))
		switch {
		case e.Low > a.Limit:
			is, may = "over "+of, ""
		case e.Exposure > a.Limit:
			is, may = "likely over "+of, ""
		case spectrum.Whole(e.High) >= a.Limit:
			may = "may reach " + of
		}
	}
	switch {
	case may == "":
		return is
	case strings.HasPrefix(is, "under"):
		return may
	}
	return is + ", " + may
}

// quietest says how the quietest of the layouts that may be taken does against the first, and what fuel it saves.
func quietest(first, best passage.Layout, of func(passage.Layout) passage.Place, u form.Units) (text string) {
	text = fmt.Sprintf("; the quietest that may be taken, %s, makes %s", form.Quote(best.Name), form.Whole(of(best).Exposure))
	if d := best.Fuel - first.Fuel; math.Abs(d) > 0.002*first.Fuel {
		than := "less"
		if d > 0 {
			than = "more"
		}
		text += fmt.Sprintf(" with %s of fuel %s", fuelText(math.Abs(d), u), than)
	}
	return text
}

// cruiseTexts say at which of the stated speeds a mile is the quietest, and where, if that is heard.
func cruiseTexts(l passage.Layout, u form.Units) (all []string) {
	var at []passage.Cruised
	places := map[float64][]string{}
	for _, c := range l.Cruise {
		if c.Saves < 0.5 {
			continue
		}
		if places[c.Speed] == nil {
			at = append(at, c)
		}
		places[c.Speed] = append(places[c.Speed], fmt.Sprintf("%s (%.1f dB)", c.Place, c.Saves))
	}
	for _, c := range at {
		all = append(all, fmt.Sprintf("At %s a mile with %s brings least sound at %.0f rpm and %.1f kn, %s; in brackets against the loudest of the speeds stated.",
			strings.Join(places[c.Speed], ", "), form.Quote(l.Name), c.Speed, c.Over/knot, fuelText(c.Fuel, u)))
	}
	return all
}

// lineTexts label the lines of shafts and propellers, once for each speed.
func lineTexts(legs []passage.Leg) (all []string) {
	at, seen := map[string]int{}, map[string]bool{}
	for _, g := range legs {
		for _, r := range g.Running {
			text := fmt.Sprintf("%.1f Hz at %.0f rpm", r.Shaft, r.Duty.Speed)
			if r.Blade > 0 {
				text = fmt.Sprintf("%.1f Hz with blades at %.1f Hz at %.0f rpm", r.Shaft, r.Blade, r.Duty.Speed)
			}
			if r.Shaft == 0 || seen[r.Engine+text] {
				continue
			}
			seen[r.Engine+text] = true
			if i, ok := at[r.Engine]; ok {
				all[i] += ", " + text
				continue
			}
			at[r.Engine] = len(all)
			all = append(all, "The shaft of "+r.Engine+" turns at "+text)
		}
	}
	return form.Each(all, func(s string) string { return s + ": what sounds there is not the exhaust." })
}

// sayShares says how much of each dB of silencing arrives, which layouts nobody tells apart, and what a measured background covers.
func (w *Voyages) sayShares(t *form.Text) {
	shares := form.NewTable("of each dB at the outlet arrives")
	for _, f := range w.floors {
		shares.Column(f.Place, true)
	}
	for i := range w.floors[0].Under {
		row := []string{w.marked(i, "\n")}
		for _, f := range w.floors {
			if f.Under[i].Asked {
				row = append(row, "?")
				continue
			}
			row = append(row, fmt.Sprintf("%.0f %%", 100*f.Under[i].Share))
		}
		shares.Add(row...)
	}
	t.Blank()
	t.Table(shares)
	for _, f := range w.floors {
		if len(f.Alike) > 0 {
			t.Say("  - ", "At %s nobody tells apart: %s.", f.Place, strings.Join(form.Each(f.Alike, func(names []string) string { return form.QuotedList(names, len(names)) }), "; nor "))
		}
		for _, s := range report.MaskedWords(f.Masked) {
			t.Say("  - ", "At %s %s.", f.Place, s)
		}
	}
}
