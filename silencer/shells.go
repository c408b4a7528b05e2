package silencer

import (
	"math"
	"slices"

	"hushwake/silencer/chain"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/loss"
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
	for i, m := range r.with.AllMarks(nil) {
		if m.Place == 0 {
			continue
		}
		s := r.with.spots[m.Place-1]
		e, p := s.of(), s.course.ports[s.element]
		bore := (p.in + p.out) / 2
		g, sized := shellOf(e, bore)
		if e.Within() != nil || g.Length <= 0 {
			continue
		}
		inside := inDuct.Minus(falls[i])
		if g.Silencing && i+1 < len(falls) {
			inside = mean(inside, inDuct.Minus(falls[i+1]))
		}
		w := casingOf(e, g, bore)
		w.Lagging = s.course.Stream.Wrapped(e.Base().Lagging).Thickness
		bands, err := w.Radiates(inside)
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
func shellOf(e Element, bore float64) (g Form, sized bool) {
	g = e.Form()
	q := e.Quoted()
	if sized = q == nil || q.Shellless || g.Length > 0 && g.Body > 0; !sized {
		g.Length, g.Body = orDefault(g.Length, usualLong*bore), orDefault(g.Body, usualWide*bore)
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
	return x.partial(x.response.with.Chain, none, most, nil)
}

// partial appends the loss before each element, by octave: from base at the chain's head to most. A branch holds its
// share of the energy, by area.
func (x *Solved) partial(a *chain.Chain, base, most []float64, all []spectrum.Bands) []spectrum.Bands {
	least := slices.Clone(base)
	for k, at := range a.Marks {
		for i, s := range x.samples {
			v := base[i] + a.Before[k][i]
			for _, st := range a.Stated[:at.Stated] {
				v += st.Bands[s.Band]
			}
			least[i] = math.Max(least[i], math.Min(v, most[i])) // what was taken out stays out
		}
		all = append(all, weigh.Average(x.samples, func(i int) float64 { return least[i] }))
		for _, b := range at.Branches {
			share := 10 * math.Log10(b.Weight/a.Weight)
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
func casingOf(e Element, g Form, bore float64) fourpole.Casing {
	b := e.Base()
	diameter := orDefault(g.Body, bore)
	material := loss.MaterialOf(b.Material, e.usual())
	thick := g.thickness(diameter)
	mass := material.Wall.Density * thick
	round := fourpole.Skin{Ratio: math.Pi * math.Max(g.Outer, diameter) * orDefault(g.Tall, g.Length) / circle(diameter), Loss: func(f float64) (float64, error) {
		return fourpole.RoundBreakout(mass, diameter, f, fourpole.LongSeam)
	}}
	switch {
	case g.Hose && material.Yields():
		out := wet.Tube{Bore: bore, Wall: (g.Outer - bore) / 2, Length: g.Length, Kind: g.Make}.BreakOut()
		return fourpole.Casing{Walls: []fourpole.Skin{{Ratio: 1, Bands: &out}}, Lagging: b.Lagging.Thickness, Cited: published.By("Lw - D, D of a thin elastic tube as a line source, mean over its unknown stiffness, 6 to 40 dB over the whole hose",
			"hoop stiffness 60 MPa within a factor of 2.5 (30 soft, 100 hard): judgement", "derived")}
	case g.Body > 0:
		ends := fourpole.Skin{Ratio: 2, Loss: fourpole.PlateLoss(mass, fourpole.PlateResonance(diameter, thick, material.Wall.Speed))}
		return fourpole.Casing{Walls: []fourpole.Skin{round, ends}, Lagging: b.Lagging.Thickness, Cited: published.By("Lw - TL + 10 lg (outer/inner area): barrel by the round duct TL, to 50 dB, flat ends by 20 lg (m f) - 47, to 30 dB, and 6 dB an octave more below their first resonance",
			"ASHRAE handbook, HVAC Applications; mass law; clamped circular plate", "from memory")}
	}
	return fourpole.Casing{Walls: []fourpole.Skin{round}, Lagging: b.Lagging.Thickness, Cited: published.By("Lw - TL + 10 lg (outer/inner area), round duct TL of Reynolds and Bledsoe, to 50 dB",
		"ASHRAE handbook, HVAC Applications", "from memory")}
}
