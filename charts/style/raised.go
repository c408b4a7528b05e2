package style

import (
	"bytes"
	"regexp"
)

// power is a unit of area or volume as the keyboard writes it.
var power = regexp.MustCompile(`(?:\d[ \x{a0}\x{202f}]?|[/(]|\bper |\ba )(?:[ckm]?m|ft|in)[23]\b`)

// inert begins what is no text of the page and whose bytes are vouched for.
var inert = regexp.MustCompile(`<(?:script|style)\b`)

// Raised writes m2, m3/s and their like between the tags of a page with a raised figure.
func Raised(page []byte) (out []byte) {
	for {
		at := inert.FindIndex(page)
		if at == nil {
			return raise(out, page)
		}
		out = raise(out, page[:at[0]])
		end := bytes.Index(page[at[0]:], append([]byte("</"), page[at[0]+1:at[1]]...))
		if end < 0 {
			return append(out, page[at[0]:]...)
		}
		out, page = append(out, page[at[0]:at[0]+end]...), page[at[0]+end:]
	}
}

// raise appends a piece of the page.
func raise(out, piece []byte) []byte {
	from := 0
	for _, at := range power.FindAllIndex(piece, -1) {
		if tag := bytes.LastIndexAny(piece[:at[0]], "<>"); tag >= 0 && piece[tag] == '<' {
			continue // within a tag, as in the outline of a picture
		}
		out = append(out, piece[from:at[1]-1]...)
		out = append(out, map[byte]string{'2': "²", '3': "³"}[piece[at[1]-1]]...)
		from = at[1]
	}
	return append(out, piece[from:]...)
}
