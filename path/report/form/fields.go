package form

import (
	"regexp"
	"strings"
)

var (
	section  = regexp.MustCompile(`^(engines|partitions|spaces|layouts|listeners|enclosures|passages)\.`)
	numbered = regexp.MustCompile(`(^|\.)(\w+?)s\[(\d+)\]`) // openings[2]
	within   = regexp.MustCompile(`\.(faces\.)?(\S)`)       // no full stop of a name
	written  = strings.NewReplacer("build_up", "build-up", "air_fuel", "air-fuel", "plus_minus", "plus or minus", "_", " ")
)

// FieldWords says in words what a field of the boat file is of: "awning: open area" of "partitions.awning open_area".
func FieldWords(field string) string {
	of, key, ok := strings.Cut(field, " ")
	if i := strings.LastIndex(field, " "); ok && strings.ContainsRune(field[i:], '_') {
		of, key = field[:i], field[i+1:] // names hold spaces, keys none
	} else if ok {
		of, key = field, ""
	}
	of = numbered.ReplaceAllString(section.ReplaceAllString(of, ""), "$1$2 $3")
	of = within.ReplaceAllString(of, ", $2")
	if key == "" {
		return written.Replace(of)
	}
	return written.Replace(of) + ": " + written.Replace(key)
}
