package lines

import (
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/silencer"
	"hushwake/source/said"
)

func (e *element) waterInjection() (silencer.Element, []field) {
	w := &silencer.WaterInjection{}
	usual := e.l.Power / 1000 * quantity.Litre / 60
	if usual == 0 {
		usual = 30 * quantity.Litre / 60
	}
	warm := e.l.Common.Sea + 18
	return w, []field{
		amount("flow", &w.Flow, quantity.VolumeFlow, decode.Positive).assumed(usual, quantity.Format(usual/quantity.Litre*60, quantity.Number, quantity.Metric)+" L/min", decode.Practice+": 1 L/min per kW of rated power", 1),
		amount("temperature", &w.Temperature, quantity.Temperature, decode.Limits{Min: 270, Max: 373}).assumed(warm, quantity.Said(warm, quantity.Temperature), decode.Practice+": 15 to 20 K above the sea", 0.5),
		length("height_over_waterline", &w.HeightOverWater, decode.AnyValue).assumed(0, "not stated: flooding can't be judged", "measure it at full load", 0).noting(&w.HeightOverWaterOK),
		length("bore", &w.Pipe, decode.UpTo(3)),
		step(func(e *element) {
			if w.Pipe > 0 {
				e.l.bore = w.Pipe
			}
			if w.Flow > 0.1 {
				e.l.Common.Warn(e.o.Get("flow"), "%s: a water flow of %q is very large for one engine", e.o.Path, e.o.Text("flow"))
			}
		}),
	}
}

func (e *element) liftChamber() (silencer.Element, []field) {
	c := &silencer.LiftChamber{}
	in := e.neighbour()
	hose := func() float64 { return in }
	return c, []field{
		length("bore", &c.Bore, decode.UpTo(5)).by(func() float64 { return 2.8 * in }, decode.Practice+": 2.8 hose bores", 3),
		length("height", &c.Height, decode.UpTo(5)).by(func() float64 { return 1.4 * c.Bore }, decode.Practice+": 1.4 times its bore", 3),
		length("water_level", &c.WaterLevel, decode.NotNegative).by(func() float64 { return c.Height / 4 }, "a quarter of its height at rest", 3),
		piece("dip_tube", "the pipe that comes in", func() string { return "of the hose's bore, a sixth of the chamber's bore over its floor" }, 2,
			size{"bore", "dip tube bore", &c.DipBore, hose}, size{"clearance", "dip tube clearance", &c.DipClearance, func() float64 { return c.Bore / 6 }}),
		piece("riser", "the pipe that leaves", func() string { return said.Textf("of the hose's bore, rising {600 mm}") }, 2,
			size{"bore", "riser bore", &c.RiserBore, hose}, size{"rise", "riser rise", &c.RiserRise, func() float64 { return 0.6 }}),
		length("wall", &c.Wall, decode.UpTo(0.05)).or(0.005, decode.Practice, 1),
		metal(&c.Common, "grp", 1),
		step(func(e *element) { e.l.bore = c.RiserBore }),
		refuses(func() bool { return c.WaterLevel >= c.Height }, "the water level at rest is measured from the chamber's floor", []string{"water_level", "height"},
			"water %s deep leaves no gas space in a chamber %s high", &c.WaterLevel, &c.Height),
		smaller("the dip tube's clearance", &c.DipClearance, "the height", &c.Height, "dip_tube", "height"),
		smaller("the dip tube's bore", &c.DipBore, "the chamber's", &c.Bore, "dip_tube", "bore"),
		smaller("the riser's bore", &c.RiserBore, "the chamber's", &c.Bore, "riser", "bore"),
	}
}

// smaller refuses a size that is not smaller than another.
func smaller(what string, a *float64, than string, b *float64, keys ...string) field {
	return refuses(func() bool { return *a >= *b }, "", keys, what+" %s is not smaller than "+than+" %s", a, b)
}

func (e *element) riser() (silencer.Element, []field) {
	s := &silencer.Riser{}
	return s, []field{
		e.bore(&s.Bore, false),
		length("rise", &s.Rise, decode.Limits{Min: 0, Max: 20}).or(0.6, decode.Practice, 1),
		length("length", &s.Length, decode.UpTo(50)).by(func() float64 { return max(s.Rise, 0.1) }, "its rise", 0),
		refuses(func() bool { return s.Length < s.Rise*0.9999 }, "", []string{"length"},
			"a riser can't be shorter (%s) than it rises (%s)", &s.Length, &s.Rise),
		length("top_over_waterline", &s.TopOverWater, decode.AnyValue).assumed(0, "not stated: flooding can't be judged", "measure it at full load", 0).noting(&s.TopStated),
		metal(&s.Common, "rubber", 0),
	}
}

func (e *element) antiSiphon() (silencer.Element, []field) {
	a := &silencer.AntiSiphon{}
	return a, []field{length("top_over_waterline", &a.TopOverWater, decode.AnyValue).assumed(0.45, said.Textf("{450 mm}"), "the least that handbooks ask: measure it", 0)}
}

func (e *element) separator() (silencer.Element, []field) {
	s := &silencer.Separator{}
	in := e.neighbour()
	return s, []field{
		length("bore", &s.Bore, decode.UpTo(5)).by(func() float64 { return 2.5 * in }, decode.Practice+": 2.5 hose bores", 3),
		length("height", &s.Height, decode.UpTo(5)).by(func() float64 { return 2 * s.Bore }, decode.Practice+": twice its bore", 3),
		piece("drain", "the water's way out", func() string { return metric(s.DrainBore) + " bore" }, 0,
			size{"bore", "drain bore", &s.DrainBore, func() float64 { return 0.6 * in }}),
		smaller("the drain's bore", &s.DrainBore, "the separator's", &s.Bore, "drain", "bore"),
		metal(&s.Common, "grp", 1),
	}
}
