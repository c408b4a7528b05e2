//go:build !js

package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"hushwake/cmd/live/program"
)

// main builds the program and puts it, with its loader, where it is embedded from; it runs in its own folder.
func main() {
	log.SetFlags(0)
	if err := build("program"); err != nil {
		log.Fatal(err)
	}
}

// build writes the packed program and Go's loader, licence on top, into a folder.
func build(into string) error {
	raw := filepath.Join(into, "hushwake.wasm")
	defer os.Remove(raw)
	c := exec.Command("go", append(append([]string{"build", "-trimpath", "-ldflags", "-s -w", "-o", raw}, inlining()...), ".")...)
	c.Env, c.Stderr = append(os.Environ(), "GOOS=js", "GOARCH=wasm"), os.Stderr
	if err := c.Run(); err != nil {
		return fmt.Errorf("building the WebAssembly: %w", err)
	}
	wasm, err := os.ReadFile(raw)
	if err != nil {
		return err
	}
	packed, err := pack(wasm)
	if err != nil {
		return err
	}
	loader, err := loader()
	if err != nil {
		return err
	}
	fmt.Printf("WebAssembly: %.2f MB, packed %.2f MB\n", float64(len(wasm))/1e6, float64(len(packed))/1e6)
	if err := os.WriteFile(filepath.Join(into, program.PackedName), packed, 0o644); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(into, program.LoaderName), loader, 0o644)
}

// hot are the packages whose inner loops figures take their time in. Elsewhere nothing is inlined: packed, the program is an
// eighth smaller so, and the page stays under 5 MB.
var hot = []string{"runtime", "math", "math/cmplx", "math/rand/v2", "hushwake/source/spectrum", "hushwake/silencer/fourpole", "hushwake/silencer/chambers",
	"hushwake/path/study/draws", "hushwake/path/study/draws/variates", "hushwake/source/vector", "gonum.org/v1/gonum/floats", "gonum.org/v1/gonum/internal/asm/f64"}

func inlining() []string {
	flags := []string{"-gcflags=all=-l"}
	for _, p := range hot {
		flags = append(flags, "-gcflags="+p+"=")
	}
	return flags
}

// pack compresses as small as gzip goes; the same bytes give the same bytes.
func pack(raw []byte) ([]byte, error) {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(raw); err != nil {
		return nil, err
	}
	err = w.Close()
	return out.Bytes(), err
}

// loader is the script that comes with the Go that built the program, under its licence.
func loader() ([]byte, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, fmt.Errorf("asking for GOROOT: %w", err)
	}
	at := strings.TrimSpace(string(root))
	script, err := os.ReadFile(filepath.Join(at, "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return nil, err
	}
	licence, err := os.ReadFile(filepath.Join(at, "LICENSE"))
	if err != nil {
		return nil, err
	}
	return fmt.Appendf(nil, "/*\n%s*/\n%s", licence, script), nil
}
