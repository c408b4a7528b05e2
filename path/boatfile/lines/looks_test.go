package lines

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/silencer"
)

// Every inside of the table can be written, is in the schema, and no other is.
func TestInsidesAreThoseOfTheTable(t *testing.T) {
	var want []any
	for _, in := range silencer.Interiors {
		want = append(want, string(in.Inside))
	}
	assert.ElementsMatch(t, want, lookFields()["kind"].Enum)
	assert.Len(t, insides, len(want)-1, "unknown is no word of its own in a file")
}
