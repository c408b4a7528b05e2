package form

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/source/said"
)

// unitsSaid are the units in which models speak: what they measure, and SI = figure x factor + offset.
var unitsSaid = map[string]struct {
	dim            quantity.Dim
	factor, offset float64
}{
	"kPa": {quantity.Pressure, 1e3, 0}, "Pa": {quantity.Pressure, 1, 0},
	"°C": {quantity.Temperature, 1, 273.15}, "K": {}, // a difference
	"mm": {quantity.Length, 1e-3, 0}, "m": {}, // a way across a boat or to its neighbours
	"m/s": {quantity.Speed, 1, 0}, "m3/s": {quantity.VolumeFlow, 1, 0}, "kg/s": {quantity.MassFlow, 1, 0},
	"kW": {quantity.Power, 1e3, 0}, "W": {}, "kW of heat": {}, "cm2": {quantity.Area, 1e-4, 0}, "m2": {quantity.Area, 1, 0},
	"L": {quantity.Volume, 1e-3, 0}, "litres": {quantity.Volume, 1e-3, 0}, "kg": {quantity.Mass, 1, 0}, "kg/m2": {quantity.SurfaceMass, 1, 0}, "kg/m3": {quantity.Density, 1, 0},
	"g/kWh": {quantity.Consumption, 1 / 3.6e9, 0}, "L/h": {}, "mm/s": {}, "MPa": {}, // of fuel, of feet, of rubber
}

// Local tells a sentence of the models, which speak SI, in these units: each quantity that is marked in it, and nothing
// else, is printed from its value.
func (u Units) Local(text string) string { return said.Each(text, u.tell) }

// tell prints the figures of a quantity from their values, the unit once; in metric as they were said, but for a difference of
// temperature.
func (u Units) tell(q said.Amount) string {
	unit := strings.TrimPrefix(q.Words[len(q.Values)], " ")
	if u.System == quantity.Metric {
		if difference, ok := strings.CutSuffix(q.Shown, " K"); ok {
			return difference + " °C"
		}
		return q.Shown
	}
	if _, known := unitsSaid[unit]; !known {
		return q.Shown
	}
	text, last, name := "", "", ""
	for i, v := range q.Values {
		joint, figure := q.Words[i], ""
		figure, name = u.figure(v, unit)
		if joint == "-" && figure == last {
			continue // a range that is one figure in these units
		}
		if joint == "-" && name == "in" {
			joint = " to " // 1-1 1/16 would be misread
		}
		text, last = text+joint+figure, figure
	}
	return text + " " + name
}

// figure prints one figure to three digits, and its unit. Sizes are read off a rule.
func (u Units) figure(v float64, unit string) (figure, name string) {
	d, text := unitsSaid[unit], ""
	switch unit {
	case "K":
		text = fmt.Sprintf("%.0f °F", v*9/5)
	case "m":
		text = u.Way(v)
	case "W":
		text = u.Heat(v)
	case "kW of heat":
		figure, name, _ = strings.Cut(u.Heat(1e3*v), " ")
		return figure, name + " of heat"
	case "mm":
		return onRule(v / 1e3 / inch), "in"
	case "L/h":
		text = digits(v/3.785411784, 3) + " US gph" // exact, as the others
	case "mm/s":
		text = digits(v/1e3/inch, 2) + " in/s"
	case "MPa":
		text = digits(v/psi, 2) + " psi"
	case "°C":
		text = u.Show(v*d.factor+d.offset, d.dim)
	default:
		text = quantity.FormatTo(v*d.factor+d.offset, d.dim, u.System, 3)
	}
	figure, name, _ = strings.Cut(text, " ")
	return figure, name
}

// psi is a pound on a square inch, MPa (NIST SP 811).
const psi = 6.894757e-3

// digits are so many of a figure.
func digits(v float64, n int) string {
	shown, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', n, 64), 64) // what was just printed
	return strconv.FormatFloat(shown, 'f', -1, 64)
}

// OnRule prints a size to cut or to fit in, m, as the trade reads it off a rule, or as Show does.
func (u Units) OnRule(m float64) string {
	if u.System == quantity.Metric {
		return u.Show(m, quantity.Length)
	}
	return onRule(m/inch) + " in"
}

// onRule is a size in inches as the trade reads it off a rule (common practice, no source): to an eighth from six inches
// on, to a sixteenth below, and where that is coarse, as for sheet, in decimals.
func onRule(inches float64) string {
	switch {
	case inches >= 6:
		return Sixteenths(math.Round(inches*8) / 8)
	case inches >= 0.5:
		return Sixteenths(inches)
	}
	text, _, _ := strings.Cut(quantity.Format(inches*inch, quantity.Length, quantity.Imperial), " ")
	return text
}

// LocalAll puts the figures of sentences into these units.
func (u Units) LocalAll(texts []string) []string { return Each(texts, u.Local) }
