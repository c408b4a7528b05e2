package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hushwake/path/boatfile"
)

// Units are those in which a text or a page speaks.
type Units struct{ System boatfile.System }

// show prints an SI value with its unit.
func (u Units) show(v float64, d boatfile.Dim) string { return boatfile.Format(v, d, u.System) }

// draught prints a small pressure, Pa.
func (u Units) draught(pa float64) string {
	if u.System == boatfile.Metric {
		return fmt.Sprintf("%.0f Pa", pa)
	}
	return u.show(pa, boatfile.Pressure)
}

// warmer prints a difference of temperature, K.
func (u Units) warmer(kelvin float64) string {
	if u.System == boatfile.Metric {
		return fmt.Sprintf("%.0f °C", kelvin)
	}
	return fmt.Sprintf("%.0f °F", kelvin*9/5)
}

// power prints a power, W, to three figures.
func (u Units) power(w float64) string {
	if u.System == boatfile.Metric {
		return fmt.Sprintf("%.3g kW", w/1e3)
	}
	return u.show(w, boatfile.Power)
}

// way prints a distance across a boat or to its neighbours, m.
func (u Units) way(m float64) string {
	if u.System == boatfile.Metric {
		return fmt.Sprintf("%.1f m", m)
	}
	return strings.TrimSuffix(strconv.FormatFloat(m/foot, 'f', 1, 64), ".0") + " ft"
}

const foot = 0.3048 // m, exact

// decibel prints a level for a person; silence in a word.
func decibel(db float64) string {
	if db < 0 {
		return "silent"
	}
	return fmt.Sprintf("%.0f", db)
}

// bandText is the band of a level.
func bandText(low, high float64) string {
	if high < 0 {
		return "-"
	}
	return fmt.Sprintf("%.0f-%.0f", math.Max(0, low), high)
}

// levelText is a level with its band in brackets.
func levelText(db, low, high float64) string {
	return decibel(db) + " (" + bandText(low, high) + ")"
}

// signed prints a difference without a minus zero.
func signed(db float64) string {
	if text := fmt.Sprintf("%+.1f", db); text != "-0.0" && text != "+0.0" {
		return text
	}
	return "0.0"
}

// sentence begins with a capital letter and ends with a stop.
func sentence(s string) string {
	s = strings.TrimSpace(s)
	if s == "" {
		return ""
	}
	r := []rune(s)
	s = strings.ToUpper(string(r[:1])) + string(r[1:])
	if !strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "!") && !strings.HasSuffix(s, "?") {
		s += "."
	}
	return s
}

// localAll puts the figures of sentences into these units.
func (u Units) localAll(texts []string) []string { return each(texts, u.local) }

// reading prints what a reading gave, in its unit.
func (u Units) reading(v *float64, unit string) string {
	if v == nil {
		return "-"
	}
	switch unit {
	case "Pa":
		return u.show(*v, boatfile.Pressure)
	case "K":
		return u.show(*v, boatfile.Temperature)
	}
	return fmt.Sprintf("%.1f %s", *v, unit)
}
