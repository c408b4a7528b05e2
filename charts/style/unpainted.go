package style

import "strings"

// Unpainted is a picture without what it would be painted with if its page had no style sheet for it: fill and stroke of
// six hexadecimal digits.
func Unpainted(svg string) string {
	const sign, colour = `="#`, len(`="#000000"`)
	var out strings.Builder
	out.Grow(len(svg))
	for {
		at := strings.Index(svg, sign)
		if at < 0 {
			out.WriteString(svg)
			return out.String()
		}
		before, painted := strings.CutSuffix(svg[:at], " fill")
		if !painted {
			before, painted = strings.CutSuffix(svg[:at], " stroke")
		}
		if end := at + colour; painted && end <= len(svg) && svg[end-1] == '"' && strings.Trim(svg[at+len(sign):end-1], "0123456789abcdef") == "" {
			out.WriteString(before)
			svg = svg[end:]
			continue
		}
		out.WriteString(svg[:at+len(sign)])
		svg = svg[at+len(sign):]
	}
}
