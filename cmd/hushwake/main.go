// Command hushwake predicts what an engine exhaust on a boat sounds like at helm and cabin, layout
// by layout, beside what each layout costs in back pressure, heat, space and price.
package main

import "os"

func main() {
	os.Exit(run(os.Args[1:], streams{in: os.Stdin, out: os.Stdout, err: os.Stderr}))
}
