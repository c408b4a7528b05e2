package path

import (
	"hushwake/path/tones"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// LinesAt are the orders of an engine's exhaust as they reach a place, dB: those of the routes from its outlet and
// through the walls of its line, as energy, each with the way's gain at its own frequency. Sound that goes with the
// quiet routes or through the structure isn't held.
func (p *Prediction) LinesAt(h *Heard, engine string) (out []Line) {
	x := ResultOf(p.Exhausts, engine)
	if x == nil {
		return nil
	}
	energy := make([]float64, len(x.Source.Orders))
	for i := range h.Routes {
		r := &h.Routes[i]
		if r.Engine != engine || r.Way != ByOutlet && r.Way != ByLineWall || len(r.Steps) == 0 {
			continue
		}
		losses, from := x.Acoustics.LineLoss, x.OutletPower
		if r.Way == ByLineWall {
			losses, from = nil, x.Source.Exhaust.Bands
		}
		gain := spectrum.Bands{}.Minus(from)
		for _, s := range r.Steps {
			if s.Name != ordersName {
				gain = gain.Plus(s.Bands)
			}
		}
		for k, o := range x.Source.Orders {
			t := tones.New([]source.PipeOrder{o}, lossOf(losses, k), spectrum.Bands{}, spectrum.Bands{})
			if t != nil {
				energy[k] += t.Lines[0].Through(&gain)
			}
		}
	}
	for k, o := range x.Source.Orders {
		if energy[k] > 0 {
			out = append(out, Line{spectrum.Line{Frequency: o.Frequency, Level: spectrum.Level(energy[k])}, engine, o.Order})
		}
	}
	return out
}

// lossOf is the loss of one line; nil where lines go without.
func lossOf(losses []float64, k int) []float64 {
	if losses == nil {
		return nil
	}
	return losses[k : k+1]
}

// ResultOf finds what the exhaust of an engine comes to; nil = none.
func ResultOf(all []ExhaustResult, engine string) *ExhaustResult {
	for i := range all {
		if all[i].Engine == engine {
			return &all[i]
		}
	}
	return nil
}
