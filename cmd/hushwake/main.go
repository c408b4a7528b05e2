// Command hushwake predicts what an engine exhaust on a boat sounds like at helm and cabin, layout
// by layout, beside what each layout costs in back pressure, heat, space and price.
package main

import (
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
)

// collectAt is how far the heap grows between two collections, %: a run is short and small.
const collectAt = 400

func main() {
	debug.SetGCPercent(collectAt)
	signal.Ignore(syscall.SIGPIPE) // a reader that has seen enough ends neither a file that is being written nor the count of limits
	os.Exit(run(os.Args[1:], streams{in: os.Stdin, out: os.Stdout, err: os.Stderr, kept: intoFile(os.Stdout), columns: columns(os.Stdout, os.Getenv("COLUMNS")),
		plain: plain(os.Getenv("LC_ALL"), os.Getenv("LC_CTYPE"), os.Getenv("LANG"))}))
}
