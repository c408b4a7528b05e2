// Package sound renders what is heard at a place as samples: the orders of each engine with their phases and with cycles that
// differ, and noise in each octave. Sounds of one set are true in level against each other. It is spectral modelling on a ring
// (R. Pieren, K. Heutschi et al., Applied Sciences 6 (2016) 5, for cars; J. Jagla et al., JASA 132 (2012) 3098, from memory):
// the spectrum of a loop is put together on its own lines, so that levels hold by construction and the loop has no seam.
//
// Left out: the phase that the exhaust line turns each order by, splashing water, wandering of the speed.
package sound

import (
	"math"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// Sound is what is heard at a place, dB re 20 µPa.
type Sound struct {
	Lines []Line
	Broad spectrum.Bands
}

// Line is a multiple of an engine's cycle frequency.
type Line struct {
	Cycle    float64 // Hz, of the engine
	Multiple int
	Level    float64 // dB
	Phase    float64 // rad
	Fires    bool    // it is the firing frequency itself, none of its multiples
}

// Of is what a prediction's listener with that index hears.
func Of(p *path.Prediction, listener int) Sound {
	lines, broad := p.Listeners[listener].Lines()
	s, phases, cycles, firing := Sound{Broad: broad}, map[string][]float64{}, map[string]float64{}, map[string]float64{}
	for i := range p.Exhausts {
		r := &p.Exhausts[i]
		if e, ok := p.Layout.Engine(r.Engine); ok {
			phases[r.Engine], cycles[r.Engine], firing[r.Engine] = e.LinePhases(r.Source.Duty), r.Source.CycleFrequency, float64(r.Source.FiringFrequency)
		}
	}
	for _, l := range lines {
		c := cycles[l.Engine]
		n := Line{Cycle: c, Multiple: int(math.Round(l.Frequency / c)), Level: l.Level}
		n.Fires = n.Multiple == int(math.Round(firing[l.Engine]/c))
		if of := phases[l.Engine]; n.Multiple >= 1 && n.Multiple <= len(of) {
			n.Phase = of[n.Multiple-1] + math.Pi/2 // pressure goes with the change of the flow
		}
		s.Lines = append(s.Lines, n)
	}
	return s
}

// Firing is the line at the firing frequency of an engine, of several engines that which weighs most by A; ok is false where there
// is none.
func (s Sound) Firing() (frequency, level float64, ok bool) {
	most := math.Inf(-1)
	for _, l := range s.Lines {
		f := l.Cycle * float64(l.Multiple)
		if a := l.Level + spectrum.AAt(f); l.Fires && a > most {
			most, frequency, level, ok = a, f, l.Level, true
		}
	}
	return frequency, level, ok
}
