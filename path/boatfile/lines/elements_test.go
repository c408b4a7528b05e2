package lines

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/decode"
	"hushwake/silencer"
)

// readElement decodes one element from its text, with what is wrong.
func readElement(t *testing.T, kind, body string) (silencer.Element, string) {
	t.Helper()
	n, problems := decode.Parse([]byte(fmt.Sprintf("- %s: %s\n", kind, body)))
	require.Empty(t, problems)
	r := &Common{Sea: 288}
	l := &Reader{Common: r, bore: 0.1, Quotes: map[string]Offer{"A": {}}, Names: []string{"A"}, Filled: map[Filled][]string{}, Cost: &Cost{}}
	list := l.Elements(n, "line")
	said := ""
	for _, p := range r.Problems {
		said += p.Message + "\n"
	}
	if len(list) == 0 || list[0] == nil {
		return nil, said
	}
	return list[0], said
}

// Decoder, schema and help of every kind agree: what the schema requires the decoder misses, every key of the schema is
// known to it, what it may leave out it may call unknown, and no other key is taken.
func TestDecoderAndSchemaAgree(t *testing.T) {
	properties := Schema().Properties
	assert.Len(t, properties, len(Kinds()))
	for _, h := range ElementHelps() {
		t.Run(h.Kind, func(t *testing.T) {
			assert.NotEmpty(t, h.Words)
			s := properties[h.Kind]
			if h.Kind == "slot" { // no element: slot_test.go
				return
			}
			if s.AnyOf != nil { // a bare name, or a mapping
				s = s.AnyOf[1]
			}
			keys := append(slices.Clone(h.Keys), commonKeys()...)
			assert.Len(t, s.Properties, len(keys))
			_, missing := readElement(t, h.Kind, "{}")
			for _, k := range keys {
				require.Contains(t, s.Properties, k.Name)
				assert.Equal(t, slices.Contains(s.Required, k.Name), k.Required, k.Name)
				assert.Equal(t, k.Required, strings.Contains(missing, fmt.Sprintf("lacks %q, which is required", k.Name)), k.Name)
				assert.NotEmpty(t, k.Fits, k.Name)
				_, said := readElement(t, h.Kind, fmt.Sprintf("{%s: unknown}", k.Name))
				assert.NotContains(t, said, "unknown key", k.Name)
				assert.Equal(t, k.Required, strings.Contains(said, k.Name), "%s may be unknown: %s", k.Name, said)
			}
			_, said := readElement(t, h.Kind, "{offer: A, offers: [A], zzz: 1}")
			assert.Contains(t, said, `unknown key "zzz"`)
			e, _ := readElement(t, h.Kind, "{}")
			if row, _ := kindOf(h.Kind); row.fields != nil {
				assert.Equal(t, h.Kind, e.Kind())
			}
		})
	}
}

// What is taken where a size is not stated is what the help says, and a tube's bore is handed on.
func TestDefaultsOfACone(t *testing.T) {
	e, said := readElement(t, "cone", "{}")
	assert.Empty(t, said)
	c := e.(*silencer.Cone)
	assert.Equal(t, [2]float64{0.1, 0.1}, c.Bores)
	assert.InDelta(t, 0.3, c.Length, 1e-12)
	assert.Equal(t, "mild steel", c.Material)
	e, said = readElement(t, "cone", "{bores: [102 mm, 152 mm], length: 300 mm}")
	assert.Empty(t, said)
	assert.InDeltaSlice(t, []float64{0.102, 0.152}, e.(*silencer.Cone).Bores[:], 1e-12)
	for body, want := range map[string]string{"{bores: [102 mm]}": "bores", "{bores: [102 mm, 5 kg]}": "kg", "{bores: [102 mm, -1 mm]}": "negative", "{length: 0 mm}": "more than zero", "{bore: 102 mm}": `unknown key "bore"`} {
		_, said = readElement(t, "cone", body)
		assert.Contains(t, said, want, body)
	}
	n, _ := decode.Parse([]byte("- cone: {bores: [102 mm, 152 mm]}\n- chamber: {}\n"))
	l := &Reader{Common: &Common{}, Filled: map[Filled][]string{}, Cost: &Cost{}, Next: FirstBore(n.Items)}
	assert.InDelta(t, 0.102, l.Next, 1e-12)
	list := l.Elements(n, "line")
	assert.Equal(t, 0.152, list[1].(*silencer.Chamber).InletBore)
}
