package audibility

import (
	_ "embed"
	"encoding/csv"
	"math"
	"sort"
	"strconv"
	"strings"

	"hushwake/source/spectrum"
)

// Predicted is the tone that stands out most among lines in a broadband noise given by octaves; ok is false where none does.
// The noise of a critical band is that of the octaves it overlaps, spread evenly over each. Lines under 20 Hz and over Highest are
// left out.
func Predicted(lines []spectrum.Line, broad spectrum.Bands) (best Tone, ok bool) {
	all := heard(lines, broad)
	for i := range all {
		if t, leads := together(all, i); leads && (!ok || t.Audibility > best.Audibility) {
			best, ok = t, true
		}
	}
	return best, ok
}

// together is a tone with those that are heard as one with it; leads is false where another of them stands out more.
func together(all []Tone, i int) (t Tone, leads bool) {
	t = all[i]
	low, high := edges(t.Frequency)
	var others []Tone
	for k, o := range all {
		if k != i && o.Frequency >= low && o.Frequency <= high {
			others = append(others, o)
		}
	}
	if len(others) == 1 && apart(t.Frequency, others[0].Frequency) {
		return t, true
	}
	for _, o := range others {
		if o.Audibility > all[i].Audibility {
			return t, false
		}
		t.Level = spectrum.Sum(t.Level, o.Level)
	}
	t.Audibility = excess(t.Frequency, t.Level, t.Noise)
	return t, true
}

// heard are the lines that stand out each by itself. The others are neither tones nor noise, as the standard's mean leaves out
// what stands over it.
func heard(lines []spectrum.Line, broad spectrum.Bands) (tones []Tone) {
	var density spectrum.Bands // energy in 1 Hz
	for b, l := range broad {
		low, high := spectrum.Edges(b)
		density[b] = spectrum.Power(l) / (high - low)
	}
	for _, l := range lines {
		if l.Frequency < 20 || l.Frequency > Highest {
			continue
		}
		t := Tone{Frequency: l.Frequency, Level: l.Level, Noise: masked(l.Frequency, density)}
		if t.Audibility = excess(t.Frequency, t.Level, t.Noise); t.Audibility > 0 {
			tones = append(tones, t)
		}
	}
	return tones
}

// masked is the level in the critical band about f: broadband noise, and what stands for the threshold of hearing.
func masked(f float64, density spectrum.Bands) float64 {
	low, high := edges(f)
	energy := spectrum.Power(Threshold(f) - Index(f))
	for b, d := range density {
		from, to := spectrum.Edges(b)
		energy += d * math.Max(0, math.Min(high, to)-math.Max(low, from))
	}
	return 10 * math.Log10(energy)
}

//go:embed threshold.csv
var thresholdText string

var threshold = mustThreshold(thresholdText)

// mustThreshold fails only if the program itself was built wrong.
func mustThreshold(text string) (all []spectrum.Line) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', 2
	rows, err := r.ReadAll()
	if err != nil {
		panic("embedded threshold: " + err.Error())
	}
	for _, row := range rows[1:] {
		f, err := strconv.ParseFloat(row[0], 64)
		l, other := strconv.ParseFloat(row[1], 64)
		if err != nil || other != nil {
			panic("embedded threshold: " + row[0] + "," + row[1])
		}
		all = append(all, spectrum.Line{Frequency: f, Level: l})
	}
	return all
}

// Threshold is the level at which a pure tone of frequency f is just heard in silence, dB; linear over lg f between the rows
// of ISO 389-7:2005, flat beyond them.
func Threshold(f float64) float64 {
	i := sort.Search(len(threshold), func(i int) bool { return threshold[i].Frequency >= f })
	switch i {
	case 0:
		return threshold[0].Level
	case len(threshold):
		return threshold[i-1].Level
	}
	a, b := threshold[i-1], threshold[i]
	return a.Level + (b.Level-a.Level)*math.Log(f/a.Frequency)/math.Log(b.Frequency/a.Frequency)
}
