package boatfile

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/lines"
	"hushwake/path/panel"
	"hushwake/testdata"
	"hushwake/testdata/turns"
)

// required are the keys that the contract requires, and those without which an entry is nothing:
// the sides of a partition, the list of a line, what a quote entry names, what a layout is like and where an insert goes.
var required = []string{"cycle", "cylinders", "rated", "rated.power", "rated.speed", "pipe.bore", "pipe.length", "hose.bore", "hose.length", "outlet", "outlet.at", "listeners entry.at", "item.hours", "watch.on",
	"line", "exhausts", "layouts", "engines", "listeners", "between", "branches", "offer", "offers", "name", "like", "after", "before", "elements"}

// named are sections whose keys are names.
var named = []string{"engines", "spaces", "enclosures", "listeners", "quotes", "exhausts", "replace", "passages"}

// place is one key of the file that may be left out.
type place struct {
	n    *decode.Node
	i    int
	path string
}

// optionalKeys walks a tree and collects the keys that an owner may not know.
func optionalKeys(n *decode.Node, parent, at string, out *[]place) {
	for i, k := range n.Keys {
		here := at + "." + k.Text
		must := slices.Contains(required, k.Text) || slices.Contains(required, parent+"."+k.Text)
		element := len(n.Keys) == 1 && slices.Contains(lines.Kinds(), k.Text)
		if !must && !element && !slices.Contains(named, parent) {
			*out = append(*out, place{n, i, here})
		}
		below := k.Text
		if slices.Contains(named, parent) && parent != "exhausts" {
			below = parent + " entry"
		}
		optionalKeys(n.Values[i], below, here, out)
	}
	for i, v := range n.Items {
		optionalKeys(v, "item", fmt.Sprintf("%s[%d]", at, i), out)
	}
}

func decodeTree(root *decode.Node) []decode.Problem {
	r := newReader(nil)
	r.boat(root)
	return r.Problems
}

// Every key but the few required ones may be absent or unknown: with any one of them gone the file
// still loads.
func TestAnyOtherKeyMayBeUnknownOrAbsent(t *testing.T) {
	text, err := testdata.Files.ReadFile("everything.yaml")
	require.NoError(t, err)
	root, problems := decode.Parse(text)
	require.Empty(t, problems)
	var places []place
	optionalKeys(root, "", "", &places)
	require.Greater(t, len(places), 200)
	// Leaving these out takes away what another key of the same file refers to.
	referred := map[string]bool{".quotes": true, ".spaces": true, ".enclosures": true, ".partitions": true, ".materials": true,
		".readings[6].strike":        true,                                                                                                 // its file would then be asked for
		".engines.spare.running":     true,                                                                                                 // it would then need an exhaust
		".layouts[1].changes.spaces": true, ".layouts[1].changes.spaces.locker.size": true, ".layouts[1].changes.partitions[2].area": true} // entries that the file doesn't have must be whole
	for i := range turns.Of(t, len(places), 4) {
		p := places[i]
		if referred[p.path] {
			continue
		}
		kept := p.n.Values[p.i]
		p.n.Values[p.i] = &decode.Node{Kind: decode.Scalar, Text: "don't know", Line: kept.Line, Column: kept.Column}
		assert.Empty(t, decodeTree(root), "%s unknown", p.path)
		p.n.Values[p.i] = kept
		keys, values := p.n.Keys, p.n.Values
		p.n.Keys = slices.Delete(slices.Clone(keys), p.i, p.i+1)
		p.n.Values = slices.Delete(slices.Clone(values), p.i, p.i+1)
		assert.Empty(t, decodeTree(root), "%s absent", p.path)
		p.n.Keys, p.n.Values = keys, values
	}
}

// And with any value replaced by nonsense the loader refuses at that place, without a panic.
func TestNonsenseAnywhereIsRefused(t *testing.T) {
	text, err := testdata.Files.ReadFile("everything.yaml")
	require.NoError(t, err)
	root, _ := decode.Parse(text)
	var places []place
	optionalKeys(root, "", "", &places)
	free := []string{"boat", "currency", "claim", "test", "instrument", "open", "includes", "what", "source", "load", "material", "when", "recording"} // any text is good; of a recording where it is struck
	for i := range turns.Of(t, len(places), 3) {
		p := places[i]
		kept := p.n.Values[p.i]
		if kept.Kind == decode.Scalar && slices.Contains(free, p.n.Keys[p.i].Text) || slices.Contains(free, p.n.Keys[p.i].Text) {
			continue
		}
		p.n.Values[p.i] = &decode.Node{Kind: decode.Scalar, Text: "-7 furlongs", Line: kept.Line, Column: kept.Column}
		assert.NotEmpty(t, decodeTree(root), "%s", p.path)
		p.n.Values[p.i] = kept
	}
}

func TestUsersOwnMaterial(t *testing.T) {
	b := load(t, "everything")
	m, ok := b.Materials.Find("house mat")
	require.True(t, ok)
	assert.True(t, m.User)
	assert.Equal(t, "weighed on a kitchen scale", m.Source)
	_, ok = panel.Default().Find("house mat")
	assert.False(t, ok, "one file's material must not reach another's")
}
