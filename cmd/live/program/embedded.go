//go:build live

package program

import _ "embed"

//go:embed hushwake.wasm.gz
var packed []byte

//go:embed wasm_exec.js
var loader string
