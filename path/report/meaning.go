package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// meaning says in plain words what a level at a place means, a sentence for each thing: talk, hours, guidance.
func meaning(h *path.Heard, s draws.LevelSpread, u form.Units) []string {
	if math.IsNaN(s.Level) {
		return []string{"It can't be judged before its maker has answered."}
	}
	if s.Level < 20 {
		return []string{"Nothing of the engine is heard there."}
	}
	parts := []string{talk(h.Bands, s.Level, u), hours(s.Level)}
	if fit := guidance(h.Listener); len(fit) > 0 {
		parts = append(parts, compared(s.Level, fit))
	}
	if l := h.Listener.Limit; l != nil {
		switch {
		case s.Level > *l && form.Whole(s.Level-*l) == "0":
			parts = append(parts, fmt.Sprintf("It is less than 1 dB over the limit of %.0f dB(A) in the file.", *l))
		case s.Level > *l:
			parts = append(parts, fmt.Sprintf("It is %s dB over the limit of %.0f dB(A) in the file.", form.Whole(s.Level-*l), *l))
		default:
			parts = append(parts, fmt.Sprintf("It keeps the limit of %.0f dB(A) in the file.", *l))
		}
	}
	if len(h.Notes) > 0 {
		parts = append(parts, u.Local(h.Notes[0]))
	}
	return parts
}

// talk says how far a voice carries at a level in dB(A). Where hearing is at risk no talk is called easy.
func talk(b spectrum.Bands, level float64, u form.Units) string {
	normal, raised := spectrum.TalkDistance(b, spectrum.NormalVoice), spectrum.TalkDistance(b, spectrum.RaisedVoice)
	switch risk := level >= Hearing()[0].Limit; {
	case raised < 0.3:
		if loud := spectrum.TalkDistance(b, spectrum.LoudVoice); loud >= 0.3 {
			return fmt.Sprintf("Only a loud voice is understood, at %s.", u.Way(loud))
		}
		return "Talk is not possible without shouting in the ear."
	case normal > 7.3 && !risk:
		return "Talk across the space is easy."
	case normal < 0.3:
		return fmt.Sprintf("A raised voice is understood at %s, a normal one hardly at all.", u.Way(raised))
	case normal > 1 && risk:
		return "Speech is clear, but talk over such a level tires."
	}
	return fmt.Sprintf("A normal voice is understood at %s, a raised one at %s.", u.Way(normal), u.Way(raised))
}

// ActionValue is what the criteria of a day of 8 h ask at one level, dB(A).
type ActionValue struct {
	Limit float64
	Names []string
}

// Hearing are the criteria of a day of 8 h, the lowest level first.
func Hearing() (all []ActionValue) {
	for _, c := range spectrum.Criteria("exposure") {
		if !strings.HasSuffix(c.Unit, "8h") {
			continue
		}
		i := slices.IndexFunc(all, func(a ActionValue) bool { return a.Limit == c.Limit })
		if i < 0 {
			i, all = len(all), append(all, ActionValue{Limit: c.Limit})
		}
		all[i].Names = append(all[i].Names, c.Name)
	}
	slices.SortFunc(all, func(a, b ActionValue) int { return cmp.Compare(a.Limit, b.Limit) })
	return all
}

// hours says for how long the level is harmless, by the criteria of a day of 8 h.
func hours(level float64) string {
	all := Hearing()
	first := spectrum.HoursTo(all[0].Limit, level)
	if first >= 24 {
		return fmt.Sprintf("All day there keeps below the %s for hearing.", strings.Join(all[0].Names, " and the "))
	}
	text := fmt.Sprintf("%s a day there %s the %s for hearing (%.0f dB(A) over 8 h)", hoursText(first), reach(first), strings.Join(all[0].Names, " and the "), all[0].Limit)
	for _, a := range all[1:] {
		if h := spectrum.HoursTo(a.Limit, level); h < 24 {
			text += fmt.Sprintf(", %s the %s (%.0f)", hoursText(h), strings.Join(a.Names, " and the "), a.Limit)
		}
	}
	return text + "."
}

