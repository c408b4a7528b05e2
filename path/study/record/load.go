package record

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sort"

	"hushwake/path/boatfile"
	"hushwake/path/boatfile/decode"
	"hushwake/testdata"
)

// BuiltIn is the record that the program carries: every file of testdata/measured.
func BuiltIn() ([]*boatfile.Case, error) {
	names, err := fs.Glob(testdata.Proof, "measured/*.yaml")
	if err != nil {
		return nil, err
	}
	return load(names, testdata.Proof.ReadFile)
}

// Load reads cases of an owner's own; a folder stands for every .yaml and .yml in it.
func Load(names ...string) ([]*boatfile.Case, error) {
	var files []string
	for _, name := range names {
		info, err := os.Stat(name)
		if err != nil {
			return nil, fmt.Errorf("%w\nhint: give files or folders of measured cases", err)
		}
		if !info.IsDir() {
			files = append(files, name)
			continue
		}
		found, err := filepath.Glob(filepath.Join(name, "*.y*ml"))
		if err != nil {
			return nil, err
		}
		if len(found) == 0 {
			return nil, fmt.Errorf("no .yaml in the folder %s\nhint: give files or folders of measured cases", name)
		}
		sort.Strings(found)
		files = append(files, found...)
	}
	return load(files, os.ReadFile)
}

// Read decodes the one case that a reader holds.
func Read(name string, from io.Reader) ([]*boatfile.Case, error) {
	return load([]string{name}, func(string) ([]byte, error) { return io.ReadAll(from) })
}

// load decodes all files and reports what is wrong in any of them; an id stands once.
func load(names []string, read func(string) ([]byte, error)) ([]*boatfile.Case, error) {
	var all []*boatfile.Case
	wrong := &decode.Errors{}
	seen := map[string]string{}
	for _, name := range names {
		data, err := read(name)
		if err != nil {
			return nil, err
		}
		c, err := boatfile.LoadCase(name, data)
		var problems *decode.Errors
		switch {
		case errors.As(err, &problems):
			wrong.Problems = append(wrong.Problems, problems.Problems...)
			continue
		case err != nil:
			return nil, err
		case seen[c.ID] != "":
			return nil, fmt.Errorf("%s: the id %q stands in %s already\nhint: give each case an id of its own", name, c.ID, seen[c.ID])
		}
		seen[c.ID] = name
		all = append(all, c)
	}
	if len(wrong.Problems) > 0 {
		return nil, wrong
	}
	return all, nil
}
