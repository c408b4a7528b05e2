// Package program holds hushwake as WebAssembly with the script of the worker that runs it, for a page that needs no host.
// It is there where `go generate ./cmd/live` made it and the tag live embeds it.
package program

import (
	_ "embed" // the worker's script
	"encoding/binary"
	"errors"
	"strings"
)

// The names of what is made and embedded.
const (
	PackedName = "hushwake.wasm.gz"
	LoaderName = "wasm_exec.js"
)

// ErrNotBuilt says how to come to a hushwake that holds the program.
var ErrNotBuilt = errors.New("this hushwake was built without the program that such a page runs\n" +
	"hint: go generate ./cmd/live && go build -tags live -o hushwake ./cmd/hushwake")

//go:embed worker.js
var worker string

// Program is what a page needs to run hushwake.
type Program struct {
	Worker string // script
	Packed string // WebAssembly, gzip, in letters that the worker reads
}

// Get gives the program.
func Get() (Program, error) {
	if len(packed) == 0 {
		return Program{}, ErrNotBuilt
	}
	return Program{loader + worker, letters(packed)}, nil
}

// unfit are the printable letters that are not used: what a page or a script could take for something else. 85 are left.
const unfit = "<>&\"'`\\$%"

// letters writes bytes as text, five letters for four bytes, the first the most significant: a sixteenth shorter than base64.
// In front stands how many bytes were added to make whole fours.
func letters(raw []byte) string {
	var of []byte
	for c := byte('!'); c <= '~'; c++ {
		if !strings.ContainsRune(unfit, rune(c)) {
			of = append(of, c)
		}
	}
	more := (4 - len(raw)%4) % 4
	raw = append(raw[:len(raw):len(raw)], make([]byte, more)...)
	out := append(make([]byte, 0, len(raw)/4*5+1), '0'+byte(more))
	for ; len(raw) > 0; raw = raw[4:] {
		v := binary.BigEndian.Uint32(raw)
		var five [5]byte
		for i := 4; i >= 0; i-- {
			five[i], v = of[v%85], v/85
		}
		out = append(out, five[:]...)
	}
	return string(out)
}
