package draws

import (
	"math"
	"slices"

	"hushwake/source/spectrum"
)

// bundle is routes to any of the levels asked for that begin with the same doubt. The energy of a band of a route in a draw is
// a product: of what all routes of the bundle have in common, of what is left of the route, and of its energy without doubts.
type bundle struct {
	doubts []doubt         // in common
	common [spectrum.N]int // columns of the plan
	routes []bundledRoute
}

type bundledRoute struct {
	*Route
	Question
	listener, route int             // of those asked for, of those there
	doubts          []doubt         // what is left of the route
	rest            [spectrum.N]int // columns of the plan
	energy          spectrum.Bands  // weighted, without doubts; 0 = left out
}

// doubt is a term, or several mixed, with what it does to a route, dB for one deviation.
type doubt struct {
	key int
	sd  *spectrum.Bands
}

// sorted sorts the routes to some levels by the doubt that they begin with, and mixes their doubts: whatever the draws are.
func (p *plan) sorted(asked []Question) (all []bundle) {
	type beginning struct {
		key int
		sd  spectrum.Bands
	}
	at := map[beginning]int{}
	for j, q := range asked {
		for i, r := range q.At.Routes {
			first := beginning{key: -1}
			if len(r.Keys) > 0 {
				first = beginning{r.Keys[0], r.SD[0]}
			}
			k, ok := at[first]
			if !ok {
				k = len(all)
				at[first], all = k, append(all, bundle{})
			}
			all[k].routes = append(all[k].routes, bundledRoute{Route: r, Question: q, listener: j, route: i})
		}
	}
	for i := range all {
		p.part(&all[i])
	}
	return all
}

// part parts the doubts of routes into those in common and the rest of each.
func (p *plan) part(b *bundle) {
	common := b.routes[0].Route.doubts()
	for _, r := range b.routes {
		common = slices.DeleteFunc(common, func(d doubt) bool { return !r.has(d) })
	}
	b.doubts = p.mixed(common)
	for i := range b.routes {
		r := &b.routes[i]
		r.doubts = p.mixed(slices.DeleteFunc(r.Route.doubts(), func(d doubt) bool {
			return slices.ContainsFunc(common, func(c doubt) bool { return c.key == d.key })
		}))
	}
}

// number gives routes their columns and energies; A weighs what sits in a band. What does not tell in the draws is left out.
func (p *plan) number(all []bundle, shares [][]spectrum.Bands) {
	for i := range all {
		b, sum := &all[i], spectrum.Bands{}
		for _, r := range b.routes {
			sum = sum.Plus(shares[r.listener][r.route])
		}
		b.common = p.columnsOf(b.doubts, sum, false)
		for k := range b.routes {
			r := &b.routes[k]
			share := shares[r.listener][r.route]
			r.rest, r.energy = p.columnsOf(r.doubts, share, true), spectrum.Bands{}
			for band, v := range r.Bands.Plus(r.weight(r.Weight)) {
				if share[band] != 0 && v*neper >= nothing {
					r.energy[band] = math.Exp(v * neper)
				}
			}
		}
	}
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
