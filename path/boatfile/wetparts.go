package boatfile

import (
	"hushwake/silencer"
)

func (e *element) waterInjection(n *node) silencer.Element {
	w := &silencer.WaterInjection{Common: e.open(n)}
	r := e.l.r
	if v, ok := e.o.value("flow", positive, VolumeFlow); ok {
		w.Flow = v
	} else if !e.o.has("flow") {
		w.Flow = e.l.power / 1000 * litre / 60
		if w.Flow == 0 {
			w.Flow = 30 * litre / 60
		}
		e.fill("flow", Format(w.Flow/litre*60, Number, Metric)+" L/min", practice+": 1 L/min per kW of rated power", 1)
	}
	if v, ok := e.o.value("temperature", limits{min: 270, max: 373}, Temperature); ok {
		w.Temperature = v
	} else if !e.o.has("temperature") {
		w.Temperature = r.sea + 18
		e.fill("temperature", Format(w.Temperature, Temperature, Metric), practice+": 15 to 20 K above the sea", 0.5)
	}
	if v, ok := e.o.value("height_over_waterline", anyValue, Length); ok {
		w.HeightOverWater, w.HeightOverWaterOK = v, true
	} else if !e.o.has("height_over_waterline") {
		e.fill("height_over_waterline", "not stated: flooding can't be judged", "measure it at full load", 0)
	}
	if w.Pipe, _ = e.o.value("bore", upTo(3), Length); w.Pipe > 0 {
		e.l.bore = w.Pipe
	}
	if w.Flow > 0.1 {
		r.warn(e.o.get("flow"), "%s: a water flow of %q is very large for one engine", e.o.path, e.o.text("flow"))
	}
	e.o.done()
	return w
}

func (e *element) liftChamber(n *node) silencer.Element {
	c := &silencer.LiftChamber{Common: e.open(n)}
	r, in := e.l.r, e.neighbour()
	c.Bore = e.sized("bore", upTo(5), 2.8*in, practice+": 2.8 hose bores", 3)
	c.Height = e.sized("height", upTo(5), 1.4*c.Bore, practice+": 1.4 times its bore", 3)
	c.WaterLevel = e.sized("water_level", notNegative, c.Height/4, "a quarter of its height at rest", 3)
	if d := e.o.get("dip_tube"); d != nil {
		o := r.object(d, e.o.path+".dip_tube")
		c.DipBore = e.part(o, "bore", in, "dip tube bore")
		c.DipClearance = e.part(o, "clearance", c.Bore/6, "dip tube clearance")
		o.done()
	} else {
		c.DipBore, c.DipClearance = in, c.Bore/6
		e.fill("dip_tube", "of the hose's bore, a sixth of the chamber's bore over its floor", practice, 2)
	}
	if d := e.o.get("riser"); d != nil {
		o := r.object(d, e.o.path+".riser")
		c.RiserBore = e.part(o, "bore", in, "riser bore")
		c.RiserRise = e.part(o, "rise", 0.6, "riser rise")
		o.done()
	} else {
		c.RiserBore, c.RiserRise = in, 0.6
		e.fill("riser", "of the hose's bore, rising 600 mm", practice, 2)
	}
	c.Wall = e.sized("wall", upTo(0.05), 0.005, practice, 1)
	if c.Material == "" {
		c.Material = "grp"
		e.fill("material", "grp", practice, 1)
	}
	e.l.bore = c.RiserBore
	e.liftFits(c)
	e.o.done()
	return c
}

// part reads a length of an inner mapping or takes a default.
func (e *element) part(o *object, key string, def float64, name string) float64 {
	if o.has(key) {
		v, ok := o.value(key, positive, Length)
		if !ok {
			return def
		}
		return v
	}
	o.raw(key)
	e.fill(name, Format(def, Length, Metric), practice, 2)
	return def
}

