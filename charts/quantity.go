package charts

import (
	"math"
	"strconv"
	"strings"

	"hushwake/charts/plot"
	"hushwake/path/report/form"
	"hushwake/source/spectrum"
)

// quantity prints one kind of value: shown = value*factor + offset, with a unit and decimals;
// -1 decimals means one where it is not 0; sixteenths are those of an inch.
type quantity struct {
	unit           string
	factor, offset float64
	decimals       int
}

// sixteenths in place of decimals.
const sixteenths = -16

// unitSet is the choice of units in which the page speaks.
type unitSet struct {
	pressure, draught, temperature, rise, length, small, mass, speed, area, flow, power quantity
}

// Factors are exact definitions (inch, pound, foot) or NIST SP 811 (2008), table B.8 (conventional inch of water, 249.0889 Pa).
func unitsOf(imperial bool) unitSet {
	if !imperial {
		return unitSet{
			pressure: quantity{"kPa", 1, 0, 2}, draught: quantity{"Pa", 1, 0, 0},
			temperature: quantity{"°C", 1, 0, 0}, rise: quantity{"°C", 1, 0, 0},
			length: quantity{"m", 1, 0, 2}, small: quantity{"mm", 1, 0, 0}, mass: quantity{"kg", 1, 0, 0},
			speed: quantity{"m/s", 1, 0, 0}, area: quantity{"cm²", 1e4, 0, 0},
			flow: quantity{"m³/s", 1, 0, 3}, power: quantity{"kW", 1, 0, 0},
		}
	}
	const foot, inch, pound, water = 0.3048, 0.0254, 0.45359237, 249.0889
	return unitSet{
		pressure: quantity{"in\u00a0H₂O", 1000 / water, 0, 1}, draught: quantity{"in\u00a0H₂O", 1 / water, 0, 2},
		temperature: quantity{"°F", 1.8, 32, 0}, rise: quantity{"°F", 1.8, 0, 0},
		length: quantity{"ft", 1 / foot, 0, 1}, small: quantity{"in", 0.001 / inch, 0, sixteenths}, mass: quantity{"lb", 1 / pound, 0, 0},
		speed: quantity{"ft/s", 1 / foot, 0, 0}, area: quantity{"in²", 1 / (inch * inch), 0, 0},
		flow: quantity{"cfm", 60 / (foot * foot * foot), 0, 0}, power: quantity{"hp", 1000 / (550 * foot * pound * 9.80665), 0, 0},
	}
}

var (
	decibelA    = quantity{"dB(A)", 1, 0, 1}
	decibel     = quantity{"dB", 1, 0, 1}
	wholeDBA    = quantity{"dB(A)", 1, 0, 0}
	limitDB     = quantity{"dB(A)", 1, 0, -1}
	wholeDB     = quantity{"dB", 1, 0, 0}
	wholeHertz  = quantity{"Hz", 1, 0, 0}
	hertz       = quantity{"Hz", 1, 0, -1}
	revolutions = quantity{"rpm", 1, 0, 0}
	percent     = quantity{"%", 100, 0, 0}
)

// shown is the value in the unit of the page, rounded for a chart; nil stays nil.
func (q quantity) shown(v *float64) *float64 {
	if v == nil {
		return nil
	}
	x := plot.Rounded(*v*q.factor+q.offset, max(q.decimals, 1)+1)
	return &x
}

// bare prints the number without its unit, a dash if there is none.
func (q quantity) bare(v *float64) string {
	if v == nil {
		return "–"
	}
	if q.decimals == sixteenths {
		return form.Sixteenths(*v * q.factor)
	}
	x := *v*q.factor + q.offset
	switch level := strings.HasPrefix(q.unit, "dB"); {
	case level && q.decimals == 0:
		x = spectrum.Whole(x)
	case level && q.decimals == 1:
		x = spectrum.Tenth(x)
	}
	return grouped(x, q.decimals)
}

// text prints number and unit.
func (q quantity) text(v *float64) string {
	if v == nil {
		return "not known"
	}
	return q.bare(v) + "\u00a0" + q.unit
}

// span prints "75.1 to 81.4"; "–" when either end is missing.
func (q quantity) span(low, high *float64) string {
	if low == nil || high == nil {
		return "–"
	}
	return q.bare(low) + " to " + q.bare(high)
}

// grouped prints with a true minus sign and thin spaces between thousands.
func grouped(x float64, decimals int) string {
	if decimals < 0 {
		x, decimals = plot.Rounded(x, -decimals), -1
	}
	s := strconv.FormatFloat(math.Abs(x), 'f', decimals, 64)
	whole, frac, _ := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "\u202f" + whole[i:]
	}
	if frac != "" {
		whole += "." + frac
	}
	if x < 0 && strings.ContainsAny(s, "123456789") {
		return "−" + whole
	}
	return whole
}
