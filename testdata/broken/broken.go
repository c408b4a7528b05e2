// Package broken reads what is to be said of the broken files beside it.
package broken

import (
	"regexp"
	"strings"
)

// Want is what a .want file, or a line of it, expects of a text; "…" there stands for what a table may hold beside.
func Want(text string) *regexp.Regexp {
	return regexp.MustCompile(strings.ReplaceAll(regexp.QuoteMeta(text), "…", ".*"))
}
