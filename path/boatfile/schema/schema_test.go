package schema

import (
	"testing"

	"github.com/google/jsonschema-go/jsonschema"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/quantity"
)

// A mapping takes its own keys alone, misses those that are required, and lets the others be unknown.
func TestMapping(t *testing.T) {
	m := Mapping("a pipe", Fields{"bore!": Quantity(quantity.Length), "kind": Words("of steel", "mild", "stainless"), "at": At()})
	m.Defs = map[string]*jsonschema.Schema{"unknown": {Enum: []any{"unknown"}}}
	s, err := m.Resolve(nil)
	require.NoError(t, err)
	for _, good := range []map[string]any{{"bore": "80 mm"}, {"bore": "½ in", "kind": "mild"}, {"bore": "80 mm", "kind": "unknown"}, {"bore": "80 mm", "at": []any{"1 m", "0 m", "2 m"}}} {
		assert.NoError(t, s.Validate(good), "%v", good)
	}
	for _, bad := range []map[string]any{{}, {"bore": "80"}, {"bore": "unknown"}, {"bore": "80 mm", "kind": "copper"}, {"bore": "80 mm", "boar": "1 mm"}, {"bore": "80 mm", "at": []any{"1 m", "0 m"}}} {
		assert.Error(t, s.Validate(bad), "%v", bad)
	}
	p, err := func() (*jsonschema.Resolved, error) { x := Partial(m); return x.Resolve(nil) }()
	require.NoError(t, err)
	assert.NoError(t, p.Validate(map[string]any{}), "nothing is required of a change")
	assert.NotEmpty(t, m.Required, "the whole is as it was")
}
