package boatfile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/layers"
	"hushwake/path/boatfile/lines"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/panel"
	"hushwake/path/structure"
	"hushwake/silencer/loss"
)

func rowsOf(t *testing.T, topic string) [][]string {
	t.Helper()
	h, ok := lines.Help(topic)
	require.True(t, ok)
	require.Equal(t, topic, h.Topic)
	require.NotEmpty(t, h.Rows)
	for _, r := range h.Rows {
		require.Len(t, r, len(h.Head))
		require.Len(t, h.Right, len(h.Head))
	}
	return h.Rows
}

// The tables list what the reader reads and nothing else: each name and spelling is tried.
func TestHelpTablesAreRead(t *testing.T) {
	for _, r := range rowsOf(t, "units") {
		example, _, _ := strings.Cut(strings.ReplaceAll(r[1], " or ", ","), ",")
		var dim quantity.Dim
		for d := quantity.Length; d < quantity.Number; d++ {
			if d.String() == r[0] {
				dim = d
			}
		}
		_, err := quantity.Parse(example, dim)
		assert.NoError(t, err, r[0])
		for _, u := range strings.Split(r[2], ", ") {
			q, err := quantity.Parse("300 "+u, dim)
			require.NoError(t, err, "%s %s", r[0], u)
			assert.Equal(t, dim, q.Dim)
		}
	}
	for _, r := range rowsOf(t, "materials") {
		var err error
		switch r[0] {
		case "build-up":
			for _, name := range append([]string{r[1]}, strings.Split(r[2], ", ")...) {
				if name != "" {
					_, err = layers.Parse("5 mm "+name, panel.Default())
					assert.NoError(t, err, name)
				}
			}
		case "pipe wall":
			_, err = loss.WallOf(r[1])
		case "lagging":
			_, err = loss.LaggingOf(r[1])
		}
		assert.NoError(t, err, r[1])
	}
	for _, r := range rowsOf(t, "linings") {
		_, _, _, ok := panel.AbsorptionOf(r[0], 0.025)
		assert.True(t, ok, r[0])
	}
	var hulls, mounts []string
	for _, r := range rowsOf(t, "hulls") {
		hulls = append(hulls, r[0])
	}
	assert.Equal(t, hullWords, append(hulls, "sandwich"))
	for _, r := range rowsOf(t, "mounts") {
		mounts = append(mounts, r[0])
	}
	assert.Equal(t, structure.Kinds, mounts)
	assert.Equal(t, []string{"grp", "Plastic (fibreglass)", "1700", "2900", "0.03", "10", "from memory"}, rowsOf(t, "hulls")[0])
	assert.Equal(t, []string{"rubber", "Rubber feet", "2.5"}, rowsOf(t, "mounts")[2])
	kinds := rowsOf(t, "elements")
	require.Len(t, kinds, len(lines.Kinds()))
	assert.Contains(t, kinds[0][2], "bore!, length!")
	_, ok := lines.Help("engines")
	assert.False(t, ok)
}
