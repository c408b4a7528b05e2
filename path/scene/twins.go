package scene

import (
	"math"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// Engines that turn alike: the phase between them is chance, and with it whether their lines add or cancel at a place.
const (
	TogetherHz = 0.1 // Hz between lines of one order: slower than one hears as a beat (judgement)
	// dB: a line of two equal ones lies from 3 dB over their energy sum to far under it. At one point 10 lg(1 + cos) spreads
	// by 7.9 dB, nearly all of it downwards; heads move and rooms average (judgement)
	togetherSD = 3.0
)

// synchronise enters the doubt of the phase of engines that turn alike into their outlets, with the share of each band
// that sits on their orders.
func synchronise(all []emitter, results []path.ExhaustResult) {
	for i := range all {
		e := &all[i]
		if e.way != path.ByOutlet || e.tones == nil {
			continue
		}
		for j := range results {
			if o := &results[j]; o.Engine != e.engine && turnTogether(path.ResultOf(results, e.engine), o) {
				first, second := min(e.engine, o.Engine), max(e.engine, o.Engine)
				steps := append([]path.Step(nil), e.steps...)
				steps[0].Uncertain = append(steps[0].Uncertain[:len(steps[0].Uncertain):len(steps[0].Uncertain)], path.Uncertain{
					Term: "phase of engines that turn alike", Key: "phase/" + first + "/" + second, SD: times(spectrum.Fill(togetherSD), e.tones.Tonal()),
					Source: "judgement: lines of equal frequency add or cancel by chance"})
				e.steps = steps
			}
		}
	}
}

// turnTogether tells whether two engines turn so alike that their lines don't beat.
func turnTogether(a, b *path.ExhaustResult) bool {
	return Twins(a, b) && math.Abs(float64(a.Source.FiringFrequency-b.Source.FiringFrequency)) < TogetherHz
}

// Twins tells whether two engines fire at the same orders.
func Twins(a, b *path.ExhaustResult) bool {
	share := func(r *path.ExhaustResult) float64 {
		return float64(r.Source.FiringFrequency) / r.Source.CycleFrequency
	}
	return math.Abs(share(b)/share(a)-1) < 1e-9
}
