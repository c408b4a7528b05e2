package main

import (
	"fmt"
	"html"
	"os"
	"os/exec"
	"path/filepath"
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
	name, err := hop(address, folder)
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

// hop writes a page that leads to an address. It stands beside the boat file, for some browsers are let into nobody's temporary
// folder; where that can't be, there.
func hop(address, folder string) (string, error) {
	f, err := os.CreateTemp(folder, "hushwake-open-*.html") // for its owner alone, as all such files
	if err != nil {
		f, err = os.CreateTemp("", "hushwake-open-*.html")
	}
	if err != nil {
		return "", err
	}
	to := html.EscapeString(address)
	_, err = fmt.Fprintf(f, `<!DOCTYPE html><meta charset="utf-8"><meta name="referrer" content="no-referrer"><meta http-equiv="refresh" content="0;url=%s"><title>hushwake</title><a href="%s">to the page</a>`, to, to)
	if err == nil {
		err = f.Close()
	}
	if err != nil {
		os.Remove(f.Name())
		return "", err
	}
	return filepath.Abs(f.Name())
}
