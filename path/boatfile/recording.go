package boatfile

import (
	"path/filepath"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/recording"
)

// besideSD is the error of a sound level meter held beside a recorder where none is stated, dB (judgement).
const besideSD = 2.0

// folderOf is the folder of a file, from which recordings are named.
func folderOf(name string) string {
	if name == StandardInput {
		return "."
	}
	return filepath.Dir(name)
}

// recording reads what a file of sound shows. One that is struck need not be there.
func (r *reader) recording(o *decode.Object, m *path.Reading) *path.Recorded {
	n := o.Get("recording")
	if n == nil {
		return nil
	}
	name := r.TextOf(n, o.Path+" recording")
	switch {
	case name == "":
		return nil
	case m.Bands != nil || m.Mount != nil || o.Has("back_pressure") || o.Has("temperature"):
		r.Wrong(n, "make two readings of it", "%s: a recording has its bands in it, and holds no value but a level that a meter showed beside it", o.Path)
		return nil
	case m.Listener == "" && m.Space == "":
		r.Warn(n, "%s: a recording without a place is not used: add listener: helm, or space: engine room", o.Path)
		return nil
	case m.Strike:
		return &path.Recorded{File: name}
	}
	at := filepath.FromSlash(name)
	if !filepath.IsAbs(at) {
		at = filepath.Join(r.Folder, at)
	}
	l, err := recording.Measure(at)
	if err != nil {
		message, hint, _ := strings.Cut(err.Error(), "\nhint: ")
		r.Wrong(n, hint, "%s: recording %s: %s", o.Path, name, message)
		return nil
	}
	for _, w := range l.Warnings {
		r.Warn(n, "%s: recording %s: %s", o.Path, name, w)
	}
	return &path.Recorded{File: name, Bands: l.Bands, A: l.A, C: l.C, Clipped: l.Clipped}
}
