package readings

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
)

// What is promised is worked out once, by who comes first; each promise is given away once, those of other layouts never.
func TestForeseenOnce(t *testing.T) {
	k, b, one, two := &Known{}, &path.Boat{}, &path.Layout{Name: "one"}, &path.Layout{Name: "two"}
	done, bad := map[float64]int{}, errors.New("no such speed")
	points := []Point{{b, one, 1}, {b, one, 2}, {b, one, 3}, {b, two, 4}}
	work := k.Foresee(points, func(p Point) (path.Prediction, error) {
		if done[p.At]++; p.At == 3 {
			return path.Prediction{}, bad
		}
		return path.Prediction{Layout: p.Layout, Length: new(p.At)}, nil
	})
	require.Empty(t, done, "nothing is worked out before it is asked for")
	early := k.Foreseen(points[1])
	require.NotNil(t, early)
	k.Only([]*path.Layout{one})
	work()
	assert.Equal(t, map[float64]int{1: 1, 3: 1}, done, "but for what was given away or will not be asked for")
	p, err := early()
	require.NoError(t, err)
	assert.Equal(t, 2.0, *p.Length)
	p, err = k.Foreseen(points[0])()
	require.NoError(t, err)
	assert.Equal(t, 1.0, *p.Length)
	_, err = k.Foreseen(points[2])()
	assert.ErrorIs(t, err, bad)
	assert.Equal(t, map[float64]int{1: 1, 2: 1, 3: 1}, done)
	for _, p := range append(points, Point{b, one, 5}, Point{&path.Boat{}, one, 1}) {
		assert.Nil(t, k.Foreseen(p))
	}
	assert.Nil(t, (&Known{}).Foreseen(points[0]), "nothing was foreseen")
}
