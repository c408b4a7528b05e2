package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hushwake/testdata/broken"
)

// TestBrokenFiles: broken files give the message, the line and the remedy that stand beside them, and no panic.
func TestBrokenFiles(t *testing.T) {
	files, err := filepath.Glob("../../testdata/broken/*.yaml")
	if err != nil || len(files) < 30 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, name := range files {
		t.Run(filepath.Base(name), func(t *testing.T) {
			want, err := os.ReadFile(strings.TrimSuffix(name, ".yaml") + ".want")
			if err != nil {
				t.Fatal(err)
			}
			for _, command := range []string{"check", "compare", "line"} {
				var out, report bytes.Buffer
				got := run([]string{command, name}, streams{in: strings.NewReader(""), out: &out, err: &report})
				if got != statusBadInput {
					t.Errorf("%s: exit status %d", command, got)
				}
				said := strings.ReplaceAll(report.String(), filepath.Dir(name)+"/", "")
				for _, line := range strings.Split(strings.TrimSpace(string(want)), "\n") {
					if !broken.Want(strings.TrimSpace(line)).MatchString(said) {
						t.Errorf("%s: not said: %s\nsaid: %s", command, line, said)
					}
				}
			}
		})
	}
}
