package boatfile

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/panel"
	"hushwake/testdata"
)

// required are the keys that the contract requires, and those without which an entry is nothing:
// the sides of a partition, the list of a line, what a quote entry names, what a layout is like and where an insert goes.
var required = []string{"cycle", "cylinders", "rated", "rated.power", "rated.speed", "pipe.bore", "pipe.length", "hose.bore", "hose.length", "outlet", "outlet.at", "listeners entry.at", "item.hours", "watch.on",
	"line", "exhausts", "layouts", "engines", "listeners", "between", "branches", "offer", "offers", "name", "like", "after", "before", "elements"}

// named are sections whose keys are names.
var named = []string{"engines", "spaces", "enclosures", "listeners", "quotes", "exhausts", "replace", "passages"}

// place is one key of the file that may be left out.
type place struct {
	n    *node
	i    int
	path string
}

// optionalKeys walks a tree and collects the keys that an owner may not know.
func optionalKeys(n *node, parent, at string, out *[]place) {
	for i, k := range n.keys {
		here := at + "." + k.text
		must := slices.Contains(required, k.text) || slices.Contains(required, parent+"."+k.text)
		element := len(n.keys) == 1 && slices.Contains(elementKinds(), k.text)
		if !must && !element && !slices.Contains(named, parent) {
			*out = append(*out, place{n, i, here})
		}
		below := k.text
		if slices.Contains(named, parent) && parent != "exhausts" {
			below = parent + " entry"
		}
		optionalKeys(n.values[i], below, here, out)
	}
	for i, v := range n.items {
		optionalKeys(v, "item", fmt.Sprintf("%s[%d]", at, i), out)
	}
}

func decodeTree(root *node) []Problem {
	r := &reader{materials: panel.Default(), sea: 291.15}
	r.boat(root)
	return r.problems
}

// Every key but the few required ones may be absent or unknown: with any one of them gone the file
// still loads.
func TestAnyOtherKeyMayBeUnknownOrAbsent(t *testing.T) {
	text, err := testdata.Files.ReadFile("everything.yaml")
	require.NoError(t, err)
	root, problems := parseTree(text)
	require.Empty(t, problems)
	var places []place
	optionalKeys(root, "", "", &places)
	require.Greater(t, len(places), 200)
	// Leaving these out takes away what another key of the same file refers to.
	referred := map[string]bool{".quotes": true, ".spaces": true, ".enclosures": true, ".partitions": true, ".materials": true,
		".readings[6].strike":        true,                                                                                                 // its file would then be asked for
		".engines.spare.running":     true,                                                                                                 // it would then need an exhaust
		".layouts[1].changes.spaces": true, ".layouts[1].changes.spaces.locker.size": true, ".layouts[1].changes.partitions[2].area": true} // entries that the file doesn't have must be whole
	for _, p := range places {
		if referred[p.path] {
			continue
		}
		kept := p.n.values[p.i]
		p.n.values[p.i] = &node{kind: scalar, text: "don't know", line: kept.line, column: kept.column}
		assert.Empty(t, decodeTree(root), "%s unknown", p.path)
		p.n.values[p.i] = kept
		keys, values := p.n.keys, p.n.values
		p.n.keys = slices.Delete(slices.Clone(keys), p.i, p.i+1)
		p.n.values = slices.Delete(slices.Clone(values), p.i, p.i+1)
		assert.Empty(t, decodeTree(root), "%s absent", p.path)
		p.n.keys, p.n.values = keys, values
	}
}

// And with any value replaced by nonsense the loader refuses at that place, without a panic.
func TestNonsenseAnywhereIsRefused(t *testing.T) {
	text, err := testdata.Files.ReadFile("everything.yaml")
	require.NoError(t, err)
	root, _ := parseTree(text)
	var places []place
	optionalKeys(root, "", "", &places)
	free := []string{"boat", "currency", "claim", "test", "instrument", "open", "includes", "what", "source", "load", "material", "when", "recording"} // any text is good; of a recording where it is struck
	for _, p := range places {
		kept := p.n.values[p.i]
		if kept.kind == scalar && slices.Contains(free, p.n.keys[p.i].text) || slices.Contains(free, p.n.keys[p.i].text) {
			continue
		}
		p.n.values[p.i] = &node{kind: scalar, text: "-7 furlongs", line: kept.line, column: kept.column}
		assert.NotEmpty(t, decodeTree(root), "%s", p.path)
		p.n.values[p.i] = kept
	}
}
