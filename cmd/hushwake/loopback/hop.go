package loopback

import (
	"fmt"
	"html"
	"os"
	"path/filepath"
)

// Hop writes a page that leads to an address. It stands beside the boat file, for some browsers are let into nobody's temporary
// folder; where that can't be, there.
func Hop(address, folder string) (string, error) {
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
