// Command live is hushwake inside a page. Built for a browser (GOOS=js GOARCH=wasm) it is the program of a worker, which hands
// messages of the page to a desk. Run on this machine it makes that: the WebAssembly, packed, and Go's own loader for it, put
// into the package beside it, from where a hushwake built with -tags live takes them.
package main

//go:generate go run .
