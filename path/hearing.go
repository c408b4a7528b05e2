package path

import (
	"fmt"
	"slices"

	"hushwake/silencer/safety"
	"hushwake/source/spectrum"
)

// For how long a day people stay, h, where no hours are stated: for a watch at the least, for a day that is all under way at the
// most (common practice, no source).
const aWatch, aDay = 4.0, 8.0

// hearing warns where the stated hours at a listener's place reach the action values. Where none are stated it tells how many
// would: as a caution where a day reaches the lower value, as a warning where a watch reaches the upper one.
func hearing(p *Prediction) (out []safety.Finding) {
	lower, upper := actionValue("lower"), actionValue("upper")
	for _, h := range p.Listeners {
		l, level := h.Listener, h.DBA()
		f := safety.Finding{Code: "HEARING", Severity: safety.Caution, Element: l.Name,
			Action: "make it quieter or stay there for less time; ear defenders also hide alarms and signals",
			Source: "2003/10/EC, article 3 (binding at work; guidance on a pleasure boat)"}
		least, most := l.Hours, l.Hours
		if l.Hours <= 0 {
			least, most = aWatch, aDay
		}
		which, value := "lower", lower
		if spectrum.Exposure8h(level, least) >= upper {
			f.Severity, which, value = safety.Warning, "upper", upper
		}
		switch {
		case len(h.Routes) == 0 || spectrum.Exposure8h(level, most) < value:
			continue
		case l.Hours > 0:
			f.Text = fmt.Sprintf("%s: the stated %.3g h a day there are enough for the %s action value for hearing, %.0f dB(A) over 8 h.", l.Name, l.Hours, which, value)
		case !staysAt(l):
			continue
		default:
			f.Text = fmt.Sprintf("%s: no hours are stated for it; %s a day there reach the %s action value for hearing, %.0f dB(A) over 8 h.",
				l.Name, shortTime(spectrum.HoursTo(value, level)), which, value)
			f.Action = "state its hours a day, as hours: 4 h; " + f.Action
		}
		out = append(out, f)
	}
	return out
}

// actionValue is the lower or upper one of a day of 8 h, dB(A), as the table of criteria has it.
func actionValue(which string) float64 {
	all := spectrum.Criteria("exposure")
	return all[slices.IndexFunc(all, func(c spectrum.Criterion) bool { return c.Name == which+" action value" })].Limit
}

// staysAt tells whether people stay at a place of their own boat for hours: not among its engines, nor on another boat or ashore.
func staysAt(l Listener) bool {
	return !l.Probe && !slices.ContainsFunc(spectrum.CriteriaFor(l.Name+" "+l.In), func(c spectrum.Criterion) bool {
		return c.Kind != "place" || c.Name == "machinery space"
	})
}

// shortTime is a time in hours in words, in minutes under two hours and never none.
func shortTime(h float64) string {
	if h < 2 {
		return fmt.Sprintf("%.0f min", max(1, 60*h))
	}
	return fmt.Sprintf("%.1f h", h)
}
