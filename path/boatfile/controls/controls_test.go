package controls

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/lines"
	"hushwake/testdata"
)

// scalars are the places of all single values under a node.
func scalars(n *decode.Node, at string, out map[string]string) {
	switch n.Kind {
	case decode.Mapping:
		for i, k := range n.Keys {
			scalars(n.Values[i], at+"/"+token(k.Text), out)
		}
	case decode.Sequence:
		for i, item := range n.Items {
			scalars(item, fmt.Sprintf("%s/%d", at, i), out)
		}
	default:
		out[at] = n.Text
	}
}

// Every value that stands in a file can be changed, those of the layout that is shown and of all that is no layout, at its place and
// as it is written; and no place comes twice.
func TestEveryValueIsAControl(t *testing.T) {
	for _, name := range append([]string{"everything"}, boatfile.StarterKinds...) {
		text, err := testdata.Files.ReadFile(name + ".yaml")
		require.NoError(t, err)
		root, problems := decode.Parse(text)
		require.Empty(t, problems)
		_, layouts := root.Find("layouts")
		for i, l := range layouts.Items {
			want, got := map[string]string{}, map[string]string{}
			scalars(root, "", want)
			for k := range want {
				if strings.HasPrefix(k, "/layouts/") && !strings.HasPrefix(k, fmt.Sprintf("/layouts/%d/", i)) {
					delete(want, k)
				}
			}
			for _, c := range Of(text, textAt(l, "name"), nil) {
				_, twice := got[c.At]
				require.False(t, twice, "%s: %s comes twice", name, c.At)
				if got[c.At] = c.Value; strings.HasPrefix(c.At, "/layouts/") {
					assert.Equal(t, textAt(l, "name"), c.Layout)
				}
			}
			for at, value := range want {
				is, ok := got[at]
				assert.True(t, ok, "%s, %s: no control at %s", name, textAt(l, "name"), at)
				assert.Equal(t, value, is, at)
			}
		}
	}
}

// What is not stated is offered with what stands in for it and its price.
func TestControlsOfWhatIsNotStated(t *testing.T) {
	text, err := boatfile.Starter("mine")
	require.NoError(t, err)
	b, err := boatfile.Load("mine.yaml", text)
	require.NoError(t, err)
	of := map[string]Control{}
	for _, c := range Of(text, "as is", b.Assumptions) {
		of[c.At] = c
	}
	wall := of["/partitions/0/build_up"]
	require.NotNil(t, wall.Price)
	assert.InDelta(t, 8, *wall.Price, 1e-12)
	assert.Contains(t, wall.Taken, "12 mm plywood")
	assert.True(t, wall.Unknown)
	assert.Equal(t, "partitions engine room - cabin", wall.Group)
	cycle := of["/engines/main/cycle"]
	assert.Equal(t, []string{"two-stroke", "four-stroke"}, cycle.Choices)
	assert.True(t, cycle.Required)
	assert.Nil(t, cycle.Price)
	speed := of["/engines/main/running/speed"]
	assert.Equal(t, "running", speed.Part, "a mapping that is not known can be filled")
	assert.True(t, speed.Unknown)
	assert.Equal(t, "rpm", speed.Unit)
	bore := of["/layouts/0/exhausts/main/line/0/pipe/bore"]
	assert.Equal(t, Control{At: bore.At, Group: "layouts as is", Part: "pipe 1", Label: "bore", Value: "76 mm", Unit: "mm", Fits: bore.Fits, Example: bore.Example, Required: true, Layout: "as is"}, bore)
	assert.Contains(t, of["/engines/main/in"].Choices, "outside")
	silencer := of["/layouts/0/exhausts/main/line/1/silencer/bore"]
	require.NotNil(t, silencer.Price)
	assert.InDelta(t, 1, *silencer.Price, 1e-12)
	assert.Nil(t, Of([]byte("- a\n"), "", nil))
	assert.Nil(t, Of([]byte("a: ["), "", nil))
}

// An element offers every key of its row, so that a new kind needs nothing here.
func TestControlsComeFromTheTableOfElements(t *testing.T) {
	text, err := testdata.Files.ReadFile("everything.yaml")
	require.NoError(t, err)
	root, _ := decode.Parse(text)
	_, layouts := root.Find("layouts")
	seen := map[string]bool{}
	for _, l := range layouts.Items {
		all := Of(text, textAt(l, "name"), nil)
		for _, h := range lines.ElementHelps() {
			at := slices.IndexFunc(all, func(c Control) bool { return regexp.MustCompile(`/line/\d+/` + h.Kind + "/").MatchString(c.At) })
			if at < 0 {
				continue
			}
			seen[h.Kind] = true
			before, _, _ := strings.Cut(all[at].At, "/"+h.Kind+"/")
			for _, k := range h.Keys {
				if strings.Contains(k.Fits, "line") || strings.Contains(k.Fits, "option") || slices.Contains([]string{"joined_by", "bends", "offers"}, k.Name) {
					continue // lists of mappings
				}
				assert.True(t, slices.ContainsFunc(all, func(c Control) bool { return strings.HasPrefix(c.At, before+"/"+h.Kind+"/"+k.Name) }), "%s of %s: %s", k.Name, h.Kind, k.Fits)
			}
		}
	}
	assert.Greater(t, len(seen), 12)
}

func BenchmarkControls(b *testing.B) {
	text, err := testdata.Files.ReadFile("dry-stack.yaml")
	require.NoError(b, err)
	for b.Loop() {
		Of(text, "as found", nil)
	}
}
