package form

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"hushwake/path/boatfile/quantity"
	"hushwake/source/said"
)

// measured is what a sentence tells with a unit: one figure, or several that share it, such as 20 to 40 m/s.
type measured struct {
	figures []string
	joints  []string // between them
	unit    string   // as the models name it
}

// unitsSaid are the units in which models speak: what they measure, and SI = figure x factor + offset.
var unitsSaid = map[string]struct {
	dim            quantity.Dim
	factor, offset float64
}{
	"kPa": {quantity.Pressure, 1e3, 0}, "Pa": {quantity.Pressure, 1, 0},
	"°C": {quantity.Temperature, 1, 273.15}, "C": {quantity.Temperature, 1, 273.15}, "K": {}, // a difference
	"mm": {quantity.Length, 1e-3, 0}, "m": {}, // a way across a boat or to its neighbours
	"m/s": {quantity.Speed, 1, 0}, "m3/s": {quantity.VolumeFlow, 1, 0}, "kg/s": {quantity.MassFlow, 1, 0},
	"kW": {quantity.Power, 1e3, 0}, "W": {quantity.Power, 1, 0}, "cm2": {quantity.Area, 1e-4, 0}, "m2": {quantity.Area, 1, 0},
	"kg": {quantity.Mass, 1, 0}, "kg/m2": {quantity.SurfaceMass, 1, 0}, "kg/m3": {quantity.Density, 1, 0},
}

// figureJoints stand between figures that share a unit.
var figureJoints = []string{"-", " to ", " or ", " of ", " x "}

// Local tells a sentence of the models, which speak SI, in these units: each quantity that is marked in it, and nothing
// else, is printed from its value.
func (u Units) Local(text string) string {
	return said.Each(text, u.tell)
}

// tell tells a marked quantity, with the words that stand in it such as a minus.
func (u Units) tell(text string) string {
	var out strings.Builder
	for at := 0; at < len(text); {
		end, q := readQuantity(text, at)
		if q == nil {
			out.WriteString(text[at:end])
		} else {
			out.WriteString(u.quantity(q, text[at:end]))
		}
		at = end
	}
	return out.String()
}

// readQuantity reads the quantity that begins at a place of a text; nil where there is none, with the end of what
// is passed over: a byte, a whole word or a figure without a unit that is known.
func readQuantity(text string, at int) (end int, q *measured) {
	first := figureEnd(text, at)
	if first == at {
		return wordEnd(text, at), nil
	}
	q = &measured{figures: []string{text[at:first]}}
	end = first
	for {
		if unit := unitAt(text, end); unit != "" {
			q.unit = unit
			return end + 1 + len(unit), q
		}
		joint, next := jointAt(text, end)
		if next == end {
			return first, nil
		}
		q.joints = append(q.joints, joint)
		q.figures = append(q.figures, text[end+len(joint):next])
		end = next
	}
}

// wordEnd is the end of the word, or of the single byte, at a place; the minus of 5e-8 belongs to it.
func wordEnd(text string, at int) int {
	end := at
	for end < len(text) && (isWord(text[end]) || text[end] == '.' || text[end] == '-' && exponent(text[at:end])) {
		end++
	}
	return max(end, at+1)
}

// exponent tells whether a number ends in its e.
func exponent(word string) bool {
	mantissa, ok := strings.CutSuffix(word, "e")
	_, err := strconv.ParseFloat(mantissa, 64)
	return ok && err == nil
}

// figureEnd is the end of the figure that begins at a place; that place itself where none does. A figure with an
// exponent is a word: it is the reference of a level.
func figureEnd(text string, at int) int {
	end := at
	for end < len(text) && (text[end] >= '0' && text[end] <= '9' || text[end] == '.' && end > at) {
		end++
	}
	for end > at && text[end-1] == '.' {
		end--
	}
	if end < len(text) && isWord(text[end]) {
		return at
	}
	return end
}

func isWord(c byte) bool {
	return c >= 0x80 || c == '_' || unicode.IsLetter(rune(c)) || unicode.IsDigit(rune(c))
}

// jointAt finds a joint and the end of the figure behind it.
func jointAt(text string, at int) (string, int) {
	for _, j := range figureJoints {
		if strings.HasPrefix(text[at:], j) {
			if end := figureEnd(text, at+len(j)); end > at+len(j) {
				return j, end
			}
		}
	}
	return "", at
}

// unitAt is the known unit behind a blank; "5 kg of water per kg of gas" has none, nor 4 W/(m K).
func unitAt(text string, at int) string {
	if !strings.HasPrefix(text[at:], " ") {
		return ""
	}
	end := at + 1
	for end < len(text) && (isWord(text[end]) || text[end] == '/') {
		end++
	}
	unit := text[at+1 : end]
	if _, ok := unitsSaid[unit]; !ok || unit == "kg" && strings.HasPrefix(text[end:], " of ") {
		return ""
	}
	return unit
}

// quantity prints figures from their values, the unit once; in metric as they were said, but for a difference of temperature.
func (u Units) quantity(q *measured, metric string) string {
	if u.System == quantity.Metric {
		if difference, ok := strings.CutSuffix(metric, " K"); ok {
			return difference + " °C"
		}
		return metric
	}
	text, unit := "", ""
	for i, f := range q.figures {
		var figure string
		figure, unit = u.figure(f, q.unit)
		if text += figure; i < len(q.joints) && q.joints[i] == "-" && unit == "in" {
			text += " to " // 1-1 1/16 would be misread
		} else if i < len(q.joints) {
			text += q.joints[i]
		}
	}
	return text + " " + unit
}

// figure prints one figure, as finely as it was said, and its unit. Sizes are read off a rule.
func (u Units) figure(said, unit string) (figure, name string) {
	v, _ := strconv.ParseFloat(said, 64) // figureEnd lets only numbers through
	d, text := unitsSaid[unit], ""
	switch unit {
	case "K":
		text = fmt.Sprintf("%.0f °F", v*9/5)
	case "m":
		text = u.Way(v)
	case "mm":
		return onRule(v / 1e3 / inch), "in"
	case "°C", "C":
		text = u.Show(v*d.factor+d.offset, d.dim)
	default:
		text = quantity.FormatTo(v*d.factor+d.offset, d.dim, u.System, max(2, significant(said)))
	}
	figure, name, _ = strings.Cut(text, " ")
	return figure, name
}

// significant are the digits of a figure that tell something: 3 of 450 and of 0.450.
func significant(figure string) int {
	return len(strings.TrimLeft(strings.ReplaceAll(figure, ".", ""), "0"))
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
