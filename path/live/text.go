package live

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"strings"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/edit"
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

// edited is the text after a change, and whether places may have moved by it.
func edited(text []byte, m Message) (out []byte, moved bool, err error) {
	if (m.Op == "set" || m.Op == "unknown") && isLayoutName(m.At) {
		out, err = renamed(text, m.At, m.To)
		return out, false, err
	}
	switch m.Op {
	case "set":
		out, err = edit.Set(text, m.At, m.To)
		return out, strings.ContainsAny(strings.TrimSpace(m.To), "[{\n"), err
	case "unknown":
		out, err = edit.Unknown(text, m.At)
		return out, false, err
	case "add":
		out, err = edit.Add(text, m.At, m.To)
		return out, false, err
	case "insert":
		out, err = edit.Insert(text, m.At, m.To)
	case "remove":
		out, err = edit.Remove(text, m.At)
	case "copy-layout":
		out, err = edit.CopyLayout(text, m.Layout, m.To)
		return out, false, err
	case "replace-text":
		if out = []byte(m.To); len(out) > maxText {
			err = errors.New("the text is longer than a boat file may be, 1 MB\nhint: is this the right file?")
		}
	}
	return out, true, err
}

// maxSlips is how many things wrong with a text are told.
const maxSlips = 40

// slipsOf are what is wrong with a text, each at its control.
func slipsOf(text []byte, err error) (out []Slip) {
	var problems *decode.Errors
	if !errors.As(err, &problems) {
		return []Slip{slipAt("", err)}
	}
	for i, p := range problems.Problems {
		if i == maxSlips {
			break
		}
		s := Slip{Line: p.Line, Column: p.Column, Message: p.Message, Hint: p.Hint}
		if p.Line > 0 && len(text) <= maxText {
			s.At = edit.Pointer(text, p.Line, p.Column)
		}
		out = append(out, s)
	}
	return out
}

// slipAt is an error at a place.
func slipAt(at string, err error) Slip {
	message, hint, _ := strings.Cut(err.Error(), "\nhint: ")
	return Slip{At: at, Message: message, Hint: hint}
}
