package spectrum

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// One level is told alike from its full figure, the thousandths of a document and the tenths of a text; a loss as the gain.
func TestALevelIsToldAlikeEverywhere(t *testing.T) {
	for db, told := range map[float64][2]float64{61.469: {61.5, 62}, 61.538: {61.5, 62}, 61.449: {61.4, 61}, 61.4496: {61.5, 62}, 62.5: {62.5, 63},
		61.25: {61.3, 61}, -0.46: {-0.5, -1}, 0.04: {0, 0}} {
		assert.Equal(t, told, [2]float64{Tenth(db), Whole(db)}, db)
	}
	for i := range 200000 {
		db := 40 + float64(i)*0.00037
		document := math.Round(db*1e3) / 1e3
		require.Equal(t, Tenth(db), Tenth(document))
		require.Equal(t, Whole(db), Whole(Tenth(document)))
		require.InDelta(t, db, Whole(db), 0.5506)
		require.Equal(t, -Whole(db), Whole(-db))
	}
	assert.False(t, math.Signbit(Whole(-0.3)))
	assert.True(t, math.IsNaN(Whole(math.NaN())))
}
