//go:build js && wasm

package main

import (
	"runtime/debug"
	"syscall/js"

	"hushwake/charts/live"
)

// main gives the worker one function: hushwake(name, text) begins with a boat file and gives the function that answers messages.
func main() {
	debug.SetGCPercent(400) // a few ten megabytes: time is dearer here
	js.Global().Set("hushwake", js.FuncOf(func(_ js.Value, args []js.Value) any {
		desk, err := live.NewDesk(args[0].String(), []byte(args[1].String()))
		if err != nil {
			return err.Error()
		}
		return js.FuncOf(func(_ js.Value, args []js.Value) any { return string(desk.Handle([]byte(args[0].String()))) })
	}))
	select {}
}
