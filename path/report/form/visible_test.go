package form

import (
	"encoding/json"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What acts on a terminal without being seen is shown, what people write stays as it is.
func TestHiddenSignsAreShown(t *testing.T) {
	for in, want := range map[string]string{
		"helm": "helm", "Kajüte ± 3 °C, 機関室, אור": "Kajüte ± 3 °C, 機関室, אור",
		"a\u202eb": `a\u202eb`, "a\u200bb\ufeff": `a\u200bb\ufeff`, "\x1b[2Jx\x00\x7f\u009b": `\u001b[2Jx\u0000\u007f\u009b`,
		"\u2066a\u2069\u2028": `\u2066a\u2069\u2028`, "\U000e0041": `\udb40\udc41`, "\u115f\u3164": `\u115f\u3164`,
		"two\nlines\tapart": "two\nlines\tapart", "\xff": "\ufffd",
	} {
		assert.Equal(t, want, Visible(in))
		assert.Equal(t, want, Visible(want), "once is enough")
	}
	assert.Equal(t, `two\nlines`, Name("two\nlines"))
}

// In JSON the escape is the very sign: no name changes, whatever it holds.
func FuzzVisibleKeepsJSON(f *testing.F) {
	for _, s := range []string{"a\u202eb", "\U000e0041\\", "\\u202e", "\x1b\"\u2028"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		if !utf8.ValidString(name) {
			return
		}
		text, err := json.Marshal(name)
		require.NoError(t, err)
		var back string
		require.NoError(t, json.Unmarshal([]byte(Visible(string(text))), &back))
		require.Equal(t, name, back)
	})
}

func TestShellArguments(t *testing.T) {
	for in, want := range map[string]string{"helm": "helm", "": "''", "aft cabin": "'aft cabin'", "o'clock": `'o'\''clock'`, "$(x)": "'$(x)'", "*": "'*'", "a;b": "'a;b'"} {
		assert.Equal(t, want, Shell(in))
	}
	assert.Equal(t, "-", File("standard input"))
	assert.Equal(t, "'my boat.yaml'", File("my boat.yaml"))
}
