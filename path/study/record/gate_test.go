package record

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile"
	"hushwake/testdata/turns"
)

// The record as a gate, over all rows that set no constant: a group of five rows or more stays within ±5 dB on
// the mean; the band that should hold eight of ten holds seven to nine of ten readings and at least seven of ten
// rows of all. Limits are left out of the upper bound: most of a band lies on the kept side of a limit, so that
// keeping all of them is no sign of a band too wide.
// The upper bound stood on all rows at first; 20 of 22 (91 %) with seven limits kept and 13 of 15 readings inside was
// then seen, and the bound was put on the readings.
func TestRecordGate(t *testing.T) {
	cases, err := BuiltIn()
	require.NoError(t, err)
	rep, err := Run(cases, Options{Samples: samples(DefaultSamples)}) // the gate itself is with all that are usual
	require.NoError(t, err)
	assert.GreaterOrEqual(t, rep.All.N, 20, "rows that are evidence")
	for _, g := range rep.Groups {
		if g.N >= 5 && g.Bias != nil {
			assert.InDelta(t, 0, *g.Bias, 5, "bias of %s over %d rows", g.Group, g.N)
		}
	}
	assert.GreaterOrEqual(t, *rep.All.Share(), 0.7, "share inside the band")
	readings := *rep.All.ReadingsShare()
	assert.GreaterOrEqual(t, readings, 0.7, "share of the readings inside the band")
	assert.LessOrEqual(t, readings, 0.9, "share of the readings inside the band: a band that is too wide is no honest band")
	wetRows(t, rep)
}

// wetRows: readings on and by wet boats lie on the mean within 5 dB with a silencer or lift chamber and within 4 with
// an open outlet; each level lies inside its band. No constant was set by them.
func wetRows(t *testing.T, rep Report) {
	for i := range rep.Rows {
		if r := &rep.Rows[i]; r.Counted() && strings.HasPrefix(r.Group, "wet") && r.Less == nil {
			assert.True(t, r.Inside, "%s/%s", r.Case.ID, r.ID)
		}
	}
	for _, g := range rep.Groups {
		if most, ok := map[string]float64{"wet silenced": 5, "wet open": 4}[g.Group]; ok {
			assert.InDelta(t, 0, *g.Bias, most, g.Group)
		}
	}
}

// A portable petrol set showed dB(C) - dB(A) of 3 at 7 m and 4 at 18 m, on a hobby meter: the medians lie within 5 dB
// of that. Before the gas flow bounded the orders the difference was 14.
func TestPortableSetIsNotAllRumble(t *testing.T) {
	cases, err := BuiltIn()
	require.NoError(t, err)
	level := map[string]float64{}
	for _, c := range cases {
		if c.ID == "petrol-set-portable" {
			rep, err := Run([]*boatfile.Case{c}, Options{Samples: samples(24)})
			require.NoError(t, err)
			for _, r := range rep.Rows {
				level[r.ID] = r.Predicted
			}
		}
	}
	for _, seat := range []string{"7m", "18m"} {
		assert.InDelta(t, 3.5, level[seat+"-C"]-level[seat+"-A"], 5.5, seat)
	}
}

// samples are eight, or all where that is wanted.
func samples(all int) int {
	if turns.All() {
		return all
	}
	return 8
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
