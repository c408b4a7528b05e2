package boatfile

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/scene"
)

// Every starter loads, is short enough to be read and changed by hand, and uses the short ways of the file.
func TestStarters(t *testing.T) {
	for _, kind := range StarterKinds {
		text, err := Starter(kind)
		require.NoError(t, err)
		b, err := Load(kind+".yaml", text)
		require.NoError(t, err)
		for _, a := range b.Assumptions {
			assert.False(t, kind != "mine" && strings.Contains(a.Field, ".faces.") && strings.Contains(a.Value, "not stated:"), "%s: %s: %s", kind, a.Field, a.Value)
			assert.NotContains(t, a.Value, "counts for nothing", "%s: %s", kind, a.Field)
		}
		most := 90
		if kind == "mine" {
			most = 45
		}
		assert.LessOrEqual(t, bytes.Count(text, []byte("\n")), most, kind)
		assert.Contains(t, string(text), "like: ", kind)
	}
}

// In the starter for one's own boat everything but the six answers is unknown, and nothing that is unknown is filled in
// without being listed.
func TestOwnStarterAsksSixQuestions(t *testing.T) {
	text, err := Starter("mine")
	require.NoError(t, err)
	for n, key := range []string{"cycle:", "cylinders:", "rated:", "at:", "pipe:", "outlet:"} {
		line := lineWith(string(text), "# "+string(rune('1'+n)))
		assert.Contains(t, line, key)
		assert.NotContains(t, strings.SplitN(line, "#", 2)[0], key+" unknown")
	}
	b, err := Load("mine.yaml", text)
	require.NoError(t, err)
	assert.GreaterOrEqual(t, strings.Count(string(text), "unknown"), 20)
	assert.Greater(t, len(b.Assumptions), 20)
	for _, l := range b.Layouts {
		p, err := scene.Predict(b, l)
		require.NoError(t, err, l.Name)
		assert.False(t, p.Refused, l.Name)
	}
}

func lineWith(text, part string) string {
	for _, l := range strings.Split(text, "\n") {
		if strings.Contains(l, part) {
			return l
		}
	}
	return ""
}
