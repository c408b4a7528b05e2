package style

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A picture loses its own colours and nothing else.
func TestPicturesAreUnpainted(t *testing.T) {
	for was, want := range map[string]string{
		`<rect fill="#12ab90" x="1" stroke="#000000"/>`: `<rect x="1"/>`,
		`<rect fill="#12AB90" fill="#12345"/>`:          `<rect fill="#12AB90" fill="#12345"/>`,
		`<a href="#1"/><g fill="none" xfill="#123456">`: `<a href="#1"/><g fill="none" xfill="#123456">`,
		`text-fill="#123456" fill="#1234567"`:           `text-fill="#123456" fill="#1234567"`,
		` fill="#12345`:                                 ` fill="#12345`,
	} {
		assert.Equal(t, want, Unpainted(was))
	}
}

// What scans a page gives what expressions give over all of it, on pieces of this package's own sheet with traps between.
func TestScansAreTheirExpressions(t *testing.T) {
	sheet, err := os.ReadFile("base.css")
	require.NoError(t, err)
	traps := []string{"5 m2", "<p>per cm3</p>", "a mm2 ", "5 m2 m2", "2per m2", " fill=\"#abcdef\"", "<g d=\"5 m2\">", "(ft2)", "5\u202fin3", "5\u00a0m2\u00a0m3", "m2/m2", "5 ckm2"}
	whole := regexp.MustCompile(strings.TrimSuffix(power.String(), "$") + `\b`)
	colour := regexp.MustCompile(` (fill|stroke)="#[0-9a-f]{6}"`)
	for i, trap := range traps {
		for j, next := range traps {
			at := (i*len(traps) + j) * 7 % (len(sheet) - 40)
			text := string(sheet[at:at+40]) + trap + next + string(sheet[at:at+20])
			assert.Equal(t, colour.ReplaceAllString(text, ""), Unpainted(text))
			want := whole.ReplaceAllStringFunc(">"+trap+next, func(m string) string { return m[:len(m)-1] + map[byte]string{'2': "²", '3': "³"}[m[len(m)-1]] })
			if !strings.Contains(text, "<g") {
				assert.Equal(t, want, string(Raised([]byte(">"+trap+next))), trap+next)
			}
		}
	}
}
