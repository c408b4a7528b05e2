package path

import "hushwake/source/spectrum"

// Network is a prediction reduced to what a repeated evaluation needs: for each listener the gain
// of every route from its source's sound power. The gains hold while the line's curves do.
type Network struct {
	Sources []string // as routes name them, in the order Levels takes their powers
	ids     []emission
	ears    []networkEar
}

type networkEar struct {
	source []int
	gain   []spectrum.Bands
}

// NewNetwork takes the routes of a prediction apart into sources and gains.
func NewNetwork(p *Prediction) *Network {
	n := &Network{}
	index := map[emission]int{}
	for _, h := range p.Listeners {
		var ear networkEar
		for _, r := range h.Routes {
			id := emissionOf(h, r)
			k, ok := index[id]
			if !ok {
				k = len(n.ids)
				index[id] = k
				n.ids, n.Sources = append(n.ids, id), append(n.Sources, r.Source)
			}
			ear.source = append(ear.source, k)
			ear.gain = append(ear.gain, r.Bands.Minus(r.Steps[0].Bands))
		}
		n.ears = append(n.ears, ear)
	}
	return n
}

// emission is what a route begins with; the sum of quiet routes is each listener's own.
type emission struct{ engine, step, listener string }

func emissionOf(h Heard, r Route) emission {
	e := emission{engine: r.Engine, step: r.Steps[0].Name}
	if r.Engine == "" {
		e.listener = h.Listener.Name
	}
	return e
}

// Powers gives the sound powers that the prediction itself used, dB re 1 pW, in the order of Sources.
func (n *Network) Powers(p *Prediction) []spectrum.Bands {
	known := map[emission]spectrum.Bands{}
	for _, h := range p.Listeners {
		for _, r := range h.Routes {
			known[emissionOf(h, r)] = r.Steps[0].Bands
		}
	}
	out := make([]spectrum.Bands, len(n.Sources))
	for i, id := range n.ids {
		out[i] = known[id]
	}
	return out
}

// Levels writes the bands at each listener for the given sound powers into out, which it returns.
func (n *Network) Levels(powers, out []spectrum.Bands) []spectrum.Bands {
	for i := range n.ears {
		ear := &n.ears[i]
		var energy spectrum.Bands
		for j, g := range ear.gain {
			p := &powers[ear.source[j]]
			for k := range energy {
				energy[k] += spectrum.Power(p[k] + g[k])
			}
		}
		for k := range energy {
			out[i][k] = spectrum.Level(energy[k])
		}
	}
	return out
}
