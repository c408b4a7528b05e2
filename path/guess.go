package path

import (
	"slices"

	"hushwake/source/spectrum"
)

// Guessed enters what is guessed in the file on every route of what runs: one cause for each guess, that all levels of the boat share,
// so that it widens their bands and says nothing of the difference between two layouts.
func (b *Boat) Guessed(all []Route) {
	if len(b.Guesses) == 0 {
		return
	}
	for i := range all {
		r := &all[i]
		if r.Way == ByBackground || len(r.Steps) == 0 {
			continue
		}
		r.Steps = slices.Clone(r.Steps)
		first := &r.Steps[0]
		first.Uncertain = slices.Clip(first.Uncertain)
		for _, g := range b.Guesses {
			first.Uncertain = append(first.Uncertain, Uncertain{Term: "guess", Key: "guess/" + g.Of, SD: spectrum.Fill(g.SD), Source: "guessed, as the file says"})
		}
	}
}
