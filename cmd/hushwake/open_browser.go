package main

import (
	"hushwake/cmd/hushwake/loopback"
	"os"
	"os/exec"
	"runtime"
	"sync"
)

// opener is the command by which an operating system shows a file in the user's browser.
func opener(system string) []string {
	switch system {
	case "darwin":
		return []string{"open"}
	case "windows":
		return []string{"rundll32", "url.dll,FileProtocolHandler"}
	}
	return []string{"xdg-open"}
}

// browse shows an address in the browser. All users of a machine can read the command lines of all others, so the address, which
// holds the token, goes through a file for its owner alone; forget takes it away. That no browser comes is only a remark.
func (c *common) browse(address, folder string) (forget func()) {
	name, err := loopback.Hop(address, folder)
	if err != nil {
		c.remark("no browser was started: %v", err)
		return func() {}
	}
	command := append(opener(runtime.GOOS), name)
	go func() {
		if err := exec.Command(command[0], command[1:]...).Run(); err != nil {
			c.remark("no browser was started (%v); open the address yourself", err)
		}
	}()
	return sync.OnceFunc(func() { os.Remove(name) })
}
