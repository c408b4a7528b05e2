package scene_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
)

// ownBoard is a file with a board and a lagging of the owner's; the figures are invented.
func ownBoard(board, lagging string) string {
	text := strings.NewReplacer("[6 mm plywood], open_area: 0.4 m2", "["+board+"], open_area: 0 m2",
		"material: mild steel, in: engine room}", "material: mild steel, in: engine room, lagging: {thickness: 40 mm, material: "+lagging+"}}").Replace(small(1, ""))
	return text + `materials:
  - {name: moonboard, density: 1900 kg/m3, critical: 28, damping: 0.03, source: own weighing and knocking}
  - {name: moonwrap, conductivity: 0.2, max_temperature: 350 °C, source: sheet of the wrap}
`
}

// An owner's own panel and lagging materials are reckoned with, and their sources are shown.
func TestOwnMaterials(t *testing.T) {
	own := read(t, ownBoard("20 mm moonboard", "moonwrap"))
	usual := read(t, ownBoard("20 mm plywood", "mineral wool"))
	p, q := predict(t, own, own.Layouts[0]), predict(t, usual, usual.Layouts[0])
	require.Less(t, at(t, p, "seat").DBA(), at(t, q, "seat").DBA()-2, "three times the mass")
	named := false
	for _, r := range at(t, p, "seat").Routes {
		for _, s := range r.Steps {
			named = named || strings.Contains(s.Source, "own weighing")
		}
	}
	require.True(t, named, "its source stands in the chain")

	skin := func(p path.Prediction) float64 { return p.Exhausts[0].Rated.Rows[0].SkinTemperature }
	require.Greater(t, skin(p), skin(q)+20, "a worse insulation is hotter outside")
	text := warned(t, own)
	require.Contains(t, text, "LAGGING-TOO-HOT")
	require.NotContains(t, text, "LAGGING-UNKNOWN")
	require.Contains(t, warned(t, read(t, ownBoard("20 mm plywood", "moonboard"))), "LAGGING-UNKNOWN")
}
