package boatfile

import "hushwake/silencer"

// perforate reads what perforated, plugged and packed tubes share.
func (e *element) perforate() silencer.Perforate {
	var p silencer.Perforate
	p.Bore = e.ownBore(false)
	p.ChamberBore = e.sized("chamber_bore", upTo(10), 2*p.Bore, practice+": two bores", 4)
	p.Length = e.sized("length", upTo(20), 6*p.Bore, practice+": six bores", 4)
	e.perforatedPart(&p)
	p.Porosity = e.share("porosity", 0.2, practice, 3)
	p.Hole = e.sized("hole", upTo(0.1), 0.0035, practice, 1)
	p.TubeWall = e.sized("tube_wall", upTo(0.05), 0.0015, practice, 0.5)
	p.Wall = e.sized("wall", upTo(0.05), 0.002, practice, 0)
	switch e.o.word("impedance", "grazing", "still") {
	case "still":
		p.Impedance = silencer.Still
	case "grazing":
		p.Impedance = silencer.Grazing
	default:
		p.Impedance = silencer.Grazing
		if !e.o.has("impedance") {
			e.fill("impedance", "grazing", "gas flows past the holes", 1)
		}
	}
	e.perforateFits(p)
	return p
}

func (e *element) share(key string, def float64, src string, plusMinus float64) float64 {
	if e.o.has(key) {
		v, ok := e.o.value(key, limits{min: 0, max: 0.95, openMin: true}, Fraction)
		if ok {
			return v
		}
		return def
	}
	e.o.raw(key)
	e.fill(key, Format(def, Fraction, Metric), src, plusMinus)
	return def
}

// perforatedPart reads [from, to] measured from the inlet end.
func (e *element) perforatedPart(p *silencer.Perforate) {
	r := e.l.r
	n := e.o.get("perforated")
	if n == nil {
		p.To = p.Length
		e.fill("perforated", "the whole length", practice, 1)
		return
	}
	part := r.lengths(n, e.o.path+" perforated", 2, 2, notNegative)
	if len(part) != 2 {
		return
	}
	p.From, p.To = part[0], part[1]
	switch {
	case p.From >= p.To:
		r.wrong(n, "such as [0 mm, 600 mm]", "%s: the perforated part must begin before it ends", e.o.path)
	case p.To > p.Length*1.000001:
		r.wrong(n, "", "%s: the perforated part ends at %s, outside the chamber of %s", e.o.path, Format(p.To, Length, Metric), Format(p.Length, Length, Metric))
	}
}

func (e *element) perforateFits(p silencer.Perforate) {
	if p.Bore+2*p.TubeWall >= p.ChamberBore {
		e.l.r.wrong(e.at("chamber_bore", "bore"), "chamber_bore is the inside of the shell round the perforated tube",
			"%s: a tube of bore %s does not fit in a chamber of %s", e.o.path, Format(p.Bore, Length, Metric), Format(p.ChamberBore, Length, Metric))
	}
}

func (e *element) perforated(n *node) silencer.Element {
	p := &silencer.Perforated{Common: e.open(n)}
	p.Perforate = e.perforate()
	e.metal(&p.Common, "mild steel")
	e.o.done()
	return p
}

func (e *element) plugged(n *node) silencer.Element {
	p := &silencer.Plugged{Common: e.open(n)}
	p.Perforate = e.perforate()
	p.PlugAt = e.sized("plug_at", positive, p.Length/2, "taken in the middle", 2)
	if p.PlugAt <= p.From || p.PlugAt >= p.To {
		e.l.r.wrong(e.at("plug_at"), "", "%s: the plug at %s is not inside the perforated part, %s to %s", e.o.path,
			Format(p.PlugAt, Length, Metric), Format(p.From, Length, Metric), Format(p.To, Length, Metric))
	}
	e.metal(&p.Common, "mild steel")
	e.o.done()
	return p
}

// packing says whether the whole shell is packed; part of one is refused.
func (e *element) packing(p silencer.Perforate) {
	switch e.o.word("packing", "whole", "part") {
	case "part":
		e.l.r.wrong(e.o.get("packing"), "a plate has to part them in the shell: then write the packed and the empty section one after the other, packed and perforated",
			"%s: only a shell packed from end to end is modelled", e.o.path)
	case "":
		if !e.o.has("packing") && p.To-p.From < 0.9*p.Length { // less than plain ends need: judgement
			e.fill("packing", "whole: also beside the part without holes", "what packed means", 3)
		}
	}
}

func (e *element) packed(n *node) silencer.Element {
	p := &silencer.Packed{Common: e.open(n)}
	p.Perforate = e.perforate()
	e.packing(p.Perforate)
	if v, ok := e.o.value("flow_resistivity", positive, FlowResistivity); ok {
		p.FlowResistivity = v
	} else if !e.o.has("flow_resistivity") {
		p.FlowResistivity = 10000
		e.fill("flow_resistivity", "10000 Pa.s/m2", practice, 3)
	}
	fibres := map[string]silencer.Fibre{"allard-champoux": silencer.AllardChampoux, "delany-bazley": silencer.DelanyBazley, "miki": silencer.Miki}
	if w := e.o.word("fibre", "allard-champoux", "delany-bazley", "miki"); w != "" {
		p.Fibre, p.Stated = fibres[w], true
	} else if !e.o.has("fibre") {
		e.fill("fibre", "Delany-Bazley type inside its range, Miki below", practice, 1)
	}
	e.metal(&p.Common, "mild steel")
	e.o.done()
	return p
}
