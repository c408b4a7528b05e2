package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A layout and a listener are found by name and by place; the first of each where none is named.
func TestSeatOfAFile(t *testing.T) {
	file := demos + "dry-stack.yaml"
	b, l, at, err := (&common{}).seatOf(file, "", "")
	require.NoError(t, err)
	assert.Equal(t, b.Layouts[0], l)
	assert.Zero(t, at)
	last := len(b.Listeners) - 1
	require.Positive(t, last)
	for _, names := range [][2]string{{b.Layouts[1].Name, b.Listeners[last].Name}, {"2", b.Listeners[last].Name}} {
		found, l, at, err := (&common{}).seatOf(file, names[0], names[1])
		require.NoError(t, err)
		assert.Equal(t, found.Layouts[1], l)
		assert.Equal(t, last, at)
	}
	for _, wrong := range [][3]string{{file, "none", ""}, {file, "", "none"}, {"no such file.yaml", "", ""}} {
		_, _, _, err := (&common{}).seatOf(wrong[0], wrong[1], wrong[2])
		assert.ErrorContains(t, err, "hint: ", "%q", wrong)
	}
}
