package record

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
	"hushwake/testdata"
)

func f64(v float64) *float64 { return &v }

// builtIn is one case of the record, changed in its text.
func builtIn(t *testing.T, id string, change ...string) *boatfile.Case {
	t.Helper()
	text, err := testdata.Proof.ReadFile("measured/" + id + ".yaml")
	require.NoError(t, err)
	c, err := boatfile.LoadCase(id, []byte(strings.NewReplacer(change...).Replace(string(text))))
	require.NoError(t, err)
	return c
}

// Every slice of one n-th holds each input once, and equal seeds give equal samples.
func TestHypercube(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, n, seed := rapid.IntRange(0, 8).Draw(t, "k"), rapid.IntRange(1, 40).Draw(t, "n"), rapid.Uint64().Draw(t, "seed")
		all := hypercube(k, n, seed)
		require.Len(t, all, n)
		require.Equal(t, all, hypercube(k, n, seed))
		for j := range k {
			seen := make([]bool, n)
			for i := range all {
				seen[int(all[i][j]*float64(n))] = true
			}
			assert.NotContains(t, seen, false)
		}
	})
}

// Of draws that are the numbers 0 to 100 the band runs from 10 to 90 round 50.
func TestVerdicts(t *testing.T) {
	v := make([]float64, 101)
	for i := range v {
		v[i] = float64(i)
	}
	for _, c := range []struct {
		low, high   *float64
		deviation   float64
		inside, far bool
	}{
		{f64(60), f64(60), -10, true, false},
		{f64(10), f64(10), 40, true, false},
		{f64(9), f64(9), 41, false, true}, // over 20 dB, however wide the band
		{f64(20), f64(40), 20, true, false},
		{nil, f64(5), 45, false, true},
		{nil, f64(10), 40, true, false},
		{nil, f64(70), 0, true, false}, // a limit that is kept is not off by anything
		{f64(95), nil, -45, false, true},
		{f64(70), nil, -20, true, false},
		{f64(30), nil, 0, true, false},
	} {
		r := Row{CaseRow: boatfile.CaseRow{Low: c.low, High: c.high}}
		r.score(v)
		assert.Equal(t, []float64{50, 10, 90}, []float64{r.Predicted, r.LowP, r.Top})
		assert.InDelta(t, c.deviation, r.Deviation, 1e-9)
		assert.Equal(t, c.inside, r.Inside, "%v", c)
		assert.Equal(t, c.far, r.Far, "%v", c)
	}
}

// Far outside begins at three half-widths: 3 dB of a band of ±1 is a reading's own error, 6.1 is not.
func TestFarOutsideOfANarrowBand(t *testing.T) {
	v := []float64{69, 70, 71}
	for measured, far := range map[float64]bool{73: false, 75.9: false, 76.1: true, 64.1: false, 63.9: true} {
		r := Row{CaseRow: boatfile.CaseRow{Low: f64(measured), High: f64(measured)}}
		r.score(v)
		assert.Equal(t, far, r.Far, "%g", measured)
	}
	wide := Row{CaseRow: boatfile.CaseRow{Low: f64(0), High: f64(0)}}
	wide.score([]float64{8, 13, 18}) // ±4: three half-widths are 12
	assert.True(t, wide.Far)
	for measured, far := range map[float64]bool{49.5: false, 51: true, 11: false, 9: true} {
		r := Row{CaseRow: boatfile.CaseRow{Low: f64(measured), High: f64(measured)}}
		r.score([]float64{15, 30, 45}) // however wide the band: a hundredfold in energy
		assert.Equal(t, far, r.Far, "%g of a wide band", measured)
	}
}

// Readings that are drawn from the prediction itself lie inside its band eight times in ten.
func TestBandHoldsEightOfTen(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	rows := make([]Row, 2000)
	for i := range rows {
		v := make([]float64, 400)
		for d := range v {
			v[d] = 70 + 6*r.NormFloat64()
		}
		m := 70 + 6*r.NormFloat64()
		rows[i].CaseRow = boatfile.CaseRow{Low: &m, High: &m}
		rows[i].score(v)
	}
	s := sumOf("all", rows, (*Row).Counted)
	assert.InDelta(t, 0.8, *s.Share(), 0.03) // 3.4 standard deviations of 2000 trials
	assert.InDelta(t, 0, *s.Bias, 0.5)
	assert.InDelta(t, 6, *s.Spread, 0.4)
}

