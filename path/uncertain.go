package path

import (
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// Standard deviations of the chain, dB by band. All are judgement unless a source stands beside them.
var (
	// a band's energy may sit on other orders than the model's
	orderPatternSD = spectrum.Bands{2.5, 2, 1.5, 1.5, 1, 0.5, 0.5, 0.5, 0.5}
	// plain pipe: resonances and ends only
	plainLineSD = spectrum.Bands{1, 1, 1, 1, 1, 1, 1, 1, 1}
	// an offer with octave losses to a named test, one overall figure, a bare claim
	quoteOctavesSD = spectrum.Bands{4, 3, 3, 3, 3, 3, 3, 3.5, 4}
	quoteOverallSD = spectrum.Fill(5)
	quoteClaimSD   = spectrum.Fill(8)
	// holes: resistance and reactance with hot, loud, grazing flow
	perforateSD = spectrum.Bands{0.5, 0.5, 1, 1.5, 2, 2, 2.5, 3, 3}
	// beaming of a hot, flowing outlet by ka
	directivitySD = spectrum.Bands{0.5, 0.5, 0.5, 0.5, 1, 1.5, 2, 3, 3}
	shieldingSD   = spectrum.Bands{1, 1, 1, 1.5, 2, 2.5, 3, 3, 3}
	flankingSD    = spectrum.Fill(6)
)

func orderPattern(engine string) Uncertain {
	return Uncertain{Term: "order pattern", Key: "order pattern/" + engine, SD: orderPatternSD, Source: "judgement"}
}

// flowNoise weighs the error of the flow noise with its share in the outlet's energy.
func flowNoise(engine string, after spectrum.Bands, r ExhaustResult) Uncertain {
	var sd spectrum.Bands
	for i := range sd {
		sd[i] = 5 * spectrum.Power(r.Acoustics.SelfNoise[i]-r.OutletPower[i])
	}
	return Uncertain{Term: "flow noise", Key: "flow noise/" + engine, SD: sd,
		Source: "judgement; one measured silencer, 5 dB at best"}
}

// lineUncertain lists what makes the loss of a line uncertain. Equal lines share their error.
func lineUncertain(engine string, x *Exhaust, a silencer.Acoustics) []Uncertain {
	kinds := kindsOf(x.Line.Elements)
	key := func(term string) string { return lineKey(term, engine, x) }
	var out []Uncertain
	switch {
	case kinds.modelled:
		out = append(out, Uncertain{Term: "element model", Key: key("element model"), SD: a.ElementSD, Source: "judgement"})
	default:
		out = append(out, Uncertain{Term: "element model", Key: key("element model"), SD: plainLineSD, Source: "judgement"})
	}
	if kinds.perforate {
		out = append(out, Uncertain{Term: "perforate", Key: "perforate/" + engine, SD: perforateSD, Source: "judgement"})
	}
	for _, d := range a.Doubts {
		out = append(out, Uncertain{Term: d.Term, Key: d.Key, SD: d.SD, Source: d.Source})
	}
	for _, g := range kinds.given {
		sd, why := quoteSD(g)
		out = append(out, Uncertain{Term: "quote", Key: "quote/" + g.Offer + g.Name, SD: sd, Source: why})
	}
	return out
}

func quoteSD(g *silencer.Given) (spectrum.Bands, string) {
	switch {
	case g.InsertionLoss != nil:
		return quoteOctavesSD, "judgement: octave losses as stated"
	case g.Overall != nil || g.AtLevel != nil:
		return quoteOverallSD, "judgement: one figure, spread over the octaves by us"
	}
	return quoteClaimSD, "judgement: no loss stated in figures"
}

// Wet says whether water is injected into a line of the layout.
func (l *Layout) Wet() bool {
	for i := range l.Exhausts {
		if kindsOf(l.Exhausts[i].Line.Elements).wet {
			return true
		}
	}
	return false
}

// kindSet is what sort of elements a line holds.
type kindSet struct {
	modelled, perforate, wet bool
	given                    []*silencer.Given
}

func kindsOf(elements []silencer.Element) (k kindSet) {
	for _, e := range elements {
		switch v := e.(type) {
		case *silencer.Perforated, *silencer.Plugged, *silencer.Packed:
			k.perforate, k.modelled = true, true
		case *silencer.WaterInjection:
			k.wet = true
		case *silencer.Given:
			k.given = append(k.given, v)
		case *silencer.Parallel:
			for _, b := range v.Branches {
				in := kindsOf(b)
				k.modelled, k.perforate = k.modelled || in.modelled, k.perforate || in.perforate
				k.wet, k.given = k.wet || in.wet, append(k.given, in.given...)
			}
			k.modelled = true
		default:
			k.modelled = k.modelled || silencing(e)
		}
	}
	return k
}
