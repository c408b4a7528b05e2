package main

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"hushwake/path/recording/audio"
	"hushwake/path/report"
	"hushwake/path/report/listen"
)

// readMe tells what each sound is.
const readMe = "read-me.txt"

// writeSounds writes every layout at every place as sound into a folder, and what each is. Nothing is written where any
// file stands in the way, unless that is forced.
func (o *compareOptions) writeSounds(w *report.Comparison) error {
	if o.soundDir == "" {
		return nil
	}
	s, err := listen.ForFiles(w)
	if err != nil {
		return failed("%w", err)
	}
	if err := o.roomFor(s); err != nil {
		return err
	}
	if err := os.MkdirAll(o.soundDir, 0o755); err != nil {
		return failed("cannot make %s: %w", o.soundDir, err)
	}
	for _, c := range s.Clips {
		var wav bytes.Buffer
		if err := audio.Write(&wav, audio.Format{Rate: s.Rate, Channels: 1, Bits: 24}, c.Samples); err != nil {
			return failed("%s: %w", c.File, err)
		}
		if err := writeFile(filepath.Join(o.soundDir, c.File), wav.Bytes(), o.force); err != nil {
			return err
		}
	}
	if err := writeFile(filepath.Join(o.soundDir, readMe), []byte(s.Text(w)), o.force); err != nil {
		return err
	}
	o.remark("wrote %d sounds and %s", len(s.Clips), filepath.Join(o.soundDir, readMe))
	return nil
}

// roomFor tells whether a file of the sounds' names is there already.
func (o *compareOptions) roomFor(s *listen.Sounds) error {
	if o.force {
		return nil
	}
	names := []string{readMe}
	for _, c := range s.Clips {
		names = append(names, c.File)
	}
	for _, n := range names {
		n = filepath.Join(o.soundDir, n)
		if _, err := os.Lstat(n); err == nil {
			return failed("%s exists and is kept\nhint: --force replaces it; another folder keeps both", n)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return failed("%w", err)
		}
	}
	return nil
}
