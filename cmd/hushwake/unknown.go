package main

import (
	"strings"

	"hushwake/path/boatfile"
)

// unknown is the error for a name that is not in the file, with the nearest one that is.
func unknown(what, name string, known []string) error {
	hint := "there is none in the file"
	if len(known) > 0 {
		hint = "the file has: " + strings.Join(known, "; ")
	}
	if near := boatfile.Nearest(name, known); near != "" {
		hint = "did you mean " + near + "? " + hint
	}
	return badInput("no %s named %q\nhint: %s", what, name, hint)
}
