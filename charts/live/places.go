package live

import (
	"slices"
	"strconv"
	"strings"

	"hushwake/path/boatfile/controls"
)

// tokens are the parts of a JSON pointer.
func tokens(at string) []string {
	all := strings.Split(strings.TrimPrefix(at, "/"), "/")
	if strings.Contains(at, "~") {
		for i := range all {
			all[i] = strings.ReplaceAll(strings.ReplaceAll(all[i], "~1", "/"), "~0", "~")
		}
	}
	return all
}

// place is the pointer of what a control belongs to: a part of a line, else what encloses it.
func place(c controls.Control) string {
	t := strings.Split(c.At, "/")
	if k := slices.Index(t, "line"); k >= 0 && k+1 < len(t) {
		return strings.Join(t[:k+2], "/")
	}
	return strings.Join(t[:min(3, len(t))], "/")
}

// isPart tells whether a place is that of a part in a line.
func isPart(at string) bool {
	t := strings.Split(at, "/")
	return len(t) > 1 && t[len(t)-2] == "line"
}

// partNumber is the place of a thing in its list from 1; "0" = it stands in none.
func partNumber(at string) string {
	n, err := strconv.Atoi(at[strings.LastIndex(at, "/")+1:])
	if err != nil {
		return "0"
	}
	return strconv.Itoa(n + 1)
}

// lineAt takes a place apart into the line that it is in and the number of the part from 0, "" = it is in none.
func lineAt(at string) (line, part string) {
	line, rest, ok := strings.Cut(at, "/line/")
	if !ok {
		return "", ""
	}
	part, _, _ = strings.Cut(rest, "/")
	return line + "/line", part
}

// lineOf is the engine whose line, or outlet, is at a place.
func lineOf(at string) string {
	t := tokens(at)
	if k := slices.Index(t, "exhausts"); k >= 0 && k+1 < len(t) {
		return t[k+1]
	}
	return "the engine"
}

// lines are the places of the lines of the chosen layout, in the order of the file.
func (v *view) lines() (all []string) {
	for _, c := range v.Controls {
		if line, part := lineAt(c.At); part != "" && c.Layout == v.Layout && !slices.Contains(all, line) {
			all = append(all, line)
		}
	}
	return all
}
