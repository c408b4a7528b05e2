package live

import (
	"errors"
	"strings"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/edit"
)

// Slip is something wrong, with the place that it is about.
type Slip struct {
	At      string `json:"at"` // JSON pointer; "" = the whole
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
	Hint    string `json:"hint"`
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
