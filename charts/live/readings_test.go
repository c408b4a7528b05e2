package live

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	session "hushwake/path/live"
	"hushwake/testdata"
)

// A reading that is later than another taken in the same way, and contradicts it, is not fitted: the page says so beside the form.
func TestAReadingThatDoesNotCountIsSaid(t *testing.T) {
	text, err := testdata.Files.ReadFile("generator-box.yaml")
	require.NoError(t, err)
	d := newDesk(session.New("boat.yaml", text))
	assert.NotContains(t, answered(t, d, `{"op":"show","page":"a"}`).Fragments["readings"], "is not used")
	a := answered(t, d, `{"op":"note","page":"a","layout":"as is","listener":"pillow","to":"70 dBA","plus_minus":"2 dB"}`)
	require.Empty(t, a.Errors)
	assert.Contains(t, a.Fragments["readings"], "Reading 7 is not used: later than its baseline, and something has changed")
	assert.Contains(t, a.Fragments["readings"], "strike: true")
	a = answered(t, d, `{"op":"set","page":"a","at":"/readings/0/strike","to":"yes"}`)
	require.Empty(t, a.Errors)
	assert.NotContains(t, a.Fragments["readings"], "Reading 7 is not used", "the advice holds")
	assert.Contains(t, a.Fragments["readings"], "that count: 6")
}
