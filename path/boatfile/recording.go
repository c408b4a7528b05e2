package boatfile

import (
	"path/filepath"
	"strings"

	"hushwake/path"
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
func (r *reader) recording(o *object, m *path.Reading) *path.Recorded {
	n := o.get("recording")
	if n == nil {
		return nil
	}
	name := r.textOf(n, o.path+" recording")
	switch {
	case name == "":
		return nil
	case m.Bands != nil || m.Mount != nil || o.has("back_pressure") || o.has("temperature"):
		r.wrong(n, "make two readings of it", "%s: a recording has its bands in it, and holds no value but a level that a meter showed beside it", o.path)
		return nil
	case m.Listener == "" && m.Space == "":
		r.warn(n, "%s: a recording without a place is not used: add listener: helm, or space: engine room", o.path)
		return nil
	case m.Strike:
		return &path.Recorded{File: name}
	}
	at := filepath.FromSlash(name)
	if !filepath.IsAbs(at) {
		at = filepath.Join(r.folder, at)
	}
	l, err := recording.Measure(at)
	if err != nil {
		message, hint, _ := strings.Cut(err.Error(), "\nhint: ")
		r.wrong(n, hint, "%s: recording %s: %s", o.path, name, message)
		return nil
	}
	for _, w := range l.Warnings {
		r.warn(n, "%s: recording %s: %s", o.path, name, w)
	}
	return &path.Recorded{File: name, Bands: l.Bands, A: l.A, C: l.C, Clipped: l.Clipped}
}
