package path

import (
	"hushwake/source/cores"
	"hushwake/source/spectrum/audibility"
	"hushwake/source/spectrum/loudness"
)

// Ear is what a level does not tell of a sound.
type Ear struct {
	Tone    audibility.Tone // that stands out most; its audibility is 0 or less where none does
	Sone    float64         // loudness, ISO 532-1, free field
	Unrated error           // why it has no loudness; nil = it has
}

// Ear judges what is heard at a place. Lines and noise are those of the prediction: how far an octave's energy sits on its
// orders is judgement, and so the audibility is too.
func (h Heard) Ear() (e Ear) {
	all, broad := h.Lines()
	lines := soundsOf(all)
	e.Tone, _ = audibility.Predicted(lines, broad)
	e.Sone, e.Unrated = loudness.Heard(lines, broad)
	return e
}

// Ears judges what is heard at each place of predictions.
func Ears(all []Prediction) [][]Ear {
	out := make([][]Ear, len(all))
	cores.Each(len(all), func(i int) {
		for _, h := range all[i].Listeners {
			out[i] = append(out[i], h.Ear())
		}
	})
	return out
}
