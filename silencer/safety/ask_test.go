package safety_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/silencer"
	"hushwake/silencer/linetest"
	"hushwake/silencer/safety"
	"hushwake/source/spectrum"
)

// A sheet without the loss of sound or of pressure is asked about; a full sheet, pipes and a silencer known by a look are not.
func TestAsksWhatASheetLacks(t *testing.T) {
	octaves, overall := spectrum.Fill(20), 25.0
	loss := &silencer.Loss{Drop: 2000, Basis: silencer.BasisHot}
	for name, c := range map[string]struct {
		g    silencer.Given
		want int
	}{
		"octaves and pressure": {silencer.Given{InsertionLoss: &octaves, Loss: loss}, 0},
		"overall and pressure": {silencer.Given{Overall: &overall, Loss: loss}, 0},
		"promised level":       {silencer.Given{AtLevel: &overall, AtDistance: 1, Loss: loss}, 0},
		"level without place":  {silencer.Given{AtLevel: &overall, Loss: loss}, 1},
		"no pressure":          {silencer.Given{InsertionLoss: &octaves}, 1},
		"nothing":              {silencer.Given{}, 2},
		"known by a look":      {silencer.Given{Look: &silencer.Look{}}, 0},
	} {
		l, f := offered(c.g), linetest.Exhaust(0.26, 430)
		m, err := l.March(f, silencer.Options{})
		require.NoError(t, err)
		var asked []string
		for _, x := range safety.Findings(l, safety.Circumstances{Rated: m, Running: m, RatedFeed: f}) {
			if x.Ask {
				asked = append(asked, x.Text)
			}
		}
		assert.Len(t, asked, c.want, "%s: %v", name, asked)
	}
}
