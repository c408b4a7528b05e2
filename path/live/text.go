package live

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
)

// What of the past is kept for undo.
const (
	maxPast      = 500
	maxPastBytes = 16 << 20
	maxText      = 1 << 20 // of a boat file
)

// stampOf tells a text by its bytes.
func stampOf(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// version is a text with its stamp. Places keep their meaning between texts of one shape.
type version struct {
	text  []byte
	stamp string
	shape int
}

// history is a text with those before it and those taken back.
type history struct {
	is           version
	past, future []version
	shapes       int
}

// put makes a text the present one; moved tells whether places may have moved by it. Equal bytes change nothing.
func (h *history) put(text []byte, moved bool) bool {
	if bytes.Equal(text, h.is.text) {
		return false
	}
	v := version{text, stampOf(text), h.is.shape}
	if moved {
		h.shapes++
		v.shape = h.shapes
	}
	h.past, h.future, h.is = append(h.past, h.is), nil, v
	bytes := 0
	for i := len(h.past) - 1; i >= 0; i-- {
		if bytes += len(h.past[i].text); bytes > maxPastBytes || len(h.past)-i > maxPast {
			h.past = append([]version(nil), h.past[i+1:]...)
			break
		}
	}
	return true
}

// step goes one text back or forth.
func step(from, to *[]version, is *version) bool {
	last := len(*from) - 1
	if last < 0 {
		return false
	}
	*to, *is, *from = append(*to, *is), (*from)[last], (*from)[:last]
	return true
}

// fits tells whether places that were meant for a text of a stamp mean the same in the present one.
func (h *history) fits(stamp string) bool {
	if stamp == "" || stamp == h.is.stamp {
		return true
	}
	for _, all := range [][]version{h.past, h.future} {
		for _, v := range all {
			if v.stamp == stamp && v.shape == h.is.shape {
				return true
			}
		}
	}
	return false
}
