package form

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"hushwake/path/boatfile"
)

// Visible shows a text of the models in metric, and what a name may hide: controls, overrides of the writing direction, marks of no width and bytes that are no
// text, each as the escape that JSON has for it. Line ends and tabs stay.
func Visible(s string) string {
	s = Units{}.Local(s)
	if strings.IndexFunc(s, hidden) < 0 && utf8.ValidString(s) {
		return s
	}
	var out strings.Builder
	for _, r := range s {
		switch {
		case !hidden(r):
			out.WriteRune(r) // a byte that is no text comes as U+FFFD
		case r > 0xffff:
			high, low := utf16.EncodeRune(r)
			fmt.Fprintf(&out, `\u%04x\u%04x`, high, low)
		default:
			fmt.Fprintf(&out, `\u%04x`, r)
		}
	}
	return out.String()
}

// hidden tells what acts on a terminal or a line of text without being seen in it.
func hidden(r rune) bool {
	return r != '\n' && r != '\t' && unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Other_Default_Ignorable_Code_Point)
}

// Name is a name on one line: line ends and tabs in it are shown too.
func Name(s string) string {
	return strings.NewReplacer("\n", `\n`, "\t", `\t`).Replace(Visible(s))
}

// Shell quotes an argument where a shell would take it apart.
func Shell(s string) string {
	const plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_@%+=:,./-"
	if s != "" && strings.Trim(s, plain) == "" {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
}

// File is a boat file as a command line names it.
func File(name string) string {
	if name == boatfile.StandardInput {
		return boatfile.Dash
	}
	return Shell(name)
}
