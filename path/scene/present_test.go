package scene_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
)

// The layout on board is that of a reading, else the one so called; else it is a guess that says so.
func TestPresent(t *testing.T) {
	boat := func(read string, names ...string) *path.Boat {
		b := &path.Boat{}
		for _, n := range names {
			b.Layouts = append(b.Layouts, &path.Layout{Name: n})
		}
		b.Readings = []path.Reading{{}, {Layout: "not in the file"}, {Layout: read}}
		return b
	}
	for _, c := range []struct {
		read, want, why string
		known           bool
		names           []string
	}{
		{"wet", "wet", "reading 3", true, []string{"dry", "wet", "as is"}},
		{"", "As found, cleaned", "by its name", true, []string{"dry", "As found, cleaned", "as is"}},
		{"", "dry", "the first of the file", false, []string{"dry", "as issued", "wet"}},
	} {
		l, why, known := boat(c.read, c.names...).Present()
		require.Equal(t, c.want, l.Name)
		require.Contains(t, why, c.why)
		require.Equal(t, c.known, known)
	}
	for _, word := range []string{"as is", "as found", "as it is", "as it stands", "today", "present", "now"} {
		l, _, known := boat("", "dry", word+", mended", "wet").Present()
		require.True(t, known, word)
		require.Equal(t, word+", mended", l.Name)
	}
	l, _, known := boat("").Present()
	require.Nil(t, l)
	require.False(t, known)
}
