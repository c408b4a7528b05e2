// Package edit changes the text of a boat file at a place and keeps every other byte: comments, order, quotes, line ends.
//
// A place is a JSON pointer (RFC 6901) into the YAML, lists by index: /layouts/1/exhausts/main/line/0/pipe/bore. The text is
// the truth; nothing is written anew that does not change. A value to write is YAML itself: `1500 rpm`, `{bore: 4 in}`, `unknown`;
// Quote makes one of any text.
package edit

import "errors"

var errLater = errors.New("not yet")

// Get is the value at a place as it is written, quotes and all, comments off; false where nothing stands there.
func Get(text []byte, at string) (value string, ok bool) { return "", false }

// Plain is the text that a YAML value stands for: quotes and escapes off.
func Plain(value string) string { return value }

// Quote writes any text as one YAML value on one line, in quotes only where it needs them.
func Quote(text string) string { return text }

// Set puts one YAML value at a place; a missing key and missing parents are added.
func Set(text []byte, at, to string) ([]byte, error) { return nil, errLater }

// Unknown says that the value at a place is not known.
func Unknown(text []byte, at string) ([]byte, error) { return Set(text, at, "unknown") }

// Add appends an item to the list at a place, and makes the list where it is missing or unknown.
func Add(text []byte, at, item string) ([]byte, error) { return nil, errLater }

// Insert puts an item before the list item at a place.
func Insert(text []byte, at, item string) ([]byte, error) { return nil, errLater }

// Remove takes the entry at a place out, with its key.
func Remove(text []byte, at string) ([]byte, error) { return nil, errLater }

// CopyLayout appends a copy of the layout of one name under another.
func CopyLayout(text []byte, from, as string) ([]byte, error) { return nil, errLater }

// Pointer is the place of what stands at a line and column (from 1, in characters): the nearest that encloses it.
func Pointer(text []byte, line, column int) string { return "" }

// Position is the line and column (from 1, in characters) at which the value at a place begins.
func Position(text []byte, at string) (line, column int, ok bool) { return 0, 0, false }

// Change says what became of a line.
type Change int

// What becomes of a line.
const (
	Kept Change = iota
	Out
	In
)

// Line is one line of a difference; Was and Is are its numbers in both texts from 1, 0 where it isn't in one.
type Line struct {
	Change  Change
	Was, Is int
	Text    string
}

// Diff is what changed between two texts, line by line.
func Diff(was, is []byte) []Line { return nil }
