package style

import (
	"bytes"
	"regexp"
)

// power is a unit of area or volume as the keyboard writes it, up to its figure.
var power = regexp.MustCompile(`(?:\d[ \x{a0}\x{202f}]?|[/(]|\bper |\ba )(?:[ckm]?m|ft|in)[23]$`)

// Raised writes m2, m3/s and their like between the tags of a page with a raised figure.
func Raised(page []byte) []byte {
	out := make([]byte, 0, len(page)+len(page)/64)
	for {
		at, name := inert(page)
		if at < 0 {
			return raise(out, page)
		}
		out = raise(out, page[:at])
		end := bytes.Index(page[at:], []byte("</"+name))
		if end < 0 {
			return append(out, page[at:]...)
		}
		out, page = append(out, page[at:at+end]...), page[at+end:]
	}
}

// inert is where what is no text of the page begins, whose bytes are vouched for, and its name; -1 = nowhere.
func inert(page []byte) (at int, name string) {
	for from := 0; ; from += 2 {
		next := bytes.Index(page[from:], []byte("<s"))
		if next < 0 {
			return -1, ""
		}
		from += next
		for _, name := range []string{"script", "style"} {
			if rest, ok := bytes.CutPrefix(page[from+1:], []byte(name)); ok && !wordAt(rest, 0) {
				return from, name
			}
		}
	}
}

// wordAt tells whether a letter, digit or underscore stands at a place.
func wordAt(b []byte, i int) bool {
	return i < len(b) && (b[i] == '_' || '0' <= b[i] && b[i] <= '9' || 'a' <= b[i]|0x20 && b[i]|0x20 <= 'z')
}

// longest is how many bytes before the figure of a unit tell whether it is one.
const longest = 12

// raise appends a piece of the page.
func raise(out, piece []byte) []byte {
	from := 0
	for i := 1; i < len(piece); i++ {
		if c, of := piece[i], piece[i-1]; c != '2' && c != '3' || of != 'm' && of != 't' && of != 'n' || wordAt(piece, i+1) {
			continue
		}
		at := power.FindIndex(piece[max(from, i-longest) : i+1])
		if at == nil {
			continue
		}
		if tag := bytes.LastIndexAny(piece[:i], "<>"); tag >= 0 && piece[tag] == '<' {
			continue // within a tag, as in the outline of a picture
		}
		out = append(append(out, piece[from:i]...), map[byte]string{'2': "²", '3': "³"}[piece[i]]...)
		from = i + 1
	}
	return append(out, piece[from:]...)
}
