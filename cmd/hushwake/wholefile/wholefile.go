// Package wholefile writes files that are there whole or not at all: filled under another name, then given their own.
package wholefile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"hushwake/path/report/form"
)

// Kept says that a file that is there was left as it is.
func Kept(name string) error {
	return failed("%s exists and is kept\nhint: --force replaces it, --output writes elsewhere", name)
}

// Fill writes, flushes and closes, so that a full disk shows before the rename.
func Fill(f *os.File, content []byte, mode fs.FileMode) error {
	_, err := f.Write(content)
	if err == nil {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// Place gives the finished file its name; without force never over another.
func Place(temp, name string, force bool) error {
	if !force {
		switch err := os.Link(temp, name); {
		case err == nil:
			os.Remove(temp)
			return nil
		case errors.Is(err, fs.ErrExist):
			return Kept(name)
		} // else no hard links here: rename
	}
	if err := os.Rename(temp, name); err != nil {
		return failed("cannot write %s: %w", name, err)
	}
	return nil
}

func failed(format string, args ...any) error {
	return &form.Failure{Err: fmt.Errorf(format, args...)}
}
