package main

import (
	"bytes"
	"errors"
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
				return kept(name)
			}
		} else if !errors.Is(err, fs.ErrNotExist) {
			return failed("%w", err)
		}
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".hushwake-*")
	if err != nil {
		return failed("cannot write %s: %w", name, err)
	}
	forget := onInterrupt(func() { os.Remove(f.Name()) })
	defer func() {
		forget()
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	if err := fill(f, content, 0o644); err != nil {
		return failed("cannot write %s: %w", name, err)
	}
	return place(f.Name(), name, force)
}

func kept(name string) error {
	return failed("%s exists and is kept\nhint: --force replaces it, --output writes elsewhere", name)
}

// fill writes, flushes and closes, so that a full disk shows before the rename.
func fill(f *os.File, content []byte, mode fs.FileMode) error {
	_, err := f.Write(content)
	if err == nil {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// place gives the finished file its name; without force never over another.
func place(temp, name string, force bool) error {
	if !force {
		switch err := os.Link(temp, name); {
		case err == nil:
			os.Remove(temp)
			return nil
		case errors.Is(err, fs.ErrExist):
			return kept(name)
		} // else no hard links here: rename
	}
	if err := os.Rename(temp, name); err != nil {
		return failed("cannot write %s: %w", name, err)
	}
	return nil
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
