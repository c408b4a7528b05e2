package path

import "hushwake/source/spectrum"

// Network is a prediction reduced to what a repeated evaluation needs: for each listener the gain
// of every route from its source's sound power. The gains hold while the line's curves do.
type Network struct {
	Sources []string // names, in the order Levels takes their powers
	ears    []networkEar
}

type networkEar struct {
	source []int
	gain   []spectrum.Bands
}

// NewNetwork takes the routes of a prediction apart into sources and gains.
func NewNetwork(p *Prediction) *Network {
	n := &Network{}
	index := map[string]int{}
	for _, h := range p.Listeners {
		var ear networkEar
		for _, r := range h.Routes {
			name := emission(h, r)
			k, ok := index[name]
			if !ok {
				k = len(n.Sources)
				index[name] = k
				n.Sources = append(n.Sources, name)
			}
			ear.source = append(ear.source, k)
			ear.gain = append(ear.gain, r.Bands.Minus(r.Steps[0].Bands))
		}
		n.ears = append(n.ears, ear)
	}
	return n
}

// emission names what a route begins with; the sum of quiet routes is each listener's own.
func emission(h Heard, r Route) string {
	name := r.Source + "/" + r.Steps[0].Name
	if r.Source == othersSource {
		name += "/" + h.Listener.Name
	}
	return name
}

// Powers gives the sound powers that the prediction itself used, dB re 1 pW, in the order of Sources.
func (n *Network) Powers(p *Prediction) []spectrum.Bands {
	byName := map[string]spectrum.Bands{}
	for _, h := range p.Listeners {
		for _, r := range h.Routes {
			byName[emission(h, r)] = r.Steps[0].Bands
		}
	}
	out := make([]spectrum.Bands, len(n.Sources))
	for i, name := range n.Sources {
		out[i] = byName[name]
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
