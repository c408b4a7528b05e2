package loopback

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"
	"unicode"

	"hushwake/cmd/hushwake/wholefile"
	"hushwake/path/report/form"
)

// NewName is what a boat file without a name is called until it has one.
const NewName = "boat.yaml"

// File is the one file that a host writes.
type File struct {
	name  string // "" until it has one
	given bool   // on the command line: no other is written
	saved []byte // what stood in it when it was last read or written here
}

// Of is a file that holds a text, or with no name one that is not there yet.
func Of(name string, text []byte) *File { return &File{name: name, given: name != "", saved: text} }

// Saved is what stands in it, as last read or written here.
func (f *File) Saved() []byte { return f.saved }

// Folder is where the file stands, or will.
func (f *File) Folder() string {
	if f.name == "" {
		return "."
	}
	return filepath.Dir(f.name)
}

// save writes a text in place; a file without a name gets one in the working directory. What others wrote meanwhile, or what
// stands under a new name, gives way only if told.
func (f *File) save(text []byte, name string, force bool) error {
	target := f.name
	if name != "" && filepath.Ext(name) == "" {
		name += ".yaml"
	}
	if !f.given && (f.name == "" || name != "" && name != f.name) {
		if !plainName(name) {
			return &refusal{http.StatusUnprocessableEntity, fmt.Sprintf("%q is no name for a file in this folder", name), "give one such as " + NewName, nil, nil}
		}
		target = name
	} else if f.given && name != "" {
		return &refusal{http.StatusForbidden, "no other file than " + form.Name(f.name) + " is written", "", nil, nil}
	}
	known := f.saved
	if target != f.name {
		known = nil
	}
	if err := write(target, known, text, force); err != nil {
		return err
	}
	f.name, f.saved = target, append([]byte{}, text...)
	return nil
}

// longestName leaves room for the ends of a backup and of a rescue file in the 255 bytes that folders commonly take for a name.
const longestName = 200

// unseen are characters that make a name look other than it is: controls and those of direction and line. Joiners belong to words.
func unseen(r rune) bool {
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) && r != '\u200c' && r != '\u200d'
}

// plainName says whether a name is one of a boat file right in a folder.
func plainName(name string) bool {
	end := strings.ToLower(filepath.Ext(name))
	return filepath.IsLocal(name) && filepath.Base(name) == name && len(name) <= longestName && name[0] != '.' && !strings.ContainsAny(name, `/\:`) && !strings.ContainsFunc(name, unseen) &&
		(end == ".yaml" || end == ".yml")
}

// write puts a text where another is known to stand, which goes to NAME~; nil is known of a file that should not be there.
func write(name string, known, text []byte, force bool) error {
	target := name
	if known != nil { // a link stays one; what it leads to is written
		if real, err := filepath.EvalSymlinks(name); err == nil {
			target = real
		}
	}
	info, err := os.Lstat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return putFile(target, text, 0o644, false)
	case err != nil:
		return err
	case known == nil && !info.Mode().IsRegular() && info.Mode()&fs.ModeSymlink == 0, known != nil && !info.Mode().IsRegular():
		return fmt.Errorf("%s is no file", form.Name(name))
	}
	there, err := os.ReadFile(target)
	if err != nil {
		return err
	}
	if !force && (known == nil || !bytes.Equal(there, known)) {
		return conflict(name, text, there, known == nil)
	}
	mode := info.Mode().Perm()
	if info.Mode().IsRegular() && mode&0o200 == 0 && !force {
		return &refusal{http.StatusConflict, form.Name(name) + " is write-protected", "write over it if you mean to", nil, nil}
	}
	if !info.Mode().IsRegular() {
		mode = 0o644
	}
	if bytes.Equal(there, text) {
		return nil
	}
	if err := putFile(target+"~", there, mode, true); err != nil {
		return fmt.Errorf("no backup, so nothing was written: %w", err)
	}
	return putFile(target, text, mode, true)
}

// conflict carries both versions.
func conflict(name string, text, there []byte, fresh bool) error {
	yours, disk := string(text), string(there)
	name = form.Name(filepath.Base(name))
	r := &refusal{http.StatusConflict, name + " was changed by another program since it was read here", "write over it: what is there goes to " + name + "~; or end the program: what you changed goes into a rescue file", &yours, &disk}
	if fresh {
		r.Message, r.Hint = name+" exists", "choose another name, or write over it: what is there goes to "+name+"~"
	}
	return r
}

// putFile writes a whole file under another name first, then gives it its own; at no moment is there half a file.
func putFile(name string, text []byte, mode fs.FileMode, over bool) error {
	tidy(filepath.Dir(name))
	f, err := os.CreateTemp(filepath.Dir(name), begun+"*")
	if err != nil {
		return err
	}
	if err = wholefile.Fill(f, text, mode); err == nil {
		err = wholefile.Place(f.Name(), name, over)
	}
	if err != nil {
		os.Remove(f.Name())
		return err
	}
	if dir, err := os.Open(filepath.Dir(name)); err == nil && runtime.GOOS != "windows" {
		dir.Sync() // the new name too outlives a power cut; where folders can't be flushed nothing can be done
		dir.Close()
	}
	return nil
}

// begun is how files begin that are being written.
const begun = ".hushwake-"

// tidy takes away what saves that were killed left in a folder: files of a name that only they have, a minute old or more.
func tidy(folder string) {
	all, _ := os.ReadDir(folder)
	for _, e := range all {
		number, ours := strings.CutPrefix(e.Name(), begun)
		if info, err := e.Info(); ours && err == nil && info.Mode().IsRegular() && time.Since(info.ModTime()) > time.Minute && number != "" && strings.Trim(number, "0123456789") == "" {
			os.Remove(filepath.Join(folder, e.Name()))
		}
	}
}

// rescue keeps a text that was not saved beside the file, for its owner alone, never over another; it says where.
func (f *File) rescue(text []byte) (string, error) {
	if bytes.Equal(text, f.saved) {
		return "", nil
	}
	for i := 1; i < 100; i++ {
		rescue := f.RescueName(i)
		out, err := os.OpenFile(rescue, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err == nil && wholefile.Fill(out, text, 0o600) == nil {
			return rescue, nil
		}
		break
	}
	out, err := os.CreateTemp("", "hushwake-rescue-*.yaml") // no room beside the file
	if err != nil {
		return "", err
	}
	return out.Name(), wholefile.Fill(out, text, 0o600)
}

// RescueName is what the i-th rescue file of a boat file is called.
func (f *File) RescueName(i int) string {
	name, end := f.name, ".rescue"
	if name == "" {
		name = NewName
	}
	if i > 1 {
		end = fmt.Sprintf(".rescue-%d", i)
	}
	kind := filepath.Ext(name)
	return strings.TrimSuffix(name, kind) + end + kind
}
