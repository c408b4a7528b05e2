package readings

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/draws/drawstest"
	"hushwake/source/spectrum"
)

// lagged is a boat bare and lagged: one flat doubt of the source, 4 dB, which both share, and one of the lagging.
func lagged(t *testing.T, sd float64) *draws.Model {
	var all []path.Prediction
	for _, name := range []string{"bare", "lagged"} {
		s := []path.Step{{Uncertain: []path.Uncertain{drawstest.Uncertain("source level", "s", 4)}}}
		b := drawstest.ExhaustBands
		if name == "lagged" {
			b = b.Shift(-10)
			s = append(s, path.Step{Uncertain: []path.Uncertain{drawstest.Uncertain("element model", "lagging", sd)}})
		}
		all = append(all, path.Prediction{Layout: &path.Layout{Name: name}, Listeners: []path.Heard{{Listener: path.Listener{Name: "helm"}, Bands: b, Routes: []path.Route{{Bands: b, Steps: s}}}}})
	}
	return model(t, all)
}

// recordedAt is a recording at the helm, so many dB over the prediction, on a scale of its own.
func recordedAt(index int, layout string, over, scale float64) path.Reading {
	b := drawstest.ExhaustBands.Shift(over + scale)
	if layout == "lagged" {
		b = b.Shift(-10)
	}
	return path.Reading{Index: index, Layout: layout, Listener: "helm", Recording: &path.Recorded{File: layout + ".wav", Bands: b, A: b.DBA(), C: b.DBC()}}
}

// levels of both layouts after readings.
func levelsAfter(t *testing.T, m *draws.Model, readings ...path.Reading) (bare, after float64) {
	c := calibrated(t, m, readings...)
	bare, _ = at(m, c.Draws, 0, 0)
	after, _ = at(m, c.Draws, 1, 0)
	return bare, after
}

// Two recordings of one recorder inform what differs between them, by the hand calculation: nine octaves that repeat to 1 dB
// each hold a difference to sqrt(2)/3 dB, against 4 dB of doubt of the lagging. The level itself they hardly move.
func TestTwoRecordingsInformTheirDifference(t *testing.T) {
	m := lagged(t, 4)
	bare, after := levelsAfter(t, m)
	b, a := levelsAfter(t, m, recordedAt(1, "bare", 0, -110), recordedAt(2, "lagged", -5, -110))
	require.InDelta(t, -5*16/(16+2.0/9), (a-b)-(after-bare), 0.2)
	require.InDelta(t, bare, b, 0.3, "the scale is not known")
	// another 20 dB on everything that this recorder shows moves nothing
	louder, quieter := levelsAfter(t, m, recordedAt(1, "bare", 0, -90), recordedAt(2, "lagged", -5, -90))
	require.InDelta(t, b, louder, 1e-6)
	require.InDelta(t, a, quieter, 1e-6)
}

// What all ways share, here the 4 dB of the source, two recordings leave as it was, by the hand calculation: the scale of 30 dB is
// all that could tell of it.
func TestRecordingsLeaveTheSharedDoubt(t *testing.T) {
	m := lagged(t, 4)
	want := math.Sqrt(1 / (1.0/16 + 1/(recorderScale*recorderScale)))
	for _, all := range [][]path.Reading{{recordedAt(1, "bare", 0, -110)}, {recordedAt(1, "bare", 0, -110), recordedAt(2, "lagged", -5, -110)}} {
		_, sd := at(m, calibrated(t, m, all...).Draws, 0, 0)
		require.InDelta(t, want, sd, 0.15, "%d of them", len(all))
	}
}

