package lines

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/silencer"
)

// Every inside of the table can be written, is in the schema and in help, and no other is.
func TestInsidesAreThoseOfTheTable(t *testing.T) {
	var want []any
	for _, in := range silencer.Interiors {
		want = append(want, string(in.Inside))
	}
	assert.ElementsMatch(t, want, lookFields()["kind"].Enum)
	help, _ := Help("elements")
	_, named, _ := strings.Cut(help.Text, "finds in it: ")
	for _, kind := range want[1:] {
		assert.Contains(t, strings.Split(strings.TrimSuffix(named, "."), ", "), kind)
	}
	assert.Len(t, insides, len(want)-1, "unknown is no word of its own in a file")
}
