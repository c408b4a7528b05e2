package report

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// meaning says in plain words what a level at a place means: talk, hours, guidance.
func meaning(h *path.Heard, s draws.LevelSpread, u form.Units) string {
	if math.IsNaN(s.Level) {
		return "It can't be judged before its maker has answered."
	}
	if s.Level < 20 {
		return "Nothing of the engine is heard there."
	}
	parts := []string{talk(h.Bands, s.Level, u), hours(s.Level)}
	if c, ok := guidance(h.Listener); ok {
		parts = append(parts, compared(s.Level, c))
	}
	if l := h.Listener.Limit; l != nil {
		switch {
		case s.Level > *l && s.Level < *l+0.5:
			parts = append(parts, fmt.Sprintf("It is less than 1 dB over the limit of %.0f dB(A) in the file.", *l))
		case s.Level > *l:
			parts = append(parts, fmt.Sprintf("It is %.0f dB over the limit of %.0f dB(A) in the file.", s.Level-*l, *l))
		default:
			parts = append(parts, fmt.Sprintf("It keeps the limit of %.0f dB(A) in the file.", *l))
		}
	}
	if len(h.Notes) > 0 {
		parts = append(parts, u.Local(h.Notes[0]))
	}
	return strings.Join(parts, " ")
}

// talk says how far a voice carries at a level in dB(A). Where hearing is at risk no talk is called easy.
func talk(b spectrum.Bands, level float64, u form.Units) string {
	normal, raised := spectrum.TalkDistance(b, spectrum.NormalVoice), spectrum.TalkDistance(b, spectrum.RaisedVoice)
	switch risk := level >= spectrum.LowerActionValue; {
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

// hours says for how long the level is harmless, by the action and limit values of directive 2003/10/EC.
func hours(level float64) string {
	lower := spectrum.HoursTo(spectrum.LowerActionValue, level)
	if lower >= 24 {
		return "All day there keeps below the lower action value for hearing."
	}
	text := fmt.Sprintf("%s a day there %s the lower action value for hearing (80 dB(A) over 8 h)", hoursText(lower), reach(lower))
	if upper := spectrum.HoursTo(spectrum.UpperActionValue, level); upper < 24 {
		text += fmt.Sprintf(", %s the upper (85)", hoursText(upper))
	}
	if limit := spectrum.HoursTo(spectrum.LimitValue, level); limit < 24 {
		text += fmt.Sprintf(", %s the limit value (87)", hoursText(limit))
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

// guidance finds the criterion that fits the listener's place by its name.
func guidance(l path.Listener) (spectrum.Criterion, bool) {
	name := strings.ToLower(l.Name + " " + l.In)
	for _, k := range []struct{ word, criterion string }{
		{"cabin", "cabin"}, {"berth", "cabin"}, {"pillow", "cabin"}, {"bunk", "cabin"},
		{"wheelhouse", "wheelhouse"}, {"helm", "wheelhouse"}, {"wing", "look-out post"},
		{"saloon", "mess room"}, {"galley", "galley"}, {"deck", "open recreation area"}, {"cockpit", "open recreation area"},
		{"next boat", "next boat by day"}, {"quay", "next boat by day"}, {"shore", "shoreline"},
	} {
		if strings.Contains(name, k.word) {
			return spectrum.FindCriterion(k.criterion)
		}
	}
	return spectrum.Criterion{}, false
}

func compared(level float64, c spectrum.Criterion) string {
	than := "within"
	if over := level - c.Limit; over > 0 && over < 0.5 {
		than = "less than 1 dB over"
	} else if over > 0 {
		than = fmt.Sprintf("%.0f dB over", level-c.Limit)
	}
	return fmt.Sprintf("%s the %.0f dB(A) for %s (%s, %s).", sentenceStart(than), c.Limit, article(c.Name), c.Source, c.Standing())
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
	off, where := w.offWatch(layout)
	lex, leq, err := spectrum.Watches{Passage: p.Hours, Watch: p.Watch, Off: p.Watch}.Exposure(on, off)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("On a passage of %.0f h with watches of %.3g h, one person with \"%s\" hears %.0f dB(A) on average over 24 h (%s between watches): %.0f dB(A) as a day of 8 h; the action values are 80 and 85.",
		p.Hours, p.Watch, w.Predictions[layout].Layout.Name, leq, where, lex)
}

// offWatch is the quietest cabin of the file, or the seat itself where there is none.
func (w *Comparison) offWatch(layout int) (level float64, name string) {
	level, name = w.Spread.Layouts[layout].Listeners[w.Listener].Level, "at the same seat"
	found := false
	for j, l := range w.Boat.Listeners {
		c, ok := guidance(l)
		if !ok || c.Name != "cabin" {
			continue
		}
		if v := w.Spread.Layouts[layout].Listeners[j].Level; !found || v < level {
			level, name, found = v, "at "+l.Name, true
		}
	}
	return level, name
}
