package boatfile

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/decode"
	"hushwake/testdata"
)

// A value of the wrong kind is met by what would be right there, and throws no shadow on those that name it.
func TestFormsThatAreWrongTellTheRightOne(t *testing.T) {
	text, err := testdata.Files.ReadFile("dry-stack.yaml")
	require.NoError(t, err)
	good := string(text)
	from, to := strings.Index(good, "listeners:\n"), strings.Index(good, "layouts:\n")
	for name, c := range map[string]struct{ file, hint string }{
		"pressure for a level": {strings.Replace(good, "limit: 70 dBA", "limit: 70 bar", 1), "write an A-weighted level such as 71 dBA"},
		"length for an angle":  {strings.Replace(good, "angle: 90 deg", "angle: 90 mm", 1), "write an angle such as 90 deg"},
		"place without []":     {strings.Replace(good, "at: [7.3 m, 0.4 m, 3.7 m]", "at: 7.3 m, 0.4 m, 3.7 m", 1), "a place stands in brackets, forward from the transom, to starboard, up from the waterline: such as [5.0 m, 0 m, 1.2 m]"},
		"list of listeners":    {good[:from] + "listeners:\n  - {name: helm, in: wheelhouse, at: [7.3 m, 0.4 m, 3.7 m]}\n" + good[to:], `"NAME: {...}", not "- {name: NAME, ...}"`},
		"names with commas":    {strings.Replace(good, "layout: as found,", "layout: as fond,", 1), ""},
	} {
		require.NotEqual(t, good, c.file, name)
		_, err := Load("boat.yaml", []byte(c.file))
		var all *decode.Errors
		require.True(t, errors.As(err, &all), name)
		require.Contains(t, all.Problems[0].Hint, c.hint, name)
		require.NotContains(t, err.Error(), "there are none", name)
		if c.hint == "" {
			require.Contains(t, err.Error(), "as found; as found, door open; as is, cleaned; ")
		}
	}
}
