package lines

import (
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/schema"
	"hushwake/silencer"
)

// perforate are the fields that perforated, plugged and packed tubes share.
func (e *element) perforate(p *silencer.Perforate) []field {
	return []field{
		e.bore(&p.Bore, false),
		length("chamber_bore", &p.ChamberBore, decode.UpTo(10)).by(func() float64 { return 2 * p.Bore }, decode.Practice+": two bores", 4),
		length("length", &p.Length, decode.UpTo(20)).by(func() float64 { return 6 * p.Bore }, decode.Practice+": six bores", 4),
		{keys: schema.Fields{"perforated": schema.Lengths("from and to, from the inlet end", 2, 2)}, taken: "the whole length", read: func(e *element) { e.perforatedPart(p) }},
		amount("porosity", &p.Porosity, quantity.Fraction, decode.Limits{Min: 0, Max: 0.95, OpenMin: true}).or(0.2, decode.Practice, 3),
		length("hole", &p.Hole, decode.UpTo(0.1)).or(0.0035, decode.Practice, 1),
		length("tube_wall", &p.TubeWall, decode.UpTo(0.05)).or(0.0015, decode.Practice, 0.5),
		length("wall", &p.Wall, decode.UpTo(0.05)).or(0.002, decode.Practice, 0),
		words("impedance", "gas at the holes", []string{"grazing", "still"}, func(e *element, word string) {
			p.Impedance = silencer.Grazing
			if word == "still" {
				p.Impedance = silencer.Still
			} else if !e.o.Has("impedance") {
				e.fill("impedance", "grazing", "gas flows past the holes", 1)
			}
		}),
		refuses(func() bool { return p.Bore+2*p.TubeWall >= p.ChamberBore }, "chamber_bore is the inside of the shell round the perforated tube", []string{"chamber_bore", "bore"},
			"a tube of bore %s does not fit in a chamber of %s", &p.Bore, &p.ChamberBore),
	}
}

// perforatedPart reads [from, to] measured from the inlet end.
func (e *element) perforatedPart(p *silencer.Perforate) {
	r := e.l.Common
	n := e.o.Get("perforated")
	if n == nil {
		p.To = p.Length
		e.fill("perforated", "the whole length", decode.Practice, 1)
		return
	}
	part := r.Lengths(n, e.o.Path+" perforated", 2, 2, decode.NotNegative)
	if len(part) != 2 {
		return
	}
	p.From, p.To = part[0], part[1]
	switch {
	case p.From >= p.To:
		r.Wrong(n, "such as [0 mm, 600 mm]", "%s: the perforated part must begin before it ends", e.o.Path)
	case p.To > p.Length*1.000001:
		r.Wrong(n, "", "%s: the perforated part ends at %s, outside the chamber of %s", e.o.Path, metric(p.To), metric(p.Length))
	}
}

func (e *element) perforated() (silencer.Element, []field) {
	p := &silencer.Perforated{}
	return p, append(e.perforate(&p.Perforate), metal(&p.Common, "mild steel", 0))
}

func (e *element) plugged() (silencer.Element, []field) {
	p := &silencer.Plugged{}
	return p, append(e.perforate(&p.Perforate),
		length("plug_at", &p.PlugAt, decode.Positive).by(func() float64 { return p.Length / 2 }, "taken in the middle", 2),
		refuses(func() bool { return p.PlugAt <= p.From || p.PlugAt >= p.To }, "", []string{"plug_at"},
			"the plug at %s is not inside the perforated part, %s to %s", &p.PlugAt, &p.From, &p.To),
		metal(&p.Common, "mild steel", 0))
}

// fibres are the models of a filling.
var fibres = map[string]silencer.Fibre{"allard-champoux": silencer.AllardChampoux, "delany-bazley": silencer.DelanyBazley, "miki": silencer.Miki}

func (e *element) packed() (silencer.Element, []field) {
	p := &silencer.Packed{}
	return p, append(e.perforate(&p.Perforate),
		words("packing", "how far the shell is packed", []string{"whole", "part"}, func(e *element, word string) { e.packing(p.Perforate, word) }),
		amount("flow_resistivity", &p.FlowResistivity, quantity.FlowResistivity, decode.Positive).assumed(10000, "10000 Pa.s/m2", decode.Practice, 3),
		words("fibre", "fibre model", []string{"allard-champoux", "delany-bazley", "miki"}, func(e *element, word string) {
			if p.Fibre = fibres[word]; !e.o.Has("fibre") {
				e.fill("fibre", "Delany-Bazley type inside its range, Miki below", decode.Practice, 1)
			}
		}),
		metal(&p.Common, "mild steel", 0))
}

// packing says whether the whole shell is packed; part of one is refused.
func (e *element) packing(p silencer.Perforate, word string) {
	switch word {
	case "part":
		e.l.Common.Wrong(e.o.Get("packing"), "a plate has to part them in the shell: then write the packed and the empty section one after the other, packed and perforated",
			"%s: only a shell packed from end to end is modelled", e.o.Path)
	case "":
		if !e.o.Has("packing") && p.To-p.From < 0.9*p.Length { // less than plain ends need: judgement
			e.fill("packing", "whole: also beside the part without holes", "what packed means", 3)
		}
	}
}