// Bias and spread are of readings alone; limits count in the share; rows that set a constant in neither.
func TestSums(t *testing.T) {
	row := func(low, high *float64, dev float64, inside bool, sets string) Row {
		return Row{CaseRow: boatfile.CaseRow{Low: low, High: high, SetsConstant: sets, Group: "dry stack"}, Deviation: dev, Inside: inside}
	}
	rep := Report{Rows: []Row{row(f64(1), f64(1), 2, true, ""), row(f64(1), f64(1), 6, false, ""), row(nil, f64(1), 9, false, ""), row(f64(1), f64(1), 30, false, "x")}}
	rep.sum()
	assert.Equal(t, []int{3, 1, 1}, []int{rep.All.N, rep.All.Limits, rep.All.Inside})
	assert.InDelta(t, 4, *rep.All.Bias, 1e-12)
	assert.InDelta(t, 2.8284271, *rep.All.Spread, 1e-6)
	assert.InDelta(t, 1.0/3, *rep.All.Share(), 1e-12)
	assert.Equal(t, 1, rep.Set.N)
	require.Len(t, rep.Groups, 1)
	assert.Nil(t, Sum{}.Share(), "no row, no share")
}

// The seam to study: where the assumed inputs do not touch a row, its band is that of the Monte Carlo of the
// same boat, whether all inputs are stated or each sample takes its part of the draws.
func TestUntouchedRowIsTheMonteCarlo(t *testing.T) {
	c := builtIn(t, "trawler-24m")
	deck := c.Assumed[len(c.Assumed)-1:] // the place on the fishing deck
	p, err := scene.Predict(c.Boat, c.Boat.Layouts[0])
	require.NoError(t, err)
	m, err := draws.NewModel([]path.Prediction{p})
	require.NoError(t, err)
	s, err := m.MonteCarlo(draws.Options{N: 400, Seed: 7})
	require.NoError(t, err)
	for _, assumed := range [][]boatfile.Assumed{nil, deck} {
		c.Assumed = assumed
		o := Options{Draws: 400, Seed: 7, Samples: 4}
		if assumed != nil {
			o.Draws = 100
		}
		rows, err := runCase(c, o)
		require.NoError(t, err)
		// alike terms take their turn to draw by how much they move all seats: where the seat on deck moves, walls that nobody
		// stated may swap theirs (0.3 dB set after seeing 0.15 of 400 draws)
		slack := 1e-9
		if assumed != nil {
			slack = 0.3
		}
		for i, h := range s.Layouts[0].Listeners[:2] { // engine room and cabin
			assert.InDelta(t, h.Level, rows[i].Predicted, slack)
			assert.InDelta(t, h.Low, rows[i].LowP, slack)
			assert.InDelta(t, h.High, rows[i].Top, slack)
		}
	}
}

// The seam to path: what is taken as the sound power of a part is that of the engine's source, and
// octaves add up to their total.
func TestSoundPowerIsTheSources(t *testing.T) {
	c := builtIn(t, "diesel-set-220kw")
	p, err := scene.Predict(c.Boat, c.Boat.Layouts[0])
	require.NoError(t, err)
	for _, q := range probesOf(c) {
		h, err := q.hear(p.Listeners)
		require.NoError(t, err)
		require.Len(t, h.Routes, 1)
		require.Len(t, h.Routes[0].Steps, 1)
		src := p.Exhausts[0].Source.Exhaust.Bands
		if q.seat.SoundPower == "casing" {
			src = p.Exhausts[0].Source.Casing.Bands
		}
		want := src.DBA()
		if q.octave >= 0 {
			want = src[q.octave] + spectrum.A[q.octave]
		}
		assert.InDelta(t, want, h.Routes[0].Bands.Plus(spectrum.A).Total(), 1e-9)
	}
	_, err = probe{seat: boatfile.Seat{SoundPower: "gearbox"}}.hear(p.Listeners)
	require.ErrorContains(t, err, "no prediction")
}

