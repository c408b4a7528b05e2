package overlay

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/decode"
)

func tree(t *testing.T, text string) *decode.Node {
	t.Helper()
	n, problems := decode.Parse([]byte(text))
	require.Empty(t, problems)
	return n
}

func key(n *decode.Node, key string) *decode.Node {
	_, v := n.Find(key)
	return v
}

// Two changes in a row are one change of both; a change of nothing, or none, is the base.
func TestNames(t *testing.T) {
	base := tree(t, "saloon: {size: [1 m, 2 m, 3 m], lining: foam}\nhold: {lining: none}\n")
	a, b := tree(t, "saloon: {lining: wood}\n"), tree(t, "hold: {size: [1 m, 1 m, 1 m]}\n")
	var r decode.Reader
	twice := Names(&r, Names(&r, base, a, "space"), b, "space")
	both := Names(&r, base, tree(t, "saloon: {lining: wood}\nhold: {size: [1 m, 1 m, 1 m]}\n"), "space")
	assert.True(t, twice.Equal(both))
	assert.Equal(t, "wood", key(key(twice, "saloon"), "lining").Text)
	assert.Len(t, key(key(twice, "saloon"), "size").Items, 3, "what is not changed stays")
	assert.Equal(t, "foam", key(key(base, "saloon"), "lining").Text, "the base is as it was")
	assert.Same(t, base, Names(&r, base, nil, "space"))
	assert.Empty(t, r.Problems)
	Names(&r, base, tree(t, "salon: {lining: wood}\n"), "space")
	require.Len(t, r.Problems, 1)
	assert.Contains(t, r.Problems[0].Hint, `"saloon"`)
}

// A partition is found by its name or its two sides in any order, and keeps the order of the file.
func TestPartitions(t *testing.T) {
	base := tree(t, "- {between: [a, b], area: 1 m2}\n- {name: door, between: [b, c], area: 2 m2}\n")
	var r decode.Reader
	out := Partitions(&r, base, tree(t, "- {between: [b, a], area: 5 m2}\n- {name: door, area: 6 m2}\n- {between: [c, d], area: 7 m2}\n"))
	require.Empty(t, r.Problems)
	require.Len(t, out.Items, 3)
	for i, area := range []string{"5 m2", "6 m2", "7 m2"} {
		assert.Equal(t, area, key(out.Items[i], "area").Text)
	}
	assert.Equal(t, "a", key(out.Items[0], "between").Items[0].Text)
	Partitions(&r, base, tree(t, "- {name: dor, area: 1 m2}\n"))
	require.Len(t, r.Problems, 1)
	assert.Contains(t, r.Problems[0].Message, `no partition "dor"`)
}

// A layout that is like another is that one with its own keys laid over, and a file without such layouts is left alone.
func TestWrittenOut(t *testing.T) {
	const file = `layouts:
  - {name: one, price: 10, promised: {level: 60 dBA}, exhausts: {main: {line: [{pipe: {}}, {pipe: {}}, {packed: {name: box}}]}}}
`
	plain := tree(t, file)
	var r decode.Reader
	assert.True(t, plain.Equal(WrittenOut(&r, plain)))
	out := WrittenOut(&r, tree(t, file+"  - {name: two, like: one, price: 20, remove: pipe 2, insert: {after: box, elements: {elbow: {}}}}\n"))
	require.Empty(t, r.Problems)
	two := key(out, "layouts").Items[1]
	assert.Equal(t, "price exhausts name", strings.Join(decode.KeysOf(two), " "))
	assert.Equal(t, "20", key(two, "price").Text)
	var kinds []string
	for _, e := range key(key(key(two, "exhausts"), "main"), "line").Items {
		kinds = append(kinds, KindOf(e))
	}
	assert.Equal(t, []string{"pipe", "packed", "elbow"}, kinds)
	WrittenOut(&r, tree(t, file+"  - {name: two, like: won}\n"))
	require.Len(t, r.Problems, 1)
	assert.Contains(t, r.Problems[0].Message, `no layout "won"`)
}
