package draws

import (
	"hushwake/path"
	"hushwake/source/spectrum"
)

// Listener finds what is heard at a place; nil where there is none.
func (l *Layout) Listener(name string) *Listener {
	for _, h := range l.Listeners {
		if h.Name == name {
			return h
		}
	}
	return nil
}

// AirAndStructure is what a seat hears by all other ways, and through mounts and hull.
func (h *Listener) AirAndStructure() (air, borne *Listener) {
	air, borne = &Listener{}, &Listener{}
	for _, r := range h.Routes {
		if r.Way == path.ByStructure {
			borne.Routes = append(borne.Routes, r)
		} else {
			air.Routes = append(air.Routes, r)
		}
	}
	return air, borne
}

// At gives the bands of the route for the term values z; terms beyond z count as 0.
func (r *Route) At(z []float64) spectrum.Bands {
	b := r.Bands
	for i, k := range r.Keys {
		if k >= len(z) || z[k] == 0 {
			continue
		}
		for j := range b {
			b[j] += r.SD[i][j] * z[k]
		}
	}
	return b
}

// Bands is the energy sum of the routes at z, band by band, in dB.
func (h *Listener) Bands(z []float64) spectrum.Bands {
	all := make([]spectrum.Bands, 0, len(h.Routes))
	for _, r := range h.Routes {
		all = append(all, r.At(z))
	}
	return spectrum.SumBands(all...)
}

// Weighted gives the route's bands at z with weighting w; A is that of the route's own orders.
func (r *Route) Weighted(z []float64, w spectrum.Bands) spectrum.Bands {
	if w == spectrum.A {
		w = r.AWeight
	}
	return r.At(z).Plus(w)
}

// Level is the level at z with weighting w, in dB.
func (h *Listener) Level(z []float64, w spectrum.Bands) float64 {
	all := make([]spectrum.Bands, len(h.Routes))
	for i, r := range h.Routes {
		all[i] = r.Weighted(z, w)
	}
	return spectrum.SumBands(all...).Total()
}

// Gradient is dL/dz for weighting w, over n terms: the energy-weighted mean sensitivity.
func (h *Listener) Gradient(z []float64, w spectrum.Bands, n int) []float64 {
	g, sum := make([]float64, n), 0.0
	for _, r := range h.Routes {
		for j, v := range r.Weighted(z, w) {
			e := spectrum.Power(v)
			sum += e
			for i, k := range r.Keys {
				g[k] += e * r.SD[i][j]
			}
		}
	}
	if sum == 0 {
		return make([]float64, n)
	}
	for k := range g {
		g[k] /= sum
	}
	return g
}

// OnlyBand is a weighting that lets band j through alone.
func OnlyBand(j int) spectrum.Bands {
	w := spectrum.Fill(2 * spectrum.Silent)
	w[j] = 0
	return w
}

func (p *Exhaust) Gradient(n int) []float64 {
	g := make([]float64, n)
	for i, k := range p.Keys {
		g[k] += p.SD[i]
	}
	return g
}
