package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path/recording/recordingtest"
	"hushwake/path/report/parts"
	"hushwake/source/spectrum"
)

// sixes is the engine of the dry-stack demo, recorded.
var sixes = recordingtest.Engine{Cylinders: 6, TwoStroke: true, Speed: 1710, Drift: 0.004, Scatter: 0.06, Noise: -15, Seed: 5}

// ten are ten seconds of it by their level.
var ten sync.Map

// recorded saves ten seconds of it at a level.
func recorded(t testing.TB, name string, level float64) string {
	samples, ok := ten.Load(level)
	if !ok {
		e := sixes
		e.Level = level
		samples = e.Record(8000, 10).Samples
		ten.Store(level, samples)
	}
	return recordingtest.Save(t, name, 8000, samples.([]float64))
}

// The document of two recordings keeps what is promised, decided and not.
func TestPromisedListen(t *testing.T) {
	form, rest := parseShape(promised["listen"])
	require.Empty(t, rest)
	before, after := recorded(t, "before.wav", 0.2), recorded(t, "after.wav", 0.05)
	for _, more := range [][]string{{"--boat", demos + "dry-stack.yaml", "--level", "84.5dBA"}, {}} {
		var v any
		document(t, &v, append([]string{"listen", before, after}, more...)...)
		form.check(t, "listen", v)
	}
	require.Empty(t, form.unmet("listen"))
}

// From a file of sound and a boat file to orders and levels: speed and cylinders are those of the boat, the scale that of the meter, and the
// second recording is on it too.
func TestListenWithABoatAndAMeter(t *testing.T) {
	before, after := recorded(t, "before.wav", 0.2), recorded(t, "after.wav", 0.05)
	var d parts.Listen
	document(t, &d, "listen", before, after, "--boat", demos+"dry-stack.yaml", "--level", "84.5dBA", "--listener", "helm")
	require.True(t, d.Calibrated)
	require.InDelta(t, 84.5, *d.Files[0].LevelDBA, 1e-3)
	require.InDelta(t, 84.5-12.04, *d.Files[1].LevelDBA, 0.05)
	require.InDelta(t, -12.04, *d.Differences[0].DBA, 0.05)
	require.InEpsilon(t, 1710, *d.Files[0].Speed, 0.002)
	require.InDelta(t, *d.Files[0].Speed/10, *d.Files[0].Firing, 0.1)
	firing := 0
	for _, o := range d.Files[0].Orders {
		if o.Label == "firing" {
			firing++
			require.Zero(t, int(*o.Order)%6)
		}
	}
	require.GreaterOrEqual(t, firing, 3)
	tone := d.Files[0].Tone // one of the engine's lines, whatever the scale
	require.NotNil(t, tone)
	order := *tone.Frequency / (*d.Files[0].Speed / 60)
	require.InDelta(t, math.Round(order), order, 0.1)
	require.InDelta(t, *tone.Audibility, *d.Files[1].Tone.Audibility, 0.01)
	require.Nil(t, d.Files[0].Bands[spectrum.N-1], "8 kHz of samples hold no 8 kHz octave")
	require.Equal(t, "as found", d.Predicted.Layout)
	require.Contains(t, d.Predicted.Text, "outside")
}

// Without a meter there is no dB(A), in any form; without cylinders no speed.
func TestListenNeverSaysMoreThanIsKnown(t *testing.T) {
	before := recorded(t, "before.wav", 0.2)
	text := output(t, "listen", before, "--cylinders", "6", "--two-stroke", "--rpm", "1650", "--quiet")
	require.Regexp(t, "17(09|1[01]) rpm", text)
	require.Contains(t, text, "relative to full scale")
	require.Regexp(t, `To the ear: a tone stands out at \d+ Hz, a drone, \d+ dB over just heard`, text)
	require.NotContains(t, strings.ReplaceAll(text, "no dB(A)", ""), "dB(A)")
	require.Contains(t, output(t, "listen", before, "--quiet"), "The speed is not decided")
	require.Contains(t, output(t, "listen", before, "--quiet", "--cylinders", "6", "--two-stroke", "--rpm", "1650", "--level", "70 dBC"), "70.0 dB(C)")
	csv := output(t, "listen", before, before, "--quiet", "--cylinders", "6", "--two-stroke", "--rpm", "1650", "--format", "csv")
	for _, want := range []string{"file,what,at,db\n", "before.wav,third octave,", "before.wav,order,6,", "before.wav less before.wav,A,,0\n"} {
		require.Contains(t, csv, want)
	}
}

