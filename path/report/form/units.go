package form

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/source/spectrum"
)

// Units are those in which a text or a page speaks.
type Units struct{ System quantity.System }

// Show prints an SI value with its unit.
func (u Units) Show(v float64, d quantity.Dim) string { return quantity.Format(v, d, u.System) }

// Three prints an SI value to three figures of its unit.
func (u Units) Three(v float64, d quantity.Dim) string {
	_, unit, _ := strings.Cut(u.Show(v, d), " ")
	return digits(quantity.Convert(v, d, u.System), 3) + " " + unit
}

// Gauge prints a pressure in a line, Pa, so that those under one another have one number of decimals.
func (u Units) Gauge(pa float64) string {
	if u.System == quantity.Metric {
		return fmt.Sprintf("%.2f kPa", pa/1e3)
	}
	return fmt.Sprintf("%.1f in H₂O", quantity.Convert(pa, quantity.Pressure, u.System))
}

// Draught prints a small pressure, Pa.
func (u Units) Draught(pa float64) string {
	if u.System == quantity.Metric {
		return fmt.Sprintf("%.0f Pa", pa)
	}
	return u.Show(pa, quantity.Pressure)
}

// Warmer prints a difference of temperature, K.
func (u Units) Warmer(kelvin float64) string {
	if u.System == quantity.Metric {
		return fmt.Sprintf("%.0f °C", kelvin)
	}
	return fmt.Sprintf("%.0f °F", kelvin*9/5)
}

// Power prints a power, W, to three figures.
func (u Units) Power(w float64) string {
	if u.System == quantity.Metric {
		return fmt.Sprintf("%.3g kW", w/1e3)
	}
	return u.Show(w, quantity.Power)
}

// btu is a British thermal unit an hour, W (of the International Table; NIST SP 811).
const btu = 1055.05585262 / 3600

// Heat prints a flow of heat, W: the trade writes it in BTU/h where it writes power in hp.
func (u Units) Heat(w float64) string {
	if u.System == quantity.Metric {
		return u.Show(w, quantity.Power)
	}
	step := math.Pow(10, max(0, math.Floor(math.Log10(max(math.Abs(w/btu), 1)))-2)) // three digits
	return fmt.Sprintf("%.0f BTU/h", math.Round(w/btu/step)*step)
}

// Way prints a distance across a boat or to its neighbours, m.
func (u Units) Way(m float64) string {
	if u.System == quantity.Metric {
		return fmt.Sprintf("%.1f m", m)
	}
	return strings.TrimSuffix(strconv.FormatFloat(m/foot, 'f', 1, 64), ".0") + " ft"
}

// Both exact, m.
const foot, inch = 0.3048, 0.0254

// Size prints a dimension of a part, m, as the trade writes it: inches to the nearest sixteenth, or as Show does.
func (u Units) Size(m float64) string {
	if u.System == quantity.Metric {
		return u.Show(m, quantity.Length)
	}
	return Sixteenths(m/inch) + " in"
}

// Sixteenths prints inches to the nearest sixteenth: 2 1/2.
func Sixteenths(inches float64) string {
	n, of := int(math.Round(math.Abs(inches)*16)), 16
	whole, rest := n/of, n%of
	for rest > 0 && rest%2 == 0 {
		rest, of = rest/2, of/2
	}
	var parts []string
	if whole > 0 || rest == 0 {
		parts = append(parts, strconv.Itoa(whole))
	}
	if rest > 0 {
		parts = append(parts, fmt.Sprintf("%d/%d", rest, of))
	}
	text := strings.Join(parts, " ")
	if inches < 0 && n > 0 {
		return "-" + text
	}
	return text
}

// Decibel prints a level for a person; silence in a word.
func Decibel(db float64) string {
	switch {
	case math.IsNaN(db):
		return "?" // not to be judged
	case db < 0:
		return "silent"
	}
	return Whole(db)
}

// Whole prints a level in whole decibels, as everywhere.
func Whole(db float64) string { return fmt.Sprintf("%.0f", spectrum.Whole(db)) }

// BandText is the band of a level. low and high are in dB(A).
func BandText(low, high float64) string {
	if high < 0 {
		return "-"
	}
	return Whole(math.Max(0, low)) + "-" + Whole(high)
}

// LevelText is a level with its band in brackets. All are in dB(A).
func LevelText(db, low, high float64) string {
	return Decibel(db) + " (" + BandText(low, high) + ")"
}

// Signed prints a difference without a minus zero.
func Signed(db float64) string {
	if text := fmt.Sprintf("%+.1f", db); text != "-0.0" && text != "+0.0" {
		return text
	}
	return "0.0"
}

// Sentence begins with a capital letter and ends with a stop.
func Sentence(s string) string {
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

// Reading prints what a reading gave, in its unit.
func (u Units) Reading(v *float64, unit string) string {
	if v == nil {
		return "-"
	}
	switch unit {
	case "Pa":
		return u.Show(*v, quantity.Pressure)
	case "K":
		return u.Show(*v, quantity.Temperature)
	}
	return fmt.Sprintf("%.1f %s", *v, unit)
}
