package spectrum

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// ANSI S3.5-1997 annex C, example C.1 (from memory): octaves 250 Hz to 8 kHz give 0.504. The disturbance is the
// noise, at 8 kHz the internal noise of -7.1 dB.
func TestWorkedExampleOfTheIndex(t *testing.T) {
	index := 0.0
	for i, c := range [][3]float64{{0.0617, 50, 70}, {0.1671, 40, 65}, {0.2373, 40, 45}, {0.2648, 30, 25}, {0.2142, 20, 1}, {0.0549, 0, -7.1}} {
		normal := []float64{34.75, 34.27, 25.01, 17.32, 9.33, 1.13}
		index += c[0] * audibleShare(c[1], c[2], normal[i])
	}
	near(t, "index", index, 0.504, 0.0005)
}

// The table is right in itself: importances add up to 1 and to those of the octaves, voices to their overall
// levels (ANSI S3.5-1997 tables 3 and 4, from memory) in bands of 0.2316 f.
func TestSpeechTable(t *testing.T) {
	for octave, want := range []float64{0.0617, 0.1671, 0.2373, 0.2648, 0.2142, 0.0549} {
		low, sum := 3*octave+1, 0.0
		if octave == 0 {
			low = 0
		}
		for _, s := range speechBands[low:min(3*octave+4, len(speechBands))] {
			sum += s.importance
		}
		near(t, "importance", sum, want, 1e-9)
	}
	for v, want := range []float64{62.35, 68.34, 74.85, 82.30} {
		sum := 0.0
		for i, s := range speechBands {
			sum += Power(s.voice[v]) * 0.2316 * thirds[lowest+i]
		}
		near(t, "overall level", 10*math.Log10(sum), want, 0.1)
	}
	for i, f := range thirds {
		if i/3 != BandOf(f) {
			t.Errorf("%g Hz is split from octave %d", f, i/3)
		}
	}
}

// The index by the published equations, worked out apart in one sum a band: the spread of masking from each lower
// band by hand, slopes per decade as the standard writes them.
func byTheBook(noise Bands, v Voice, r float64) (index float64) {
	n := func(k int) float64 { return noise[k/3] - 10*math.Log10(Exact[k/3]/math.Sqrt2) }
	for i := 8; i < 26; i++ {
		s := speechBands[i-8]
		e, z := s.voice[v]-20*math.Log10(r), math.Pow(10, n(i)/10)
		for k := range i {
			b := n(k)
			if k >= 8 {
				b = math.Max(b, speechBands[k-8].voice[v]-20*math.Log10(r)-24)
			}
			c := -80 + 0.6*(b+10*math.Log10(thirds[k])-6.353)
			z += math.Pow(10, (b+3.32*c*math.Log10(0.89*thirds[i]/thirds[k]))/10)
		}
		d := math.Max(10*math.Log10(z), s.internal)
		l := math.Min(1, 1-(e-s.voice[0]-10)/160)
		index += s.importance * math.Max(0, l) * math.Max(0, math.Min(1, (e-d+15)/30))
	}
	return index
}

// Quiet leaves nearly all of speech, a very loud place none; a louder band never helps, 31.5 to 125 Hz neither;
// a raised voice carries further; two reckonings agree.
func TestIntelligibility(t *testing.T) {
	near(t, "quiet", Intelligibility(Fill(Silent), NormalVoice, 1), 1, 0.005)
	near(t, "very loud", Intelligibility(Fill(110), NormalVoice, 1), 0, 0)
	near(t, "far away", Intelligibility(Fill(Silent), NormalVoice, 1e4), 0, 0)
	boom := Fill(35)
	boom[1] = 110 // 84 dB(A)
	d := TalkDistance(boom, NormalVoice)
	if d > 1 {
		t.Errorf("110 dB at 63 Hz lets a normal voice carry %g m", d)
	}
	near(t, "understood", Intelligibility(boom, NormalVoice, d), 0.45, 0.001) // ANSI S3.5-1997 annex A
	rapid.Check(t, func(rt *rapid.T) {
		noise := drawBands(rt, 0, 115)
		v := Voice(rapid.IntRange(0, 3).Draw(rt, "voice"))
		r := rapid.Float64Range(0.1, 10).Draw(rt, "distance")
		index := Intelligibility(noise, v, r)
		if index < 0 || index > 1 || math.Abs(index-byTheBook(noise, v, r)) > 0.002 { // widths 0.7071 f against 0.7046 f: 0.015 dB; 3.32 against lg 2
			rt.Fatalf("index %g, by the book %g", index, byTheBook(noise, v, r))
		}
		b := rapid.IntRange(0, N-1).Draw(rt, "band")
		louder := noise
		louder[b] += rapid.Float64Range(0, 30).Draw(rt, "more")
		worse := Intelligibility(louder, v, r)
		if worse > index+1e-12 {
			rt.Fatalf("band %d louder: %g for %g", b, worse, index)
		}
		near, far := TalkDistance(noise, NormalVoice), TalkDistance(noise, RaisedVoice)
		if lost := loudnessLost(near); lost == 0 && far <= near {
			rt.Fatalf("a raised voice carries %g m, a normal one %g m", far, near)
		} else if got := Intelligibility(noise, RaisedVoice, near); near > 0.1 && got < Understood*(1-lost) {
			rt.Fatalf("a raised voice has %g at %g m, its loudness costs %g", got, near, lost)
		}
	})
}

