package style

import (
	"regexp"
	"strings"
)

// Parts splits dotted names of the boat file where a narrow column may break them.
func Parts(s string) []string {
	var out []string
	for {
		at := joint.FindStringIndex(s)
		if at == nil {
			return append(out, s)
		}
		out, s = append(out, s[:at[0]+2]), s[at[0]+2:]
	}
}

// Over stands behind a level that is over its limit.
const Over = " over"

// Figure is such a level alone, so that figures stand under figures; empty for all else.
func Figure(s string) string {
	if figure, ok := strings.CutSuffix(s, Over); ok {
		return figure
	}
	return ""
}

// joint is a dot or underscore between letters.
var joint = regexp.MustCompile(`[a-z][._][a-z]`)
