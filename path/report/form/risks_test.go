package form

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Dangers have a second line before all else, the others graver than a warning next, warnings what is left; never more lines
// than there is room, and every one that is not shown is counted.
func TestRoomForRisks(t *testing.T) {
	long := strings.Repeat("long ", 20)
	all := []Risk{{"refused", long}, {"ask", "short"}, {"danger", long}, {"danger", "short"}, {"danger", long}, {"warning", long}, {"warning", "short"}}
	for room, want := range map[int][]int{
		0: nil, 2: {1, 1}, 5: {1, 1, 1, 1, 1}, 6: {1, 1, 2, 1, 1}, 7: {1, 1, 2, 1, 2}, 8: {2, 1, 2, 1, 2}, 9: {2, 1, 2, 1, 2, 1}, 20: {2, 1, 2, 1, 2, 1, 1}, -3: nil,
	} {
		assert.Equal(t, want, roomFor(all, room), "%d", room)
		text := &Text{}
		left := text.Risks(all, room, map[string]int{"note": 2})
		assert.Len(t, text.Blocks, len(want))
		assert.Equal(t, len(want) < 7, strings.Contains(left, "warning"), left)
		assert.Contains(t, left, "2 notes")
	}
	assert.Equal(t, "1 refusal, 1 question, 3 dangers, 2 warnings", (&Text{}).Risks(all, 0, map[string]int{}))
}

func TestRunsOfNumbers(t *testing.T) {
	for want, all := range map[string][]string{"1-6": {"1", "2", "3", "4", "5", "6"}, "1, 2": {"1", "2"}, "1, 3-5, 9": {"1", "3", "4", "5", "9"}, "4": {"4"}, "?, 1, 2": {"?", "1", "2"}, "9-11": {"9", "10", "11"}} {
		assert.Equal(t, want, Runs(all))
	}
}
