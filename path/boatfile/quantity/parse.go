package quantity

import (
	"math"
	"strings"

	"hushwake/path/boatfile/spelling"
)

// Parse reads a number with a unit of one of the given kinds, as people write it: "102 mm",
// "1 5/8 in", "5 ft 3 in", "5 in sch 40", "24 inH2O", "380 °C". The kinds are tried in order.
func Parse(text string, dims ...Dim) (Quantity, error) {
	q, err := parseFigure(text, dims...)
	if err != nil {
		if s, bad := ParseStated(text, dims...); bad == nil && s.Says != Exactly {
			return q, Bad("write "+Format(s.Value, s.Dim, Metric)+" if that is what is to be reckoned with, or unknown",
				"%q is no single figure; only what is promised or measured may be a bound or a span", spelling.Clip(s.Text))
		}
	}
	return q, err
}

// ParseStated reads a quantity as it is promised or measured: "< 40 mbar", "≤ 82 dBA", "about 3 kPa", "3 to 5 kPa",
// "30 dB or more". Value is the bound, the figure itself, or the middle of a span; Low and High are where the value
// then lies in eight cases of ten (a bound has one of them, the other is infinite), so that no doubt is lost.
func ParseStated(text string, dims ...Dim) (Quantity, error) {
	s := strings.TrimSpace(text)
	figure, says := Hedged(s)
	q, err := parseFigure(figure, dims...)
	q.Says, q.Low, q.High = says, q.Value, q.Value
	if err != nil {
		if wide, ok, bad := statedSpan(figure, dims); ok {
			q, err = wide, bad
		}
	}
	if q.Text = s; err != nil {
		return q, err
	}
	switch q.Says {
	case AtMost:
		q.Low = math.Inf(-1)
	case AtLeast:
		q.High = math.Inf(1)
	case About:
		d := tenths * aboutShare * math.Abs(q.Value)
		if q.Dim == Level || q.Dim == LevelA || q.Dim == LevelC {
			d = tenths * aboutDB
		}
		q.Low, q.High = q.Value-d, q.Value+d
	}
	return q, nil
}
