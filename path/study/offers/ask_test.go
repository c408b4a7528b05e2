package offers

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// lineOf is a layout with one stated silencer in its line.
func lineOf(g *silencer.Given) *path.Layout {
	return &path.Layout{Name: "a", Exhausts: []path.Exhaust{{Engine: "main", Line: silencer.Line{Elements: []silencer.Element{&silencer.Pipe{Bore: 0.1, Length: 1}, g}}}}}
}

// At its best a sheet holds the largest figure it names in every octave, at its worst it is a pipe; what
// it does state stays.
func TestBestAndWorst(t *testing.T) {
	for text, want := range map[string]float64{"critical grade, 25-35 dB(A)": 35, "30 dB or more at 500 Hz": 30, "40 dB at 500 Hz, 20 dB overall": 40, "critical": usualClaim, "": usualClaim} {
		require.Equal(t, want, bestClaim(text), text)
	}
	l := lineOf(&silencer.Given{Offer: "offer A"})
	best, worst := BestAndWorst(l, []path.Quote{{Name: "offer A", Claim: "25-35 dB"}})
	loss := func(l *path.Layout) spectrum.Bands {
		return *l.Exhausts[0].Line.Elements[1].(*silencer.Given).InsertionLoss
	}
	require.Equal(t, spectrum.Fill(35), loss(best))
	require.Equal(t, spectrum.Fill(0), loss(worst))
	require.Nil(t, l.Exhausts[0].Line.Elements[1].(*silencer.Given).InsertionLoss, "the layout stays as it was")
	octaves := spectrum.Fill(20)
	best, _ = BestAndWorst(lineOf(&silencer.Given{InsertionLoss: &octaves}), nil)
	require.Equal(t, octaves, loss(best))
}
