// Package program holds hushwake as WebAssembly with the script of the worker that runs it, for a page that needs no host.
// It is there where `go generate ./cmd/live` made it and the tag live embeds it.
package program

import (
	_ "embed" // the worker's script
	"errors"
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
	Packed []byte // WebAssembly, gzip
}

// Get gives the program.
func Get() (Program, error) {
	if len(packed) == 0 {
		return Program{}, ErrNotBuilt
	}
	return Program{loader + worker, packed}, nil
}
