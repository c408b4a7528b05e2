package readings

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// Errors of a recorder, one standard deviation, dB (judgement: half of what a mobile platform's compatibility text lets its
// unprocessed microphone deviate, 10 dB from 100 Hz to 7 kHz and 20 dB outside).
const (
	recorderBand  = 5.0
	recorderEdge  = 10.0 // in octaves that reach beyond
	recorderScale = 30.0 // of the scale of a recorder that no meter was held beside
	// recordRepeat is what a second recording of the same shows otherwise.
	recordRepeat = 1.0
)

// recorderBands is the error of each octave, which all recordings of one recorder share.
func recorderBands() (b spectrum.Bands) {
	for i, f := range spectrum.Exact {
		if b[i] = recorderBand; f < 100 || f > 5000 {
			b[i] = recorderEdge
		}
	}
	return b
}

// observeRecording gives an observation for each octave of a recording, dB re full scale: scaleRecorders sets the scale. What a
// meter showed beside it is one more.
func observeRecording(r path.Reading, l *draws.Layout) (all []observation, reason string, err error) {
	heard, err := listenerOf(r, l)
	if err != nil {
		return nil, "", err
	}
	if len(heard.Routes) == 0 {
		return nil, "no sound is predicted there", nil
	}
	if r.Recording.Clipped {
		return nil, "the recording is clipped", nil
	}
	if r.Level != nil {
		if all, reason, err = observeSound(r, l); reason != "" || err != nil {
			return nil, reason, err
		}
		all[0].instrument = "meter beside " + instrument(r, "recorder")
	}
	own := recorderBands()
	for b, v := range r.Recording.Bands {
		if v > spectrum.Silent {
			all = append(all, observation{unit: fmt.Sprintf("dB at %g Hz", spectrum.Nominal[b]), value: v, shown: v, bias: recorderScale, own: &own, repeat: recordRepeat,
				instrument: instrument(r, "recorder"), expected: expected{heard: heard, weight: draws.OnlyBand(b)}, restore: func(v float64) float64 { return v }})
		}
	}
	return all, "", nil
}

// scaleRecorders puts the octaves of each recorder on a scale: that of a meter which was held beside one of its recordings, else
// the one on which they agree best with the model, so that only what differs between them counts.
func scaleRecorders(all []*observation, readings []path.Reading) {
	of := map[string][]*observation{}
	for _, o := range all {
		if o.own != nil {
			of[o.instrument] = append(of[o.instrument], o)
		}
	}
	for _, obs := range of {
		metered, expected, beside := mean{}, mean{}, 0.0
		for _, o := range obs {
			r := readings[o.reading]
			expected.add(o.heard.Level(nil, o.weight) - o.value)
			if r.Level != nil && !r.Strike {
				metered.add(*r.Level - weighted(r))
				beside = soundError(r)
			}
		}
		scale, sd, note, unit := expected.value(), recorderScale, "", relative
		if metered.n > 0 {
			unit = "dB at "
			scale, sd, note = metered.value(), math.Hypot(recorderBand, beside), "on the scale of the meter held beside the recorder"
		}
		for _, o := range obs {
			o.value, o.shown, o.bias, o.note = o.value+scale, o.shown+scale, sd, note
			o.unit = strings.Replace(o.unit, "dB at ", unit, 1)
		}
	}
}

// relative is the unit, with its octave behind it, of a recorder that no meter was held beside.
const relative = "dB relative at "

// onTheirOwn says once of each recorder that its levels are relative.
func onTheirOwn(all []*observation) (out []string) {
	for _, o := range all {
		if text := fmt.Sprintf("octaves of %s are relative: no meter was held beside it, and they are shown on the scale on which they agree best with the model; "+
			"only what differs between octaves and between recordings counts", o.instrument); strings.HasPrefix(o.unit, relative) && !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	slices.Sort(out)
	return out
}

// weighted is the level of a recording as the meter beside it weighted, dB re full scale.
func weighted(r path.Reading) float64 {
	if r.Weighting == "C" {
		return r.Recording.C
	}
	return r.Recording.A
}

// mean is a mean in the making.
type mean struct{ sum, n float64 }

func (m *mean) add(v float64)  { m.sum, m.n = m.sum+v, m.n+1 }
func (m *mean) value() float64 { return m.sum / m.n }
