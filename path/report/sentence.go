package report

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"hushwake/path/boatfile"
)

// spoken is a figure, or a range of figures, with its unit in a sentence.
var spoken = regexp.MustCompile(`(\d+(?:\.\d+)?)(?:-(\d+(?:\.\d+)?))? (kPa|°C|C|K|mm|m/s|m3/s|kW|W|cm2|m2|m|kg)\b`)

// spokenUnits are the units of sentences: what they measure, and SI = figure x factor + offset.
var spokenUnits = map[string]struct {
	dim            boatfile.Dim
	factor, offset float64
}{
	"kPa": {boatfile.Pressure, 1e3, 0}, "°C": {boatfile.Temperature, 1, 273.15}, "C": {boatfile.Temperature, 1, 273.15},
	"mm": {boatfile.Length, 1e-3, 0}, "m": {boatfile.Length, 1, 0}, "m/s": {boatfile.Speed, 1, 0}, "m3/s": {boatfile.VolumeFlow, 1, 0},
	"kW": {boatfile.Power, 1e3, 0}, "W": {boatfile.Power, 1, 0}, "cm2": {boatfile.Area, 1e-4, 0}, "m2": {boatfile.Area, 1, 0}, "kg": {boatfile.Mass, 1, 0},
}

// local puts the figures of a sentence into the units asked for; the models speak in SI.
func (u Units) local(text string) string {
	if u.System == boatfile.Metric {
		return text
	}
	return spoken.ReplaceAllStringFunc(text, func(s string) string {
		m := spoken.FindStringSubmatch(s)
		high := u.localFigure(m[1], m[3])
		if m[2] == "" {
			return high
		}
		low, _, _ := strings.Cut(high, " ")
		return low + "-" + u.localFigure(m[2], m[3])
	})
}

func (u Units) localFigure(figure, unit string) string {
	v, err := strconv.ParseFloat(figure, 64)
	if err != nil {
		return figure + " " + unit
	}
	if unit == "K" { // a difference
		return fmt.Sprintf("%.0f °F", v*9/5)
	}
	if unit == "m" { // ways across a boat and to its neighbours
		return strings.TrimSuffix(strconv.FormatFloat(v/0.3048, 'f', 1, 64), ".0") + " ft"
	}
	d := spokenUnits[unit]
	return u.show(v*d.factor+d.offset, d.dim)
}
