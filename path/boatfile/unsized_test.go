package boatfile_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/silencer"
)

// lineOf reads a line between two pipes.
func lineOf(t *testing.T, part string) (silencer.Element, []string) {
	t.Helper()
	b, err := boatfile.Load("boat.yaml", []byte(`engines: {main: {cycle: four-stroke, cylinders: 4, rated: {power: 40 kW, speed: 2600 rpm}, in: engine room}}
spaces: {engine room: {size: [3 m, 3 m, 2 m]}}
listeners: {deck: {in: outside, at: [1 m, 0 m, 2 m]}}
layouts:
  - {name: plain, exhausts: {main: {line: [pipe: {bore: 100 mm, length: 1 m, in: engine room}, `+part+`, pipe: {bore: 100 mm, length: 1 m, in: outside}], outlet: {at: [0 m, 0 m, 1 m]}}}}
`))
	require.NoError(t, err)
	var said []string
	for _, a := range b.Assumptions {
		if strings.Contains(a.Field, ".line: ") {
			said = append(said, a.Field+" = "+a.Value+", "+a.Source)
		}
	}
	return b.Layouts[0].Exhausts[0].Line.Elements[1], said
}

// What sizes that are not stated cost is a doubt of the element; stated ones leave none; a place not stated is said and is no size.
func TestUnstatedSizesReachTheElement(t *testing.T) {
	const stated = "chamber: {inlet_bore: 100 mm, outlet_bore: 100 mm, length: 600 mm, inlet_extension: 0 mm, outlet_extension: 0 mm"
	whole, said := lineOf(t, stated+", bore: 250 mm, in: outside}")
	require.Zero(t, whole.Base().Unstated)
	require.NotContains(t, strings.Join(said, "\n"), ": in of")
	less, _ := lineOf(t, stated+", bore: unknown, in: outside}")
	require.Equal(t, 5.0, less.Base().Unstated)
	more, _ := lineOf(t, strings.Replace(stated, "length: 600 mm", "length: unknown", 1)+", in: outside}")
	require.Equal(t, math.Hypot(5, 5), more.Base().Unstated)
	nowhere, said := lineOf(t, stated+", bore: 250 mm}")
	require.Zero(t, nowhere.Base().Unstated)
	require.Contains(t, strings.Join(said, "\n"), "in of chamber 2 = the space of the nearest part")
}

// A silencer of which nothing is known is read as one of unknown kind, at which nobody looked, with what stands for it listed.
func TestGivenUnknown(t *testing.T) {
	for _, text := range []string{"given: unknown", "silencer: unknown"} {
		e, said := lineOf(t, text)
		g := e.Quoted()
		require.Equal(t, &silencer.Look{Inside: silencer.InsideUnknown}, g.Look, text)
		require.InDelta(t, 0.1, g.Bore, 1e-12, "that of the pipe beside it")
		require.Greater(t, g.LookDoubt(), 8.0)
		require.Contains(t, strings.Join(said, "\n"), "by its look: unknown, state unknown, taken as old")
	}
	for _, row := range silencer.Interiors[1:] {
		_, said := lineOf(t, "silencer: {kind: "+string(row.Inside)+", length: 600 mm, diameter: 250 mm}")
		require.Contains(t, strings.Join(said, "\n"), row.Mark+": "+row.Source, "each kind cites its own row")
	}
}
