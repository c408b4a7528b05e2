package listen

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/recording/meter"
	"hushwake/path/report"
	"hushwake/path/report/reporttest"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
	"hushwake/source/spectrum/audibility"
)

// Each sound has the level that is printed for its layout at its place, by one gain and within full scale.
func TestSoundsHaveThePrintedLevels(t *testing.T) {
	w := comparison(t, "generator-box")
	s, err := sounds(w, pageRate, 2, []int{0})
	require.NoError(t, err)
	names, peak := map[string]bool{}, 0.0
	for _, c := range s.Clips {
		spec := meter.NewSpectrum(s.Rate)
		for range 5 {
			spec.Add(c.Samples)
		}
		require.NoError(t, spec.Close())
		assert.InDelta(t, c.LevelDBA, spec.Weighted(spectrum.AAt)+s.Full, 0.1, c.File)
		if c.Layout >= 0 {
			assert.InDelta(t, w.Spread.Layouts[c.Layout].Listeners[0].Level, c.LevelDBA, 0.05, c.File)
		}
		for _, v := range c.Samples {
			peak = math.Max(peak, math.Abs(v))
		}
		assert.False(t, names[c.File])
		names[c.File] = true
	}
	assert.InDelta(t, -1, 20*math.Log10(peak), 0.11)
	assert.LessOrEqual(t, 20*math.Log10(peak), -1+1e-9)
	text := s.Text(w)
	for n := range names {
		assert.Contains(t, text, n)
	}
	assert.Contains(t, text, "not recorded")
	assert.Contains(t, text, "take headphones")
}

func TestSoundsLeaveOutWhatCannotBeJudged(t *testing.T) {
	w := comparison(t, "three-quotes")
	s, err := sounds(w, pageRate, 0.5, []int{0})
	require.NoError(t, err)
	require.Len(t, s.Notes, 1)
	assert.Contains(t, s.Notes[0], `"new silencer + offer A" is left out`)
	_, err = sounds(w, 7, 1, []int{0})
	assert.ErrorContains(t, err, "hint:")
}

// The tone by which a speaker is tried is that of the firing frequency, at the level that it has, even where another order is stronger.
func TestTheFiringToneIsTheEngines(t *testing.T) {
	for name, want := range map[string]float64{"three-quotes": 95, "generator-box": 37.5} {
		w := comparison(t, name)
		s, err := sounds(w, pageRate, 0.5, []int{0})
		require.NoError(t, err)
		loudest := spectrum.Silent
		for i := range w.Predictions {
			lines, _ := w.Predictions[i].Listeners[0].Lines()
			for _, l := range lines {
				if math.Abs(l.Frequency-want) < 1e-6 && !w.Asked(i) {
					loudest = math.Max(loudest, l.Level)
				}
			}
		}
		c := s.Clips[slices.IndexFunc(s.Clips, func(c Clip) bool { return c.File == firingFile })]
		assert.InDelta(t, want, c.sound.Lines[0].Cycle, 1e-6)
		assert.InDelta(t, loudest, c.sound.Lines[0].Level, 1e-6)
		assert.Contains(t, c.Name, fmt.Sprintf("the firing tone alone, %g Hz", want))
		text := s.Text(w)
		assert.Equal(t, loudest < audibility.Threshold(want), strings.Contains(text, "under what an ear just hears"), name)
	}
}

// The text beside the files names a tone where the document does, with its order, and none else.
func TestTonesBesideTheFilesAreOrders(t *testing.T) {
	w, named := comparison(t, "three-quotes"), 0
	s, err := sounds(w, pageRate, 0.5, []int{0, 2})
	require.NoError(t, err)
	text, ears := s.Text(w), map[string][]report.Listener{}
	for _, l := range w.Document().(report.Compare).Layouts {
		ears[l.Name] = l.Listeners
	}
	for _, c := range s.Clips {
		_, line, _ := strings.Cut(text, "- "+c.File+": ")
		line, _, _ = strings.Cut(line, "\n")
		if c.Layout < 0 || ears[c.Name][c.Listener].Ear.Tone == nil {
			assert.NotContains(t, line, ";", c.File)
			continue
		}
		named++
		assert.Regexp(t, `; a tone stands out at (95 Hz, .*: order 3|190 Hz, .*: order 6) of `, line, "1900 rpm are 31.7 turns a second")
	}
	assert.Positive(t, named)
}

func TestNamesOfSounds(t *testing.T) {
	assert.Equal(t, "place1-layout2-a-b-c.wav", fileName("place1-layout2", "../A b/", "C\x00\n"))
	assert.Equal(t, "x.wav", fileName("x", "…", "///"))
	assert.LessOrEqual(t, len(fileName("x", string(make([]byte, 500)), "long long long long long long long")), 40)
}

// comparisons are the comparisons of whole demos that tests only read.
var comparisons = reporttest.Once[*report.Comparison]{}

func comparison(t *testing.T, name string) *report.Comparison {
	t.Helper()
	return comparisons.Of(t, name, func(b *path.Boat, k *readings.Known) (*report.Comparison, error) {
		return report.NewComparison(b, b.Layouts, 0, k)
	})
}
