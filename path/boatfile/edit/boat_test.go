package edit

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/decode"
	"hushwake/silencer"
)

func loaded(t *testing.T, text []byte) *path.Boat {
	b, err := boatfile.Load("boat.yaml", text)
	require.NoError(t, err)
	return b
}

// What is changed in the text is what the boat file's reader then finds, and a file made from nothing is a boat file.
func TestChangesReachTheBoat(t *testing.T) {
	text, err := boatfile.Starter("dry-stack")
	require.NoError(t, err)
	is, err := Set(text, "/layouts/0/exhausts/main/line/1/pipe/bore", "4 in")
	require.NoError(t, err)
	bore := func(b *path.Boat) float64 {
		return b.Layouts[0].Exhausts[0].Line.Elements[1].(*silencer.Pipe).Bore
	}
	require.InDelta(t, 0.128, bore(loaded(t, text)), 1e-9)
	require.InDelta(t, 0.1016, bore(loaded(t, is)), 1e-9)

	is, err = CopyLayout(text, "as found", "as found, 4 in")
	require.NoError(t, err)
	was, b := loaded(t, text), loaded(t, is)
	require.Len(t, b.Layouts, len(was.Layouts)+1)
	require.Equal(t, was.Layouts[0].Exhausts[0].Line.Elements, b.Layouts[len(was.Layouts)].Exhausts[0].Line.Elements)
}

// A slip that the reader finds at a line and column is one at the place of the value that is wrong.
func TestSlipsHavePlaces(t *testing.T) {
	text, err := boatfile.Starter("three-quotes")
	require.NoError(t, err)
	for _, at := range []string{"/engines/main/rated/power", "/listeners/helm/in", "/layouts/0/exhausts/main/line/0"} {
		is, err := Set(text, at, "no such thing")
		require.NoError(t, err)
		_, err = boatfile.Load("boat.yaml", is)
		var all *decode.Errors
		require.ErrorAs(t, err, &all, at)
		var places []string
		for _, p := range all.Problems {
			places = append(places, Pointer(is, p.Line, p.Column))
		}
		require.Contains(t, places, at, fmt.Sprint(err))
	}
}
