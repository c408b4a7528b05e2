package study

import (
	"fmt"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// Hearing says in plain sentences what a level means to the person at a listener: talking, how long
// it is harmless, whether it keeps the limit, and whether it rumbles. probabilityOver is that of
// being over the limit; nil = not known.
func Hearing(h path.Heard, probabilityOver *float64) []string {
	level := h.DBA()
	out := []string{talking(h.Bands), harmless(level, h.Listener.Hours)}
	if h.Listener.Limit != nil {
		out = append(out, keeps(level, *h.Listener.Limit, probabilityOver))
	}
	if rumble := h.Bands.DBC() - level; rumble > 15 {
		out = append(out, fmt.Sprintf("The C-weighted level stands %.0f dB over the A-weighted one: a low rumble or boom, felt more than heard, that lining and mat hardly touch.", rumble))
	}
	return out
}

func talking(b spectrum.Bands) string {
	psil := spectrum.PSIL(b)
	normal, raised := spectrum.TalkDistance(psil, spectrum.NormalVoice), spectrum.TalkDistance(psil, spectrum.RaisedVoice)
	switch {
	case normal > 7.3:
		return "Talk in a normal voice carries right across the space (over 7 m)."
	case normal >= 1:
		return fmt.Sprintf("Talk in a normal voice carries %.1f m, in a raised voice %.1f m.", normal, raised)
	case raised >= 0.3:
		return fmt.Sprintf("Talk takes a raised voice at %.1f m; in a normal voice one must come within %.1f m.", raised, normal)
	}
	return "Talk takes a very loud voice even close by; calls, alarms and signals may be missed."
}

// harmless goes by the lower and upper action values of directive 2003/10/EC: law at work, guidance on
// a pleasure boat.
func harmless(level, hours float64) string {
	if hours > 0 {
		lex := spectrum.Exposure8h(level, hours)
		head := fmt.Sprintf("Over %.3g h a day it counts as %.0f dB(A) for eight hours: ", hours, lex)
		switch {
		case lex < spectrum.LowerActionValue:
			return head + fmt.Sprintf("under the %.0f at which protection of hearing begins.", spectrum.LowerActionValue)
		case lex < spectrum.UpperActionValue:
			return head + fmt.Sprintf("over %.0f, so ear defenders should lie at hand.", spectrum.LowerActionValue)
		case lex < spectrum.LimitValue:
			return head + fmt.Sprintf("over %.0f, so ear defenders must be worn at work; they hide alarms.", spectrum.UpperActionValue)
		}
		return head + fmt.Sprintf("over the limit of %.0f at work; it damages hearing in the long run.", spectrum.LimitValue)
	}
	t := spectrum.HoursTo(spectrum.LowerActionValue, level)
	if t >= 24 {
		return "It is no danger to hearing, however long it lasts."
	}
	return fmt.Sprintf("It is harmless to hearing for about %s a day.", duration(t))
}

func duration(h float64) string {
	if h < 1 {
		return fmt.Sprintf("%.0f minutes", 60*h)
	}
	return fmt.Sprintf("%.1f hours", h)
}

func keeps(level, limit float64, p *float64) string {
	text := fmt.Sprintf("It keeps the limit of %.0f dB(A) with %.1f dB in hand", limit, limit-level)
	if level > limit {
		text = fmt.Sprintf("It breaks the limit of %.0f dB(A) by %.1f dB", limit, level-limit)
	}
	if p != nil {
		text += fmt.Sprintf("; the chance of being over it is %.0f %%", 100**p)
	}
	return text + "."
}
