package edit

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// sides puts the lines of a difference together again, and counts those that changed.
func sides(all []Line) (was, is []string, changed int) {
	for _, l := range all {
		if l.Change != In {
			was = append(was, l.Text)
		}
		if l.Change != Out {
			is = append(is, l.Text)
		}
		if l.Change != Kept {
			changed++
		}
	}
	return was, is, changed
}

// fewest is how many lines change at least, counted by trying everything.
func fewest(a, b []string) int {
	switch {
	case len(a) == 0 || len(b) == 0:
		return len(a) + len(b)
	case a[0] == b[0]:
		return fewest(a[1:], b[1:])
	}
	return 1 + min(fewest(a[1:], b), fewest(a, b[1:]))
}

func TestDiff(t *testing.T) {
	require.Equal(t, []Line{{Kept, 1, 1, "a"}, {Out, 2, 0, "b"}, {In, 0, 2, "c"}, {Kept, 3, 3, "d"}, {In, 0, 4, "e"}}, Diff([]byte("a\r\nb\r\nd"), []byte("a\nc\nd\ne\n")))
	require.Empty(t, Diff(nil, nil))
	require.Equal(t, []Line{{In, 0, 1, "a"}}, Diff(nil, []byte("a\n")))
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.SliceOfN(rapid.SampledFrom([]string{"a", "b", "c"}), 0, 7)
		a, b := lines.Draw(t, "a"), lines.Draw(t, "b")
		end := func(l []string) []byte { return []byte(strings.Join(append(l[:len(l):len(l)], ""), "\n")) }
		all := Diff(end(a), end(b))
		was, is, changed := sides(all)
		require.Equal(t, strings.Join(a, "\n"), strings.Join(was, "\n"))
		require.Equal(t, strings.Join(b, "\n"), strings.Join(is, "\n"))
		require.Equal(t, fewest(a, b), changed)
		i, j := 0, 0
		for _, l := range all { // numbers go up by one on each side
			if l.Change != In {
				i++
				require.Equal(t, i, l.Was)
			}
			if l.Change != Out {
				j++
				require.Equal(t, j, l.Is)
			}
		}
	})
}

// Two texts with nothing in common, too long to compare line by line, are told apart all the same.
func TestDiffOfLongTexts(t *testing.T) {
	a, b := strings.Repeat("a\n", 5000), strings.Repeat("b\n", 5000)
	was, is, changed := sides(Diff([]byte(a+"same\n"), []byte(b+"same\n")))
	require.Len(t, was, 5001)
	require.Len(t, is, 5001)
	require.Equal(t, 10_000, changed)
}
