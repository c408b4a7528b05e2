// Command hushwake predicts what an engine exhaust on a boat sounds like at helm and cabin, layout
// by layout, beside what each layout costs in back pressure, heat, space and price.
package main

import (
	"os"
	"runtime/debug"
)

// collectAt is how far the heap grows between two collections, %: a run is short and small.
const collectAt = 400

func main() {
	debug.SetGCPercent(collectAt)
	os.Exit(run(os.Args[1:], streams{in: os.Stdin, out: os.Stdout, err: os.Stderr}))
}