// loudnessLost is the most that a raised voice's own loudness takes from a band at a distance: over 10 dB above a
// normal voice at 1 m, 1/160 a dB (ANSI S3.5-1997 clause 5). Without it a raised voice always carries further.
func loudnessLost(distance float64) (most float64) {
	for _, s := range speechBands {
		most = math.Max(most, (s.voice[RaisedVoice]-20*math.Log10(distance)-s.voice[NormalVoice]-10)/160)
	}
	return math.Min(most, 1)
}

// Noise at 2 kHz that takes all bands from there on leaves at most the importance of those below, 0.466: what is
// understood then is a stretch of some dB between too quiet and too loud. It must be found in whole for each voice:
// against every distance in steps of 0.01 dB.
func TestShortStretchOfUnderstanding(t *testing.T) {
	noise := Fill(1)
	noise[0], noise[6] = 99.5, 115
	for v, want := range map[Voice]float64{NormalVoice: 0.68, RaisedVoice: 0.94} {
		greatest := 0.0
		for db := 20.0; db > -20 && greatest == 0; db -= 0.01 {
			if r := math.Pow(10, db/20); Intelligibility(noise, v, r) >= Understood {
				greatest = r
			}
		}
		near(t, "greatest distance", TalkDistance(noise, v), greatest, 0.002)
		near(t, "distance", greatest, want, 0.01)
	}
}

// Noise of 100 dB in the octave of 63 Hz, 83.5 dB in 1 Hz, masks 500 Hz by hand: slopes of 0.6 (83.5 + 17, 18, 19 - 6.4) - 80
// = -23.5, -22.9 and -22.3 dB an octave over 3.15, 2.82 and 2.48 octaves leave 9.4, 18.8 and 28.3 dB, 28.8 together.
func TestMaskingByHand(t *testing.T) {
	noise := Fill(Silent)
	noise[1] = 100
	near(t, "500 Hz", masked(noise, NormalVoice, 100)[lowest+5], 28.8, 0.2)
	// the voice's own 160 Hz in quiet: 32.4 - 24 dB, slope 0.6 (8.4 + 22 - 6.4) - 80 = -65.5 over 0.154 octaves
	near(t, "200 Hz of the voice itself", masked(Fill(Silent), NormalVoice, 0)[lowest+1], -1.67, 0.01)
}

func TestNoDistanceNoSpeech(t *testing.T) {
	for _, r := range []float64{0, -1, math.NaN()} {
		near(t, "index", Intelligibility(Fill(40), NormalVoice, r), 0, 0)
	}
	near(t, "no noise known", TalkDistance(Fill(math.NaN()), NormalVoice), 0, 0)
	for _, text := range []string{"hz,a,b,c,d,e,f\n170,1,1,1,1,1,1\n", "hz,a,b,c,d,e,f\n160,x,1,1,1,1,1\n"} {
		if _, err := readSpeech(text); err == nil || strings.Contains(err.Error(), "panic") {
			t.Errorf("took %q: %v", text, err)
		}
	}
}

// A noise that rounding changes leaves the distance where it is: it never jumps by a whole step of the search.
func TestRoundingDecidesNoDistance(t *testing.T) {
	for level := 55.0; level < 75; level += 0.37 {
		noise := NRCurve(level)
		want := TalkDistance(noise, NormalVoice)
		for _, by := range []float64{-1e-12, -1e-13, 1e-13, 1e-12} {
			near(t, "distance", TalkDistance(noise.Shift(by), NormalVoice)/want, 1, 1e-9)
		}
	}
}

func BenchmarkTalkDistance(b *testing.B) {
	noise := NRCurve(60)
	for b.Loop() {
		TalkDistance(noise, RaisedVoice)
	}
}

// The overall levels of the speech spectra, ANSI S3.5-1997 table 3, from memory.
func TestSpeechInOctaves(t *testing.T) {
	for v, want := range map[Voice]float64{NormalVoice: 62.35, RaisedVoice: 68.34, LoudVoice: 74.85, Shout: 82.30} {
		b := SpeechBands(v)
		assert.InDelta(t, want, b.Total(), 0.1)
		assert.Equal(t, Silent, b[0])
	}
	assert.InDelta(t, 59.5, SpeechBands(NormalVoice).DBA(), 1.0, "a normal voice has some 60 dB(A) at 1 m")
}
