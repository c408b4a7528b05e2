//go:build !js

package audio

import (
	"errors"
	"fmt"
	"os"
)

// Open opens a file of sound. A pipe or device is refused: it could be waited for without end.
func Open(name string) (*File, error) {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, plain(err)
	case !info.Mode().IsRegular():
		return nil, errors.New("not a file of sound")
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, plain(err)
	}
	s, err := New(f)
	if err != nil {
		f.Close()
		return nil, err
	}
	return &File{s, info.Size(), info.ModTime(), f}, nil
}

// plain is an error of the system without the name, which the caller says.
func plain(err error) error {
	if p := (*os.PathError)(nil); errors.As(err, &p) {
		err = p.Err
	}
	if errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("%w\nhint: give the path of a WAV or FLAC file", os.ErrNotExist)
	}
	return err
}
