package main

import (
	"bytes"
	"errors"
	"hushwake/cmd/hushwake/wholefile"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// writeFile writes a file atomically: the whole content under another name first, then renamed.
// An existing file is kept unless force is set or it is empty.
func writeFile(name string, content []byte, force bool) (err error) {
	if !force {
		if i, err := os.Lstat(name); err == nil {
			if force = i.Mode().IsRegular() && i.Size() == 0; !force {
				return wholefile.Kept(name)
			}
		} else if !errors.Is(err, fs.ErrNotExist) {
			return failed("%w", err)
		}
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".hushwake-*")
	if err != nil {
		return unwritable(name, err)
	}
	forget := onInterrupt(func() { os.Remove(f.Name()) })
	defer func() {
		forget()
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	if err := wholefile.Fill(f, content, 0o644); err != nil {
		return failed("cannot write %s: %w", name, err)
	}
	return wholefile.Place(f.Name(), name, force)
}

// unwritable says why no file can be begun beside a name, without that of the one that was tried.
func unwritable(name string, err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err
	}
	hint := "may files be written in " + filepath.Dir(name) + "?"
	if errors.Is(err, fs.ErrNotExist) {
		hint = "make the folder " + filepath.Dir(name) + " first"
	}
	return failed("cannot write %s: %w\nhint: %s", name, err, hint)
}

// writePage draws a page into a file and says so.
func (c *common) writePage(name string, force bool, draw func(io.Writer) error) error {
	var page bytes.Buffer
	if err := draw(&page); err != nil {
		return failed("%w", err)
	}
	if err := writeFile(name, page.Bytes(), force); err != nil {
		return err
	}
	c.remark("wrote %s", name)
	return nil
}
