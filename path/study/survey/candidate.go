package survey

import (
	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
)

// Planned is one reading worth taking, with what it would do to the answer.
type Planned struct {
	Order            int
	What, Where, How string
	Unit             string  // of the deviations: dB, or % of the back pressure
	Before, After    float64 // one standard deviation of the answer without and with the reading
}

// Options say how the boat stands now and what can be done on it.
type Options struct {
	Present  string             // the layout now on board; "" = the first
	Listener string             // whose level is the answer; "" = the first
	Doors    []string           // what can be opened
	Predict  readings.Predictor // nil: no reading at another duty or with doors open is planned
	SD       float64            // dB of the meter at hand; 0 = a phone
	Readings []path.Reading     // what the file holds
}

// candidate is a reading that could be taken: gradient over the terms and its own error.
type candidate struct {
	Planned
	g            []float64
	bias, repeat float64
	pressure     bool
	door         bool         // one of the readings with something open
	level        float64      // dB the model expects
	as           path.Reading // what it would be in the file
}

func seat(m *draws.Model, h *draws.Listener, b draws.Belief, sd float64, w spectrum.Bands, unit string) candidate {
	bias, repeat := readings.SplitError(sd)
	c := candidate{bias: bias, repeat: repeat, g: h.Gradient(b.Mean, w, len(m.Terms)), level: h.Level(b.Mean, w)}
	c.What, c.Where, c.How = unit+" at the running duty, loaded, doors and hatches shut", h.Name, howSeat
	c.as = path.Reading{Listener: h.Name, Weighting: unit[3:4], Level: &c.level}
	if unit == "dB(C)" {
		c.What, c.How = unit+" at the running duty, loaded, doors shut", howC
	}
	return c
}

// nearSource takes from a route only the causes of the terms that a reading sees.
func nearSource(m *draws.Model, p path.Prediction, r path.Route, bands spectrum.Bands, b draws.Belief, sd float64, sees map[string]bool) candidate {
	var doubts []path.Uncertain
	for _, s := range r.Steps {
		for _, u := range s.Uncertain {
			if sees[u.Term] {
				doubts = append(doubts, u)
			}
		}
	}
	bias, repeat := readings.SplitError(sd)
	h := &draws.Listener{Routes: []*draws.Route{m.RouteOf(p.Layout.Name, bands, r.Weighted().Minus(r.Bands), doubts)}}
	return candidate{bias: bias, repeat: repeat, g: h.Gradient(b.Mean, spectrum.A, len(m.Terms))}
}
