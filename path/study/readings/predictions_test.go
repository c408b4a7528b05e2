package readings

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws"
)

// counted works layouts out and counts them.
type counted struct {
	afresh
	full, routes int
}

func (c *counted) Predict(b *path.Boat, l *path.Layout, form path.Form) (path.Prediction, error) {
	switch form {
	case path.Full:
		c.full++
	case path.Routes:
		c.routes++
	}
	return c.afresh.Predict(b, l, form)
}

// All predictions come from whom the options name: layouts in full, states of readings as routes.
func TestPredictionsComeFromTheHost(t *testing.T) {
	b := generatorBox(t)
	b.Layouts = b.Layouts[:1]
	c := &counted{}
	k, err := Know(b, Options{Options: draws.Options{N: 200}, From: c})
	require.NoError(t, err)
	assert.Equal(t, 1, c.full)
	assert.Same(t, c.session, k.Session())
	_, err = k.Predictor()(b.Layouts[0].Name, path.Reading{})
	require.NoError(t, err)
	assert.Positive(t, c.routes)
}
