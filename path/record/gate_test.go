package record

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The record as a gate: a group of five rows or more stays within ±5 dB on the mean, and the band that
// should hold eight of ten holds seven to nine of them, over all rows that set no constant.
func TestRecordGate(t *testing.T) {
	cases, err := BuiltIn()
	require.NoError(t, err)
	rep, err := Run(cases, Options{})
	require.NoError(t, err)
	assert.GreaterOrEqual(t, rep.All.N, 20, "rows that are evidence")
	for _, g := range rep.Groups {
		if g.N >= 5 && g.Bias != nil {
			assert.InDelta(t, 0, *g.Bias, 5, "bias of %s over %d rows", g.Group, g.N)
		}
	}
	assert.GreaterOrEqual(t, *rep.All.Share(), 0.7, "share inside the band")
	assert.LessOrEqual(t, *rep.All.Share(), 0.9, "share inside the band: a band that is too wide is no honest band")
}

func BenchmarkRecord(b *testing.B) {
	cases, err := BuiltIn()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Run(cases, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
