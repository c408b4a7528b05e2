package scene_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
)

// Of two ways over as few spaces the sound takes the louder, whichever stands first in the file: with the plates of one
// of two rooms beside each other damped, the hull loses what it loses without that room.
func TestLouderOfTwoWaysThroughTheHull(t *testing.T) {
	base := small(2, "mass: 400 kg\n    mounts: {kind: rubber, deflection: 2.5 mm}")
	base = strings.ReplaceAll(base, "[6 mm plywood], open_area: 0.4 m2", "[6 mm steel, 50 mm mineral wool, 12 mm plywood], open_area: 0 m2")
	hull := func(text string) path.Step {
		b := read(t, text)
		for _, step := range borne(t, at(t, quick(t, b, b.Layouts[0]), "seat"), "main").Steps {
			if strings.HasPrefix(step.Name, "hull") {
				return step
			}
		}
		t.Fatal("no hull")
		return path.Step{}
	}
	const room1, walls = "  room 1: {at: [3 m, -1 m, -0.4 m], size: [2 m, 2 m, 2 m], lining: furnished cabin", "partitions:\n"
	damped := strings.Replace(base, room1, room1+", structure: {damped: yes}", 1)
	beside := strings.NewReplacer("room 1", "beside", "-1 m, -0.4", "-3 m, -0.4").Replace(room1)
	joined := walls + "  - {between: [engine room, beside], area: 4 m2, build_up: [6 mm steel, 50 mm mineral wool, 12 mm plywood], open_area: 0 m2}\n  - {between: [beside, room 2], area: 4 m2, build_up: [6 mm steel, 50 mm mineral wool, 12 mm plywood], open_area: 0 m2}\n"
	want, quieter := hull(base), hull(damped)
	require.Less(t, quieter.Bands[4], want.Bands[4]-0.5)
	for what, text := range map[string]string{
		"the other damped, first":  strings.Replace(base, room1, beside+", structure: {damped: yes}}\n"+room1, 1),
		"the other damped, second": strings.Replace(base, walls, beside+", structure: {damped: yes}}\n"+walls, 1),
		"the usual damped, first":  strings.Replace(damped, walls, beside+"}\n"+walls, 1),
		"the usual damped, second": strings.Replace(damped, room1, beside+"}\n"+room1, 1),
	} {
		got := hull(strings.Replace(text, walls, joined, 1))
		require.InDeltaSlice(t, want.Bands[:], got.Bands[:], 1e-9, what)
		require.Equal(t, strings.HasPrefix(what, "the usual"), strings.Contains(got.Name, "beside"), what)
	}
}
