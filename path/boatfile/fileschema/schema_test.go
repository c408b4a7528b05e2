package fileschema

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/google/jsonschema-go/jsonschema"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"
)

// asJSON turns a YAML file into the values that a JSON reader would give.
func asJSON(t *testing.T, file string) any {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	var v any
	require.NoError(t, yaml.Unmarshal(text, &v))
	j, err := json.Marshal(v)
	require.NoError(t, err)
	var out any
	require.NoError(t, json.Unmarshal(j, &out))
	return out
}

// resolved reads the schema back from its own JSON, as an editor would.
func resolved(t *testing.T) (*jsonschema.Schema, *jsonschema.Resolved) {
	t.Helper()
	text, err := json.Marshal(Schema())
	require.NoError(t, err)
	var s jsonschema.Schema
	require.NoError(t, json.Unmarshal(text, &s))
	r, err := s.Resolve(nil)
	require.NoError(t, err)
	return &s, r
}

func TestSchemaAcceptsGoodFiles(t *testing.T) {
	_, r := resolved(t)
	files, err := filepath.Glob("../../../testdata/" + "*.yaml")
	require.NoError(t, err)
	assert.GreaterOrEqual(t, len(files), 5)
	for _, f := range files {
		assert.NoError(t, r.Validate(asJSON(t, f)), f)
	}
}

func TestSchemaRefusesBrokenFiles(t *testing.T) {
	_, r := resolved(t)
	for _, name := range []string{"missing-unit", "unknown-key", "missing-required", "required-unknown", "wrong-word", "wrong-type", "two-numbers", "unknown-element", "eight-bands", "quote-names-itself", "a-list", "percent-of-nothing"} {
		assert.Error(t, r.Validate(asJSON(t, "../../../testdata/broken/"+name+".yaml")), name)
	}
}

// Every key of the schema stands in one of the two files that the loader must read, so neither can
// know a key that the other doesn't: the loader refuses unknown keys, the schema likewise.
func TestSchemaAndFilesHoldTheSameKeys(t *testing.T) {
	s, _ := resolved(t)
	var want, have []string
	properties(s, &want)
	for _, f := range []string{"everything", "bench", "choice"} {
		keys(asJSON(t, "../../../testdata/"+f+".yaml"), &have)
	}
	for _, k := range want {
		assert.Contains(t, have, k, "no test file uses the key")
	}
}

func properties(s *jsonschema.Schema, out *[]string) {
	if s == nil {
		return
	}
	for k, p := range s.Properties {
		if !slices.Contains(*out, k) {
			*out = append(*out, k)
		}
		properties(p, out)
	}
	for _, d := range s.Defs {
		properties(d, out)
	}
	for _, list := range [][]*jsonschema.Schema{s.AnyOf, s.OneOf, s.AllOf, {s.Items, s.AdditionalProperties}} {
		for _, p := range list {
			properties(p, out)
		}
	}
}

func keys(v any, out *[]string) {
	switch v := v.(type) {
	case map[string]any:
		for k, w := range v {
			*out = append(*out, k)
			keys(w, out)
		}
	case []any:
		for _, w := range v {
			keys(w, out)
		}
	}
}