// hoursText writes hours as hours or, under two of them, minutes.
func hoursText(h float64) string {
	switch {
	case h < 1.0/60:
		return "less than a minute"
	case h < 2:
		return fmt.Sprintf("%.0f min", 60*h)
	}
	return fmt.Sprintf("%.0f h", h)
}

func reach(h float64) string {
	if h < 1.0/60 {
		return "reaches"
	}
	return "reach"
}

// guidance are the criteria that fit the listener's place by its name.
func guidance(l path.Listener) []spectrum.Criterion { return spectrum.CriteriaFor(l.Name + " " + l.In) }

// compared holds a level against the first criterion of a place and names the others beside it.
func compared(level float64, fit []spectrum.Criterion) string {
	c, than := fit[0], "within"
	if level > c.Limit {
		than = form.Whole(level-c.Limit) + " dB over"
	}
	text := fmt.Sprintf("%s the %.0f dB(A) for %s (%s, %s).", sentenceStart(than), c.Limit, article(c.Name), c.Source, c.Standing())
	if len(fit) > 1 {
		text += " Others ask " + strings.Join(form.Each(fit[1:], limitText), ", ") + "."
	}
	return text
}

func limitText(c spectrum.Criterion) string {
	return fmt.Sprintf("%.0f for %s (%s)", c.Limit, article(c.Name), c.Source)
}

// article puts a or an before a name.
func article(name string) string {
	if strings.ContainsAny(name[:1], "aeiou") {
		return "an " + name
	}
	return "a " + name
}

func sentenceStart(s string) string { return strings.TrimSuffix(form.Sentence(s), ".") }

// passageText says what the worst day of the stated passage does to one person's hearing.
func (w *Comparison) passageText(layout int) string {
	p := w.Boat.Passage
	if p == nil || p.Hours <= 0 || p.Watch <= 0 {
		return ""
	}
	on := w.Spread.Layouts[layout].Listeners[w.Listener].Level
	if math.IsNaN(on) {
		return ""
	}
	off, where := w.offWatch(layout)
	lex, leq, err := spectrum.Watches{Passage: p.Hours, Watch: p.Watch, Off: p.Watch}.Exposure(on, off)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("On a passage of %.0f h at this duty with watches of %.3g h, one person with \"%s\" hears %s dB(A) on average over 24 h (%s between watches): %s dB(A) as a day of 8 h; %s.",
		p.Hours, p.Watch, w.Predictions[layout].Layout.Name, form.Whole(leq), where, form.Whole(lex), dayAsks())
}

// dayAsks names what the criteria ask of a day of 8 h and of one of 24 h.
func dayAsks() string {
	of8, of24 := Asks()
	return fmt.Sprintf("action and limit values for 8 h are %s, for 24 h %s", of8, of24)
}

// Asks are the limits of a day of 8 h, and of one of 24 h with who asks it.
func Asks() (of8, of24 string) {
	var day, whole []string
	for _, a := range Hearing() {
		day = append(day, fmt.Sprintf("%.0f", a.Limit))
	}
	for _, c := range spectrum.Criteria("exposure") {
		if strings.HasSuffix(c.Unit, "24 h") {
			whole = append(whole, fmt.Sprintf("%.0f (%s)", c.Limit, c.Source))
		}
	}
	return strings.Join(day, ", "), strings.Join(whole, " and ")
}

// offWatch is the quietest cabin of the file, or the seat itself where there is none.
func (w *Comparison) offWatch(layout int) (level float64, name string) {
	level, name = w.Spread.Layouts[layout].Listeners[w.Listener].Level, "at the same seat"
	found := false
	for j, l := range w.Boat.Listeners {
		fit := guidance(l)
		if len(fit) == 0 || fit[0].Name != "cabin" {
			continue
		}
		if v := w.Spread.Layouts[layout].Listeners[j].Level; !found || v < level {
			level, name, found = v, "at "+l.Name, true
		}
	}
	return level, name
}
