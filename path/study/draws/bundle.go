package draws

import (
	"math"
	"slices"

	"hushwake/source/spectrum"
)

// bundle is routes to any of the levels asked for that begin with the same doubt. The energy of a band of a route in a draw is
// a product: of what all routes of the bundle have in common, of what is left of the route, and of its energy without doubts.
type bundle struct {
	common [spectrum.N]int // columns of the plan
	routes []bundledRoute
}

type bundledRoute struct {
	listener, route int             // of those asked for, of those there
	rest            [spectrum.N]int // columns of the plan
	energy          spectrum.Bands  // weighted, without doubts; 0 = left out
}

// doubt is a term, or several mixed, with what it does to a route, dB for one deviation.
type doubt struct {
	key int
	sd  *spectrum.Bands
}

// placed is a route to one of the levels asked for, with its share in the energy there.
type placed struct {
	*Route
	Question
	listener, number int
	share            spectrum.Bands
}

// bundled sorts the routes to some levels by the doubt that they begin with; A weighs what sits in a band.
// What does not tell in the draws is left out.
func (p *plan) bundled(asked []Question) []bundle {
	type beginning struct {
		key int
		sd  spectrum.Bands
	}
	var order []beginning
	alike := map[beginning][]placed{}
	for j, q := range asked {
		shares := p.most.tells(q.At, q.Weight)
		for i, r := range q.At.Routes {
			first := beginning{key: -1}
			if len(r.Keys) > 0 {
				first = beginning{r.Keys[0], r.SD[0]}
			}
			if alike[first] == nil {
				order = append(order, first)
			}
			alike[first] = append(alike[first], placed{r, q, j, i, shares[i]})
		}
	}
	out := make([]bundle, len(order))
	for i, first := range order {
		out[i] = p.bundle(alike[first])
	}
	return out
}

func (p *plan) bundle(routes []placed) (b bundle) {
	common, all := routes[0].doubts(), spectrum.Bands{}
	for _, r := range routes {
		common, all = slices.DeleteFunc(common, func(d doubt) bool { return !r.has(d) }), all.Plus(r.share)
	}
	b.common = p.columnsOf(common, all, false)
	for _, r := range routes {
		rest := slices.DeleteFunc(r.doubts(), func(d doubt) bool {
			return slices.ContainsFunc(common, func(c doubt) bool { return c.key == d.key })
		})
		f := bundledRoute{listener: r.listener, route: r.number, rest: p.columnsOf(rest, r.share, true)}
		for band, v := range r.Bands.Plus(r.weight(r.Weight)) {
			if r.share[band] != 0 && v*neper >= nothing {
				f.energy[band] = math.Exp(v * neper)
			}
		}
		b.routes = append(b.routes, f)
	}
	return b
}

// doubts are those of a route.
func (r *Route) doubts() []doubt {
	out := make([]doubt, len(r.Keys))
	for i, k := range r.Keys {
		out[i] = doubt{k, &r.SD[i]}
	}
	return out
}

// has tells whether a doubt is one of the route's.
func (r *Route) has(d doubt) bool {
	i := slices.Index(r.Keys, d.key)
	return i >= 0 && r.SD[i] == *d.sd
}
