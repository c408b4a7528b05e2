package silencer

import (
	"math"
	"slices"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/weigh"
	"hushwake/silencer/wet"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Shells is Solve and its shells in one; nil when the line cannot be solved (March and Curve say why).
func (l *Line) Shells(f Feed, o Options, inDuct spectrum.Bands) []Shell {
	s, err := l.Solve(f, o)
	if err != nil {
		return nil
	}
	return s.Shells(inDuct)
}

// Shells gives the sound power that each element's wall sends into the space it stands in, dB re 1 pW,
// from the in-duct sound power at the inlet. The level inside falls along the line as the elements
// before take effect: by their transmission loss, never below that of the whole line.
func (x *Solved) Shells(inDuct spectrum.Bands) []Shell {
	r, falls := x.response, x.decline()
	var out []Shell
	for i, m := range r.with.allMarks(nil) {
		if m.place == 0 {
			continue
		}
		s := r.with.spots[m.place-1]
		e, p := s.of(), s.course.ports[s.element]
		bore := (p.in + p.out) / 2
		g, sized := shellOf(e, bore)
		if e.Within() != nil || g.length <= 0 {
			continue
		}
		inside := inDuct.Minus(falls[i])
		if g.silencing && i+1 < len(falls) {
			inside = mean(inside, inDuct.Minus(falls[i+1]))
		}
		w := casingOf(e, g, bore)
		w.lagging = s.course.stream.wrapped(e.Base().Lagging).Thickness
		bands, err := w.radiates(inside)
		if err != nil {
			continue
		}
		row := s.course.rows[s.row]
		out = append(out, Shell{Element: row.Name, In: row.In, Bands: bands, Cited: w.Cited, Doubt: wallDoubt(e, g, bore, sized)})
	}
	return out
}

// The shell of a silencer of which length or diameter are not stated, in bores: the long end of what is usual, since a
// long one is loud (judgement).
const usualLong, usualWide = 12, 2.5

// shellOf is the form of an element as its wall radiates, with the usual shell where a silencer's is not stated.
func shellOf(e Element, bore float64) (g form, sized bool) {
	g = e.form()
	q := e.Quoted()
	if sized = q == nil || q.Shellless || g.length > 0 && g.body > 0; !sized {
		g.length, g.body = orDefault(g.length, usualLong*bore), orDefault(g.body, usualWide*bore)
	}
	return g, sized
}

// mean is the energy mean of two spectra.
func mean(a, b spectrum.Bands) spectrum.Bands {
	return spectrum.SumBands(a, b).Shift(-10 * math.Log10(2))
}

// decline is the loss from the inlet to the beginning of each element, by octave.
func (x *Solved) decline() []spectrum.Bands {
	most, none := make([]float64, len(x.samples)), make([]float64, len(x.samples))
	for i := range most {
		most[i] = math.Max(0, x.losses[i].tl)
	}
	return x.partial(x.response.with.chain, none, most, nil)
}

// partial appends the loss before each element, by octave: from base at the chain's head to most. A branch holds its
// share of the energy, by area.
func (x *Solved) partial(a *chain, base, most []float64, all []spectrum.Bands) []spectrum.Bands {
	least := slices.Clone(base)
	for k, at := range a.marks {
		for i, s := range x.samples {
			v := base[i] + a.before[k][i]
			for _, st := range a.stated[:at.stated] {
				v += st.bands[s.Band]
			}
			least[i] = math.Max(least[i], math.Min(v, most[i])) // what was taken out stays out
		}
		all = append(all, weigh.Average(x.samples, func(i int) float64 { return least[i] }))
		for _, b := range at.branches {
			share := 10 * math.Log10(b.weight/a.weight)
			all = x.partial(b, shifted(least, -share), shifted(most, -share), all)
		}
	}
	return all
}

func shifted(v []float64, by float64) []float64 {
	out := make([]float64, len(v))
	for i := range v {
		out[i] = v[i] + by
	}
	return out
}

// casingOf picks the walls of an element: a pipe has one round wall, a silencer a round barrel and two flat
// ends, and a hose a stated difference over all its length.
func casingOf(e Element, g form, bore float64) casing {
	b := e.Base()
	diameter := orDefault(g.body, bore)
	material := wallOf(b.Material, e.usual())
	thick := g.thickness(diameter)
	mass := material.wall.Density * thick
	round := wall{ratio: math.Pi * math.Max(g.outer, diameter) * orDefault(g.tall, g.length) / circle(diameter), loss: func(f float64) (float64, error) {
		return fourpole.RoundBreakout(mass, diameter, f, fourpole.LongSeam)
	}}
	switch {
	case g.hose && material.yields():
		out := wet.Tube{Bore: bore, Wall: (g.outer - bore) / 2, Length: g.length, Kind: g.make}.BreakOut()
		return casing{walls: []wall{{ratio: 1, bands: &out}}, lagging: b.Lagging.Thickness, Cited: published.By("Lw - D, D of a thin elastic tube as a line source, mean over its unknown stiffness, 6 to 40 dB over the whole hose",
			"hoop stiffness 60 MPa within a factor of 2.5 (30 soft, 100 hard): judgement", "derived")}
	case g.body > 0:
		ends := wall{ratio: 2, loss: plateLoss(mass, plateResonance(diameter, thick, material.wall.Speed))}
		return casing{walls: []wall{round, ends}, lagging: b.Lagging.Thickness, Cited: published.By("Lw - TL + 10 lg (outer/inner area): barrel by the round duct TL, to 50 dB, flat ends by 20 lg (m f) - 47, to 30 dB, and 6 dB an octave more below their first resonance",
			"ASHRAE handbook, HVAC Applications; mass law; clamped circular plate", "from memory")}
	}
	return casing{walls: []wall{round}, lagging: b.Lagging.Thickness, Cited: published.By("Lw - TL + 10 lg (outer/inner area), round duct TL of Reynolds and Bledsoe, to 50 dB",
		"ASHRAE handbook, HVAC Applications", "from memory")}
}
