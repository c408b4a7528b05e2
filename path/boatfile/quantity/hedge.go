package quantity

import (
	"fmt"
	"regexp"
	"strings"

	"hushwake/path/boatfile/spelling"
)

// Doubt of what is stated as "about": a tenth of the figure, 2 dB of a level; judgement. tenths is how far the 10th
// and the 90th percentile of a normal distribution lie from its middle, in standard deviations.
const (
	aboutShare = 0.1
	aboutDB    = 2.0
	tenths     = 1.2816
)

// hedgeWords are what people write before or behind a figure; longer ones first.
var hedgeWords = []struct {
	word string
	says Hedge
}{
	{"not more than", AtMost}, {"no more than", AtMost}, {"not over", AtMost}, {"less than", AtMost}, {"or less", AtMost}, {"at most", AtMost}, {"up to", AtMost}, {"below", AtMost}, {"under", AtMost},
	{"maximum", AtMost}, {"max.", AtMost}, {"max", AtMost}, {"<=", AtMost}, {"=<", AtMost}, {"≤", AtMost}, {"<", AtMost},
	{"not less than", AtLeast}, {"more than", AtLeast}, {"or more", AtLeast}, {"at least", AtLeast}, {"above", AtLeast}, {"over", AtLeast}, {"minimum", AtLeast}, {"min.", AtLeast}, {">=", AtLeast}, {"=>", AtLeast}, {"≥", AtLeast}, {">", AtLeast},
	{"approximately", About}, {"approx.", About}, {"approx", About}, {"around", About}, {"circa", About}, {"about", About}, {"roughly", About}, {"ca.", About}, {"ca", About}, {"~", About}, {"≈", About},
}

// hedged takes the word off a figure that says how it is meant.
func Hedged(s string) (figure string, says Hedge) {
	low := strings.ToLower(s)
	for _, h := range hedgeWords {
		front, behind := strings.HasPrefix(low, h.word), strings.HasSuffix(low, " "+h.word)
		switch {
		case front && (len(low) == len(h.word) || !letter(h.word[len(h.word)-1]) || !letter(low[len(h.word)])):
			return strings.TrimSpace(s[len(h.word):]), h.says
		case behind:
			return strings.TrimSpace(s[:len(s)-len(h.word)]), h.says
		}
	}
	return s, Exactly
}

func letter(c byte) bool { return c >= 'a' && c <= 'z' }

// span is "3 to 5 kPa", "3 kPa to 5 kPa", "3-5 kPa", "25..35 dB" and "between 3 and 5 kPa".
var span = regexp.MustCompile(`(?i)^(?:between |from )?\s*([-+−]?[\d.,]+[^\d–…]*?)\s*(?:to|and|–|\.\.\.?|…|-)\s*([-+−]?[\d.]+.*)$`)

// plusMinus is "78 dBA ± 2" and "3 kPa +/- 0.5 kPa".
var plusMinus = regexp.MustCompile(`^([-−]?[\d.]+)\s*(.*?)\s*(?:±|\+/-|\+-)\s*([\d.]+)\s*(.*)$`)

// asSpan writes a figure with its plus and minus as a span, which it is read as.
func asSpan(s string) string {
	m := plusMinus.FindStringSubmatch(s)
	if m == nil || m[2] != "" && m[4] != "" && m[2] != m[4] {
		return s
	}
	value, _, err := LeadingNumber(m[1])
	by, _, bad := LeadingNumber(m[3])
	if err != nil || bad != nil {
		return s
	}
	return fmt.Sprintf("%g to %g %s", value-by, value+by, m[2]+strings.TrimPrefix(m[4], m[2]))
}

// statedSpan reads a span; its first figure may leave the unit to the second. ok is false where it is none.
func statedSpan(s string, dims []Dim) (q Quantity, ok bool, err error) {
	m := span.FindStringSubmatch(asSpan(s))
	if m == nil {
		return q, false, nil
	}
	high, err := parseFigure(m[2], dims...)
	if err != nil {
		return q, false, nil
	}
	low, err := parseFigure(m[1], dims...)
	if _, rest, bare := LeadingNumber(strings.TrimSpace(m[1])); bare == nil && strings.TrimSpace(rest) == "" && high.Unit != "" {
		low, err = parseFigure(m[1]+" "+high.Unit, dims...)
	}
	switch {
	case err != nil:
		return q, true, err
	case low.Dim != high.Dim:
		return q, true, Bad("", "%q mixes %s and %s", spelling.Clip(s), low.Dim.Phrase(), high.Dim.Phrase())
	case low.Value > high.Value:
		return q, true, Bad(fmt.Sprintf("write %s to %s", high.Text, low.Text), "%q is a span from the larger to the smaller", spelling.Clip(s))
	}
	q = high
	q.Value, q.Low, q.High, q.Says, q.PlusMinus = (low.Value+high.Value)/2, low.Value, high.Value, Between, asSpan(s) != s
	return q, true, nil
}

// SD is the standard deviation that a stated doubt stands for, in the unit of Value; 0 for one figure and for a bound.
func (q Quantity) SD() float64 {
	if q.Says != About && q.Says != Between {
		return 0
	}
	return (q.High - q.Low) / 2 / tenths
}

// firstFigure is a figure without the word that says how it is meant.
func FirstFigure(s string) string {
	figure, _ := Hedged(s)
	return figure
}
