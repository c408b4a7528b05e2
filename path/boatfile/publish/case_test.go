package publish

import (
	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An owner's file becomes a case without anything that tells whose boat it is, and sounds as before.
func TestNewCaseTellsNobody(t *testing.T) {
	text, err := os.ReadFile("../../../testdata/dry-stack.yaml")
	require.NoError(t, err)
	owned := strings.NewReplacer("long passage", "Zephyrine of Port Quux", "helm:", "Quux lookout:", "listener: helm", "listener: Quux lookout",
		"wheelhouse:", "Zephyrine house:", "wheelhouse,", "Zephyrine house,", "wheelhouse]", "Zephyrine house]", "in: wheelhouse", "in: Zephyrine house").Replace(string(text))
	for _, w := range []string{"Quux lookout", "Zephyrine house:", "in: Zephyrine house"} {
		require.Contains(t, owned, w)
	}
	owned += "\n# moored at Port Quux\n"
	before, err := boatfile.Load("owned.yaml", []byte(owned))
	require.NoError(t, err)
	out, left, err := NewCase("owned.yaml", []byte(owned))
	require.NoError(t, err)
	assert.NotEmpty(t, left, "readings of pressure and temperature are left out, and that is said")
	for _, w := range []string{"Zephyrine", "Quux", "price", "moored", "readings:"} {
		assert.NotContains(t, string(out), w)
	}
	c, err := boatfile.LoadCase("case.yaml", out)
	require.NoError(t, err)
	require.Len(t, c.Boat.Layouts, len(before.Layouts))
	for i, l := range before.Layouts[:2] {
		p, err := scene.PredictIn(before, l, path.Fast)
		require.NoError(t, err)
		q, err := scene.PredictIn(c.Boat, c.Boat.Layouts[i], path.Fast)
		require.NoError(t, err)
		for j := range p.Listeners {
			assert.InDelta(t, p.Listeners[j].DBA(), q.Listeners[j].DBA(), 1e-9, l.Name)
		}
	}
	again, _, err := NewCase("owned.yaml", []byte(owned))
	require.NoError(t, err)
	assert.Equal(t, string(out), string(again))
}

func TestNewCaseRefuses(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/measured/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	known, err := os.ReadFile(files[0])
	require.NoError(t, err)
	_, _, err = NewCase(files[0], known)
	require.ErrorContains(t, err, "a measured case already")
	bench, err := os.ReadFile("../../../testdata/bench.yaml")
	require.NoError(t, err)
	_, _, err = NewCase("bench.yaml", bench)
	require.ErrorContains(t, err, "no sound reading")
}

// A background within 10 dB is taken out as energy; within 3 dB the reading says nothing.
func TestMeasuredWithoutItsBackground(t *testing.T) {
	level, near, far := 70.0, 60.5, 40.0
	text, note, why := measured(path.Reading{Level: &level, Background: &near})
	assert.Equal(t, "69.5 dBA", text) // 10 lg(10^7 - 10^6.05) = 69.48
	assert.Contains(t, note, "0.5 dB")
	assert.Empty(t, why)
	text, note, _ = measured(path.Reading{Level: &level, Background: &far, Weighting: "C"})
	assert.Equal(t, "70.0 dBC", text)
	assert.Empty(t, note)
	near = 68
	_, _, why = measured(path.Reading{Level: &level, Background: &near})
	assert.Contains(t, why, "background")
}

func TestPlainNames(t *testing.T) {
	for _, n := range []string{"main", "engine room", "aft cabin 2", "wet, 25 m abeam", "offer A"} {
		assert.True(t, plainName(n), n)
	}
	for _, n := range []string{"Nelly", "cabin of Tom", "quay at Quux"} {
		assert.False(t, plainName(n), n)
	}
}
