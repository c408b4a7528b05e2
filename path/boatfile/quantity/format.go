package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hushwake/source/said"
)

// System is the family of units that results are printed in.
type System int

// Systems of units.
const (
	Metric System = iota
	Imperial
)

// ParseSystem reads the value of --units.
func ParseSystem(s string) (System, error) {
	switch strings.ToLower(s) {
	case "metric", "":
		return Metric, nil
	case "imperial":
		return Imperial, nil
	}
	return Metric, fmt.Errorf("unknown system of units %q\nhint: metric or imperial", s)
}

// printed is how a kind of quantity is shown: shown = (value - offset) / factor.
type printed struct {
	name    string
	factor  float64
	offset  float64
	decimal int
}

var printedMetric = map[Dim]printed{
	Length: {"mm", 1e-3, 0, 1}, Area: {"m2", 1, 0, 3}, Volume: {"L", Litre, 0, 2}, Speed: {"m/s", 1, 0, 1}, Power: {"kW", 1e3, 0, 2},
	RotationalSpeed: {"rpm", 1, 0, 0}, Pressure: {"kPa", 1e3, 0, 2}, MassFlow: {"kg/s", 1, 0, 4}, VolumeFlow: {"m3/s", 1, 0, 4},
	Temperature: {"°C", 1, 273.15, 0}, Mass: {"kg", 1, 0, 1}, SurfaceMass: {"kg/m2", 1, 0, 2}, Density: {"kg/m3", 1, 0, 3},
	Level: {"dB", 1, 0, 1}, LevelA: {"dB(A)", 1, 0, 1}, LevelC: {"dB(C)", 1, 0, 1}, Duration: {"h", 1, 0, 2}, Frequency: {"Hz", 1, 0, 1},
	Angle: {"deg", Degree, 0, 1}, Fraction: {"%", 0.01, 0, 2}, Consumption: {"g/kWh", 1e-3 / 3.6e6, 0, 1},
	FlowResistivity: {"Pa.s/m2", 1, 0, 0}, CrossSection: {"L/m", Litre, 0, 2}, PerVolume: {"/L", 1 / Litre, 0, 3}, Number: {"", 1, 0, 3}, Stiffness: {"N/mm", 1e3, 0, 1},
}

var printedImperial = map[Dim]printed{
	Length: {"in", inch, 0, 2}, Area: {"ft2", foot * foot, 0, 2}, Volume: {"US gal", gallonUS, 0, 2}, Speed: {"ft/s", foot, 0, 1}, Power: {"hp", hp, 0, 1},
	Pressure: {"in H₂O", inchWater, 0, 1}, MassFlow: {"lb/min", pound / 60, 0, 2}, VolumeFlow: {"cfm", foot * foot * foot / 60, 0, 0},
	Temperature: {"°F", 5.0 / 9, 459.67 * 5 / 9, 0}, Mass: {"lb", pound, 0, 1}, SurfaceMass: {"lb/ft2", pound / (foot * foot), 0, 2},
	Density: {"lb/ft3", pound / (foot * foot * foot), 0, 4}, CrossSection: {"US gal/ft", gallonUS / foot, 0, 3}, PerVolume: {"/US gal", 1 / gallonUS, 0, 3},
	Consumption: {"lb/hph", pound / (hp * 3600), 0, 3},
}

func printedAs(d Dim, s System) printed {
	if p, ok := printedImperial[d]; ok && s == Imperial {
		return p
	}
	return printedMetric[d]
}

// Convert turns an SI value (rpm, h as they are) into the number that is printed.
func Convert(value float64, d Dim, s System) float64 {
	p := printedAs(d, s)
	return (value - p.offset) / p.factor
}

// Format prints an SI value with its unit, rounded as a person would write it.
func Format(value float64, d Dim, s System) string { return FormatTo(value, d, s, 99) }

// FormatTo is Format with no more decimals than so many significant digits take.
func FormatTo(value float64, d Dim, s System, digits int) string {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return "none"
	}
	p := printedAs(d, s)
	name := p.name
	shown := Convert(value, d, s)
	if d == Length && s == Metric && math.Abs(value) >= 1 {
		shown, name, p.decimal = value, "m", 3
	}
	if d == Area && s == Imperial && math.Abs(value) < foot*foot {
		shown, name, p.decimal = value/(inch*inch), "in2", 1
	}
	places := decimals(shown, p.decimal)
	if shown != 0 {
		places = min(places, max(0, digits-1-int(math.Floor(math.Log10(math.Abs(shown))))))
	}
	text := trimZeros(strconv.FormatFloat(shown, 'f', places, 64))
	if name == "" {
		return text
	}
	return text + " " + name
}

// decimals keeps at least two significant digits of small values.
func decimals(v float64, usual int) int {
	a := math.Abs(v)
	if a == 0 || a >= math.Pow(10, float64(1-usual)) {
		return usual
	}
	return min(usual+4, 1-int(math.Floor(math.Log10(a))))
}

func trimZeros(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// Said is a value as a model tells it: in metric units, to be told in others by whoever prints it.
func Said(v float64, d Dim) string {
	text := Format(v, d, Metric)
	figure, unit, ok := strings.Cut(text, " ")
	if !ok {
		return text
	}
	if unit != "m" {
		v = Convert(v, d, Metric)
	}
	return said.Quantity(figure, v, unit)
}
