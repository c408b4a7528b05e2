package advice

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Levels by layout and seat are told apart as choices are.
func TestUnheardIsTheRuleOfTheAdvice(t *testing.T) {
	same := Unheard([][][]float64{{{70, 71, 72}, {60, 60, 60}}, {{70.5, 71.5, 72.5}, {80, 80, 80}}})
	require.True(t, same(0, 1, 0))
	require.False(t, same(0, 1, 1))
}
