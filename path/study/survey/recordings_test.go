package survey

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
)

// The lines of the plan stand in a boat file as they are: they name its places, doors and layouts.
func TestRecordingsGoIntoTheBoatFile(t *testing.T) {
	text, err := boatfile.Starter("dry-stack")
	require.NoError(t, err)
	b, err := boatfile.Load("dry-stack.yaml", text)
	require.NoError(t, err)
	p, err := scene.Predict(b, b.Layouts[0])
	require.NoError(t, err)
	doors := b.Layouts[0].Doors()
	require.NotEmpty(t, doors)
	all := recordings(p, &draws.Layout{Name: b.Layouts[0].Name}, Options{Listener: "helm", Doors: doors})
	require.Len(t, all, 2+len(doors))
	lines, files := "", map[string]bool{}
	for _, r := range all {
		require.False(t, files[r.File], r.File)
		files[r.File] = true
		lines += "\n  " + strings.TrimSuffix(r.Reading, "}") + ", strike: true}" // their files need not be there
	}
	with, err := boatfile.Load("dry-stack.yaml", []byte(strings.Replace(string(text), "\nreadings:", "\nreadings:"+lines+"\n", 1)))
	require.NoError(t, err)
	require.Len(t, with.Readings, len(b.Readings)+len(all))
	for i, r := range all {
		got := with.Readings[i]
		require.Equal(t, r.File, got.Recording.File)
		require.Equal(t, b.Layouts[0].Name, got.Layout)
		require.Equal(t, r.Where, got.Listener+got.Space)
	}
	require.Equal(t, []string{doors[0]}, with.Readings[1].Open)
	require.Empty(t, recordings(path.Prediction{}, &draws.Layout{}, Options{Doors: doors}), "nothing runs")
}

func TestNamesOnOneLine(t *testing.T) {
	for name, want := range map[string]string{"helm": "helm", "as found": `"as found"`, `a "b", {c}`: `"a \"b\", {c}"`, "": `""`} {
		require.Equal(t, want, text(name))
	}
	require.Equal(t, "helm-open-wheelhouse-door", slug("Helm", "open: wheelhouse door!"))
}
