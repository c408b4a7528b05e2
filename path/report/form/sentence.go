package form

import (
	"fmt"
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
	"kW": {quantity.Power, 1e3, 0}, "W": {quantity.Power, 1, 0}, "cm2": {quantity.Area, 1e-4, 0}, "m2": {quantity.Area, 1, 0},
	"kg": {quantity.Mass, 1, 0}, "kg/m2": {quantity.SurfaceMass, 1, 0}, "kg/m3": {quantity.Density, 1, 0},
}

// Local tells a sentence of the models, which speak SI, in these units: each quantity that is marked in it, and nothing
// else, is printed from its value.
func (u Units) Local(text string) string { return said.Each(text, u.tell) }

// tell prints the figures of a quantity from their values, the unit once; in metric as they were said, but for a difference of
// temperature.
func (u Units) tell(q said.Told) string {
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
	text, last := "", ""
	for i, v := range q.Values {
		figure, name, _ := strings.Cut(u.figure(v, unit), " ")
		if joint := q.Words[i]; joint != "-" || figure != last {
			text += joint + figure // else a range that is one figure in these units
		}
		if last = figure; i+1 == len(q.Values) {
			text += " " + name
		}
	}
	return text
}

func (u Units) figure(v float64, unit string) string {
	switch unit {
	case "K":
		return fmt.Sprintf("%.0f °F", v*9/5)
	case "m":
		return u.Way(v)
	}
	d := unitsSaid[unit]
	return u.Show(v*d.factor+d.offset, d.dim)
}
