// Package program holds hushwake as WebAssembly with the script of the worker that runs it, for a page that needs no host.
// It is there where `go generate ./cmd/live` made it and the tag live embeds it.
package program

import (
	_ "embed" // the worker's script
	"errors"
	"strings"
)

// The names of what is made and embedded.
const (
	PackedName = "hushwake.wasm.gz"
	LoaderName = "wasm_exec.js"
)

// errNotBuilt says how to come to a hushwake that holds the program.
var errNotBuilt = errors.New("this hushwake was built without the program that such a page runs\n" +
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
		return Program{}, errNotBuilt
	}
	return Program{loader + worker, letters(packed)}, nil
}

// unfit are the printable letters that are not used: what could end the element that holds them. 91 are left.
const unfit = "<>&"

// letters writes bytes as text, two letters for 13 bits, the first the most significant: a thirteenth shorter than base64.
// In front stands how many bytes too many the last two letters give.
func letters(raw []byte) string {
	var of []byte
	for c := byte('!'); c <= '~'; c++ {
		if !strings.ContainsRune(unfit, rune(c)) {
			of = append(of, c)
		}
	}
	pairs := (8*len(raw) + 12) / 13
	out := append(make([]byte, 0, 2*pairs+1), '0'+byte(13*pairs/8-len(raw)))
	var v uint32
	held, at := 0, 0 // bits in v, bytes taken
	for range pairs {
		for ; held < 13; held += 8 {
			if v <<= 8; at < len(raw) {
				v |= uint32(raw[at])
			}
			at++
		}
		held -= 13
		out = append(out, of[v>>held/91], of[v>>held%91])
		v &= 1<<held - 1
	}
	return string(out)
}