// C-weighted rows: the shift makes the A-weight of the bands their C-weighted level.
func TestWeighting(t *testing.T) {
	b := spectrum.Bands{90, 85, 80, 75, 70, 68, 60, 50, 40}
	assert.InDelta(t, b.DBC(), probe{weight: spectrum.C, octave: -1}.weighted(b).Plus(spectrum.A).Total(), 1e-9)
	assert.InDelta(t, b.DBA(), probe{weight: spectrum.A, octave: -1}.weighted(b).Plus(spectrum.A).Total(), 1e-9)
}

// A wider span of an input that matters gives a wider band.
func TestSpansWidenTheBand(t *testing.T) {
	width := func(from string) float64 {
		c := builtIn(t, "trawler-24m", "from: -6 m, to: -1 m", "from: "+from+", to: -1 m")
		c.Assumed = c.Assumed[len(c.Assumed)-1:] // the place on the fishing deck alone
		rows, err := runCase(c, Options{Samples: 8, Draws: 150, Seed: 1})
		require.NoError(t, err)
		return rows[2].Top - rows[2].LowP
	}
	assert.Greater(t, width("-80 m"), width("-1.1 m")+1)
}

// A difference of two seats of one boat moves with neither the source nor the reading's own level.
func TestDifferencesShareTheirDoubts(t *testing.T) {
	rep, err := Run([]*boatfile.Case{builtIn(t, "over-water")}, Options{Samples: 6, Draws: 100})
	require.NoError(t, err)
	r := rep.Rows[0]
	assert.InDelta(t, -6, r.Predicted, 1, "15 to 30 m is a doubling")
	assert.Less(t, r.Top-r.LowP, 8.0, "the source's doubt of 5 dB cancels")
}

// A file alone makes a row: nothing in the code knows the cases. The reading moved by 30 dB lies far outside.
func TestANewFileIsEnough(t *testing.T) {
	dir := t.TempDir()
	text, err := testdata.Proof.ReadFile("measured/petrol-set-portable.yaml")
	require.NoError(t, err)
	moved := strings.NewReplacer("id: petrol-set-portable", "id: moved", "measured: 81 dBA", "measured: 111 dBA").Replace(string(text))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "new.yaml"), []byte(moved), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "old.yaml"), text, 0o600))
	cases, err := Load(dir)
	require.NoError(t, err)
	rep, err := Run(cases, Options{Samples: 4, Draws: 100})
	require.NoError(t, err)
	require.Len(t, rep.Rows, 8)
	assert.True(t, rep.Rows[0].Far)
	assert.False(t, rep.Rows[4].Far)
	assert.InDelta(t, rep.Rows[4].Predicted, rep.Rows[0].Predicted, 0, "the prediction knows nothing of the reading")
	assert.InDelta(t, rep.Rows[4].Deviation-30, rep.Rows[0].Deviation, 1e-9)
}

func TestLoadRefuses(t *testing.T) {
	dir := t.TempDir()
	_, err := Load(dir)
	require.ErrorContains(t, err, "no .yaml in the folder")
	_, err = Load(filepath.Join(dir, "none.yaml"))
	require.ErrorContains(t, err, "hint:")
	text, err := testdata.Proof.ReadFile("measured/over-water.yaml")
	require.NoError(t, err)
	for _, name := range []string{"a.yaml", "b.yml"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), text, 0o600))
	}
	_, err = Load(dir)
	require.ErrorContains(t, err, `the id "over-water" stands in`)
	for _, name := range []string{"a.yaml", "b.yml"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("case: {}\n"), 0o600))
	}
	_, err = Load(dir)
	require.ErrorContains(t, err, "a.yaml:1:")
	require.ErrorContains(t, err, "b.yml:1:")
}

// The same figures on one core and on several.
func TestRunDoesNotDependOnTheCores(t *testing.T) {
	cases := []*boatfile.Case{builtIn(t, "over-water"), builtIn(t, "diesel-set-unshielded")}
	o := Options{Samples: 3, Draws: 100}
	many, err := Run(cases, o)
	require.NoError(t, err)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	one, err := Run(cases, o)
	require.NoError(t, err)
	for i := range one.Rows {
		assert.Equal(t, one.Rows[i].Predicted, many.Rows[i].Predicted)
	}
}
