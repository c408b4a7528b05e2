package silencer_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/source/spectrum"
)

// shellOfGiven is what a stated silencer's wall gives off in a line.
func shellOfGiven(t *testing.T, g silencer.Given) *silencer.Shell {
	t.Helper()
	g.Common.Name, g.Bore = "box", 0.128
	l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.128, Length: 2}, &g, &silencer.Pipe{Bore: 0.128, Length: 1}},
		Outlet: silencer.Outlet{Present: true, Bore: 0.128}}
	list := l.Shells(linetest.Exhaust(0.2, 450), silencer.Options{Ceiling: true}, spectrum.Fill(120))
	for i := range list {
		if list[i].Element == "box" {
			return &list[i]
		}
	}
	return nil
}

// A shell whose sizes are not stated is heard like a usual one: nine of ten are no louder than that says, to 1 dB, over what is
// usual, and its doubt is wider.
func TestAShellOfUnknownSizeIsHeard(t *testing.T) {
	loss := spectrum.Bands{2, 5, 10, 12, 12, 12, 10, 8, 8}
	high := func(s *silencer.Shell) float64 { return s.Bands.DBA() + 1.2816*s.Doubt.SD[4] }
	for _, length := range []float64{0.5, 0.9, 1.35} {
		for _, diameter := range []float64{0.25, 0.3, 0.4} {
			whole := shellOfGiven(t, silencer.Given{InsertionLoss: &loss, Length: length, Diameter: diameter})
			for _, less := range []silencer.Given{{InsertionLoss: &loss, Diameter: diameter}, {InsertionLoss: &loss, Length: length}, {InsertionLoss: &loss}} {
				s := shellOfGiven(t, less)
				require.NotNil(t, s)
				assert.Greater(t, high(s), high(whole)-1, "%g by %g m", length, diameter)
				assert.Greater(t, s.Doubt.SD[4], whole.Doubt.SD[4])
				assert.Contains(t, s.Doubt.Source, "as usual")
			}
		}
	}
	assert.Nil(t, shellOfGiven(t, silencer.Given{InsertionLoss: &loss, Shellless: true}), "a loss to think with has no shell")
}

// What sizes that are not stated leave open is a doubt of the loss of its own, shared by elements of one name.
func TestUnstatedSizesAreADoubt(t *testing.T) {
	c := &silencer.Chamber{Bore: 0.3, Rooms: []float64{0.6}, InletBore: 0.1, OutletBore: 0.1}
	l := &silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.1, Length: 1}, c, &silencer.Pipe{Bore: 0.1, Length: 1}}, Outlet: silencer.Outlet{Present: true, Bore: 0.1}}
	variance := func() (sum float64) {
		a, err := l.Acoustics(linetest.Exhaust(0.1, 400), silencer.Options{})
		require.NoError(t, err)
		for _, d := range a.Doubts {
			sum += d.SD[4] * d.SD[4]
		}
		return sum
	}
	stated := variance()
	c.Unstated = 5
	assert.InDelta(t, stated+25, variance(), 1e-9)
}
