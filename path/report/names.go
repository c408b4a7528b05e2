package report

import (
	"fmt"
	"strings"

	"hushwake/path/boatfile"
)

// Unknown is the error for a name that is not in the file, with the nearest one that is.
func Unknown(what, name string, known []string) error {
	hint := "there is none in the file"
	if len(known) > 0 {
		hint = "the file has: " + strings.Join(known, "; ")
	}
	if near := boatfile.Nearest(name, known); near != "" {
		hint = "did you mean " + near + "? " + hint
	}
	return fmt.Errorf("no %s named %q\nhint: %s", what, name, hint)
}

// quote sets a name in the quotes that do not occur in it.
func quote(name string) string {
	if strings.Contains(name, `"`) {
		return "'" + name + "'"
	}
	return `"` + name + `"`
}

// quotedList sets layout names in quotes, as they may hold commas.
func quotedList(names []string, n int) string {
	quoted := make([]string, len(names))
	for i, name := range names {
		quoted[i] = quote(name)
	}
	return few(quoted, ", ", n)
}

// few joins the first n of a list and counts the rest.
func few(all []string, joint string, n int) string {
	if len(all) <= n+1 {
		return strings.Join(all, joint)
	}
	return fmt.Sprintf("%s and %d more", strings.Join(all[:n], joint), len(all)-n)
}

// unique keeps the first of equal texts; empty ones too.
func unique(texts []string) []string {
	seen := map[string]bool{}
	out := []string{}
	for _, t := range texts {
		if !seen[t] {
			seen[t] = true
			out = append(out, t)
		}
	}
	return out
}