// liftFits refuses chambers that can't hold gas, or whose pipes don't fit.
func (e *element) liftFits(c *silencer.LiftChamber) {
	r, what := e.l.r, e.o.path
	if c.WaterLevel >= c.Height {
		r.wrong(e.at("water_level", "height"), "the water level at rest is measured from the chamber's floor",
			"%s: water %s deep leaves no gas space in a chamber %s high", what, Format(c.WaterLevel, Length, Metric), Format(c.Height, Length, Metric))
	}
	if c.DipClearance >= c.Height {
		r.wrong(e.at("dip_tube", "height"), "", "%s: the dip tube's clearance %s is not smaller than the height %s", what, Format(c.DipClearance, Length, Metric), Format(c.Height, Length, Metric))
	}
	if c.DipBore >= c.Bore {
		r.wrong(e.at("dip_tube", "bore"), "", "%s: the dip tube's bore %s is not smaller than the chamber's %s", what, Format(c.DipBore, Length, Metric), Format(c.Bore, Length, Metric))
	}
	if c.RiserBore >= c.Bore {
		r.wrong(e.at("riser", "bore"), "", "%s: the riser's bore %s is not smaller than the chamber's %s", what, Format(c.RiserBore, Length, Metric), Format(c.Bore, Length, Metric))
	}
}

func (e *element) riser(n *node) silencer.Element {
	s := &silencer.Riser{Common: e.open(n)}
	s.Bore = e.ownBore(false)
	s.Rise = e.sized("rise", limits{min: 0, max: 20}, 0.6, practice, 1)
	s.Length = e.sized("length", upTo(50), max(s.Rise, 0.1), "its rise", 0)
	if s.Length < s.Rise*0.9999 {
		e.l.r.wrong(e.at("length"), "", "%s: a riser can't be shorter (%s) than it rises (%s)", e.o.path, Format(s.Length, Length, Metric), Format(s.Rise, Length, Metric))
	}
	if v, ok := e.o.value("top_over_waterline", anyValue, Length); ok {
		s.TopOverWater, s.TopStated = v, true
	} else if !e.o.has("top_over_waterline") {
		e.fill("top_over_waterline", "not stated: flooding can't be judged", "measure it at full load", 0)
	}
	if s.Material == "" {
		s.Material = "rubber"
		e.fill("material", "rubber", practice, 0)
	}
	e.o.done()
	return s
}

func (e *element) antiSiphon(n *node) silencer.Element {
	a := &silencer.AntiSiphon{Common: e.open(n)}
	var ok bool
	if a.TopOverWater, ok = e.o.value("top_over_waterline", anyValue, Length); !ok && !e.o.has("top_over_waterline") {
		a.TopOverWater = 0.45
		e.fill("top_over_waterline", "450 mm", "the least that handbooks ask: measure it", 0)
	}
	e.o.done()
	return a
}

func (e *element) separator(n *node) silencer.Element {
	s := &silencer.Separator{Common: e.open(n)}
	in := e.neighbour()
	s.Bore = e.sized("bore", upTo(5), 2.5*in, practice+": 2.5 hose bores", 3)
	s.Height = e.sized("height", upTo(5), 2*s.Bore, practice+": twice its bore", 3)
	if d := e.o.get("drain"); d != nil {
		o := e.l.r.object(d, e.o.path+".drain")
		s.DrainBore = e.part(o, "bore", 0.6*in, "drain bore")
		o.done()
	} else {
		s.DrainBore = 0.6 * in
		e.fill("drain", Format(s.DrainBore, Length, Metric)+" bore", practice, 0)
	}
	if s.DrainBore >= s.Bore {
		e.l.r.wrong(e.at("drain", "bore"), "", "%s: the drain's bore %s is not smaller than the separator's %s", e.o.path, Format(s.DrainBore, Length, Metric), Format(s.Bore, Length, Metric))
	}
	if s.Material == "" {
		s.Material = "grp"
		e.fill("material", "grp", practice, 1)
	}
	e.o.done()
	return s
}