func TestListenRefuses(t *testing.T) {
	before := recorded(t, "before.wav", 0.2)
	for want, args := range map[string][]string{
		"listen takes recordings":    {},
		"file does not exist":        {filepath.Join(t.TempDir(), "none.wav")},
		"neither WAV nor FLAC":       {demos + "dry-stack.yaml"},
		"--level":                    {before, "--level", "84"},
		"20 to 150":                  {before, "--level", "184 dBA"},
		"--rpm":                      {before, "--rpm", "fast"},
		"over 0":                     {before, "--rpm", "0 rpm"},
		"--cylinders 99":             {before, "--cylinders", "99"},
		"--cylinders 0":              {before, "--cylinders", "0"},
		"--listener without --boat":  {before, "--listener", "helm", "--level", "80 dBA"},
		"--engine without --boat":    {before, "--engine", "main"},
		"--listener without --level": {before, "--boat", demos + "dry-stack.yaml", "--listener", "helm"},
		"beside --boat":              {before, "--boat", demos + "dry-stack.yaml", "--cylinders", "6"},
		"without --cylinders":        {before, "--two-stroke"},
		"no layout named":            {before, "--boat", demos + "dry-stack.yaml", "--layout", "x"},
		"no engine":                  {before, "--boat", demos + "dry-stack.yaml", "--engine", "x"},
		"no listener named":          {before, "--boat", demos + "dry-stack.yaml", "--level", "80 dBA", "--listener", "x"},
	} {
		var out, said bytes.Buffer
		require.Equal(t, statusBadInput, run(append([]string{"listen"}, args...), streams{out: &out, err: &said}), want)
		require.Contains(t, said.String(), want)
		require.Contains(t, said.String(), "hint:", want)
	}
	var v any
	require.NoError(t, json.Unmarshal([]byte(output(t, "schema", "listen")), &v))
}

// Recordings named in a boat file move the draws, from the file of sound to the level that is printed: what opening a door
// brings is taken from the two, and counts as two readings.
func TestReadingsFromRecordings(t *testing.T) {
	folder := t.TempDir()
	for name, level := range map[string]float64{"shut.wav": 0.05, "open.wav": 0.2} {
		require.NoError(t, os.Rename(recorded(t, name, level), filepath.Join(folder, name)))
	}
	text := string(starter(t, "dry-stack"))
	before, rest, ok := strings.Cut(text, "\nreadings:")
	require.True(t, ok)
	_, after, ok := strings.Cut(rest, "\npassage")
	require.True(t, ok)
	boat := filepath.Join(folder, "boat.yaml")
	require.NoError(t, os.WriteFile(boat, []byte(before+`
readings:
  - {recording: shut.wav, listener: helm, layout: as found}
  - {recording: open.wav, listener: helm, layout: "as found, door open", open: [wheelhouse door]}
passage`+after), 0o600))
	var c struct {
		Used    int `json:"readings_used"`
		Layouts []struct {
			Listeners []struct {
				Level float64 `json:"level_dba"`
				Was   float64 `json:"uncorrected_dba"`
			} `json:"listeners"`
		} `json:"layouts"`
	}
	document(t, &c, "compare", boat, "--draws", "800")
	require.Equal(t, 2, c.Used)
	shut, open := c.Layouts[0].Listeners[0], c.Layouts[1].Listeners[0]
	modelled, fitted := open.Was-shut.Was, open.Level-shut.Level
	require.Less(t, math.Abs(fitted-12.04), math.Abs(modelled-12.04), "from %.1f dB towards the 12 dB of the recordings: %.1f", modelled, fitted)
}

// Two recordings of an engine with a dead cylinder say so, one alone does not, nor one beside a sound engine.
func TestListenTellsOfAWeakCylinder(t *testing.T) {
	save := func(name string, weak float64, seed uint64) string {
		e := recordingtest.Engine{Cylinders: 6, Speed: 1700, Drift: 0.004, Scatter: 0.05, Weak: weak, Noise: -20, Seed: seed}
		return recordingtest.Save(t, name, 8000, e.Record(8000, 10).Samples)
	}
	dead, again, alike := save("dead.wav", 1, 1), save("again.wav", 1, 2), save("alike.wav", 0, 3)
	said := func(files ...string) string {
		return output(t, append([]string{"listen", "--quiet", "--cylinders", "6", "--rpm", "1650"}, files...)...)
	}
	require.Contains(t, said(dead, again), "One cylinder may be weak: in dead.wav and in again.wav")
	require.NotContains(t, said(dead), "may be weak")
	require.NotContains(t, said(dead, alike), "may be weak")
}
