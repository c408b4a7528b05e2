package form

import (
	"fmt"
	"strings"

	"hushwake/path/boatfile/spelling"
	"hushwake/source/said"
)

// Unknown is the error for a name that is not in the file, with the nearest one that is.
func Unknown(what, name string, known []string) error {
	hint := "there is none in the file"
	if len(known) > 0 {
		hint = "the file has: " + strings.Join(known, "; ")
	}
	if near := spelling.Nearest(name, known); near != "" {
		hint = "did you mean " + near + "? " + hint
	}
	return fmt.Errorf("no %s named %q\nhint: %s", what, name, hint)
}

// Quote sets a name in the quotes that do not occur in it.
func Quote(name string) string {
	if strings.Contains(name, `"`) {
		return "'" + name + "'"
	}
	return `"` + name + `"`
}

// QuotedList sets layout names in quotes, as they may hold commas.
func QuotedList(names []string, n int) string {
	quoted := make([]string, len(names))
	for i, name := range names {
		quoted[i] = Quote(name)
	}
	return Few(quoted, ", ", n)
}

// Counted is "1 boom" or "3 booms".
func Counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Few joins the first n of a list and counts the rest.
func Few(all []string, joint string, n int) string {
	if len(all) <= n+1 {
		return strings.Join(all, joint)
	}
	return fmt.Sprintf("%s and %d more", strings.Join(all[:n], joint), len(all)-n)
}

// Unique keeps the first of equal texts; empty ones too.
func Unique(texts []string) []string {
	seen := map[string]bool{}
	out := []string{}
	for _, t := range texts {
		if plain := said.Plain(t); !seen[plain] {
			seen[plain] = true
			out = append(out, t)
		}
	}
	return out
}