// Two recorders have a scale each: a difference between them says nothing.
func TestRecordersAreNotMixed(t *testing.T) {
	m := lagged(t, 4)
	bare, after := levelsAfter(t, m)
	other := recordedAt(2, "lagged", -5, -80)
	other.Instrument = "another phone"
	b, a := levelsAfter(t, m, recordedAt(1, "bare", 0, -110), other)
	require.InDelta(t, after-bare, a-b, 0.4)
	alone, _ := levelsAfter(t, m, recordedAt(1, "bare", 7, -110))
	require.InDelta(t, bare, alone, 0.3)
}

// With a meter held beside one recording the others stand on its scale: the level moves as by the meter's reading alone, or
// nearly, and that of the other layout with the difference.
func TestAMeterSetsTheScale(t *testing.T) {
	m := lagged(t, 4)
	bare, after := levelsAfter(t, m)
	metered := recordedAt(1, "bare", 0, -110)
	shown := bare + 3
	metered.Level, metered.PlusMinus = &shown, 1
	b, a := levelsAfter(t, m, metered, recordedAt(2, "lagged", -5, -110))
	require.Greater(t, b-bare, 2.0)
	require.Less(t, b-bare, 3.2)
	require.InDelta(t, -5*16/(16+2.0/9), (a-b)-(after-bare), 0.3)
	c := calibrated(t, m, metered)
	require.Len(t, c.Residuals, 10)
	for _, r := range c.Residuals {
		require.Equal(t, r.Unit != "dB(A)", strings.Contains(r.Reason, "scale of the meter"), r.Unit)
	}
	metered.Weighting = "C"
	for _, r := range calibrated(t, m, metered).Residuals {
		if r.Unit == "dB at 500 Hz" {
			require.InDelta(t, shown-metered.Recording.C+metered.Recording.Bands[4], *r.Measured, 1e-9)
		}
	}
}

func TestRecordingsThatAreNotUsed(t *testing.T) {
	m := lagged(t, 4)
	clipped, gone, cut := recordedAt(1, "bare", 0, -110), recordedAt(2, "bare", 0, -110), recordedAt(3, "bare", 0, -110)
	clipped.Recording.Clipped = true
	gone.Strike, gone.Recording = true, &path.Recorded{File: "gone.wav"}
	cut.Recording.Bands[8] = spectrum.Silent
	c := calibrated(t, m, clipped, gone, cut)
	require.Contains(t, c.Residuals[0].Reason, "clipped")
	require.True(t, c.Residuals[1].Struck)
	require.False(t, c.Residuals[1].Used)
	require.Len(t, c.Residuals, 2+8)
	nowhere := recordedAt(1, "bare", 0, 0)
	nowhere.Listener = "mast"
	_, err := Calibrate(m, drawn(t, m), []path.Reading{nowhere}, nil)
	require.ErrorContains(t, err, "no listener")
}

// Octaves of a recorder without a meter are called relative, and why is said once, however many there are.
func TestWithoutAMeterOctavesAreRelative(t *testing.T) {
	m := lagged(t, 4)
	c := calibrated(t, m, recordedAt(1, "bare", 0, -110), recordedAt(2, "lagged", -5, -110))
	require.Len(t, c.Residuals, 18)
	for _, r := range c.Residuals {
		require.Regexp(t, "^dB relative at [0-9.]+ Hz$", r.Unit)
		require.Empty(t, r.Reason)
	}
	require.Len(t, c.Warnings, 1)
	require.Contains(t, c.Warnings[0], "unnamed recorder are relative: no meter was held beside it")
	metered, level := recordedAt(1, "bare", 0, -110), 80.0
	metered.Level = &level
	c = calibrated(t, m, metered, recordedAt(2, "lagged", -5, -110))
	require.Empty(t, c.Warnings)
	for _, r := range c.Residuals {
		require.NotContains(t, r.Unit, "relative")
	}
}

// The errors that the rest stands on: half of what the compatibility text allows, wider at both ends.
func TestErrorsOfARecorder(t *testing.T) {
	require.Equal(t, spectrum.Bands{10, 10, 5, 5, 5, 5, 5, 5, 10}, recorderBands())
}
