package report

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/path"
)

// The title of a level that can't be judged says so.
func TestExplainedLevelIsNoVerdict(t *testing.T) {
	of := func(p path.Prediction) string { return (&Explained{prediction: p}).unjudged() }
	assert.Empty(t, of(path.Prediction{}))
	assert.Contains(t, of(path.Prediction{Questions: []string{"loss?"}}), "ask first")
	assert.Contains(t, of(path.Prediction{Questions: []string{"loss?"}, Refused: true}), "refused")
}
