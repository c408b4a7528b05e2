package boatfile

import (
	"fmt"
	"math"
	"slices"

	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/schema"
	"hushwake/path/boatfile/spelling"
)

// Limits of what a passage may hold.
const (
	mostDays  = 1000
	mostTimes = 400 // a year
	mostLegs  = 20
	dayHours  = 24.0
	yearDays  = 366.0
	// leastSpeed is the share of its rated speed under which no engine is taken to run, half of where it idles (judgement)
	leastSpeed = 0.125
	// fastBoat is a speed over ground that few boats make, m/s: 40 kn (judgement)
	fastBoat = 40 * 1852.0 / 3600
)

// passages reads days at sea; engines and places are those of the file.
func (r *reader) passages(n *decode.Node, b *path.Boat) (out []path.Voyage) {
	s := r.Section(n, "passages")
	for i, k := range s.Keys {
		o := r.Object(s.Values[i], "passages."+k.Text)
		v := path.Voyage{Name: k.Text}
		if v.Days, _ = r.Number(o.Get("days"), o.Path+" days", decode.Limits{Min: 0, Max: mostDays, OpenMin: true}); v.Days == 0 {
			v.Days = 1
			if !o.Has("days") {
				r.Assume(o.Path+" days", "1", practice, 0)
			}
		}
		v.Times, _ = r.Number(o.Get("times_a_year"), o.Path+" times_a_year", decode.Limits{Min: 0, Max: mostTimes, OpenMin: true})
		if v.FuelPrice, _ = o.Value("fuel_price", decode.Positive, quantity.PerVolume); v.FuelPrice == 0 && b.Passage != nil {
			v.FuelPrice = b.Passage.FuelPrice
		}
		v.Watch = r.watch(o, b)
		for j, item := range r.List(o.Get("legs"), o.Path+" legs", 1, mostLegs) {
			v.Legs = append(v.Legs, r.leg(item, fmt.Sprintf("%s legs[%d]", o.Path, j+1), v.Days, b))
		}
		if !o.Has("legs") {
			r.Assume(o.Path+" legs", "the weights of a test cycle", "ISO 8178-4: E3 for a ship's propeller, E4 for a planing boat's, D2 for a set", 3)
		}
		o.Done()
		r.fullDay(o, v)
		r.fullYear(o, v)
		out = append(out, v)
	}
	return out
}

// leg reads a duty and its hours of a day.
func (r *reader) leg(n *decode.Node, what string, days float64, b *path.Boat) path.Leg {
	o := r.Object(n, what)
	g := path.Leg{Hours: o.MustValue("hours", decode.Positive, quantity.Duration)}
	switch one, several := o.Text("engine"), o.Get("engines"); {
	case one != "" && several != nil:
		r.Wrong(several, "keep one of the two", "%s: engine and engines", what)
	case one != "":
		g.Engines = []string{one}
	case several != nil:
		g.Engines = o.Texts("engines")
	}
	g.Speed, _ = o.Value("speed", decode.Positive, quantity.RotationalSpeed)
	g.Power, _ = o.Value("power", decode.Positive, quantity.Power)
	g.Over, _ = o.Value("over_ground", decode.Positive, quantity.Speed)
	o.Done()
	if g.Over > fastBoat {
		r.Warn(o.Get("over_ground"), "%s over_ground: %q is faster than nearly any boat; was another unit meant, such as km/h?", what, spelling.Clip(o.Text("over_ground")))
	}
	if most := dayHours * min(1, days); g.Hours > most*(1+1e-9) {
		r.Wrong(o.Get("hours"), "write the hours of one day, and how many days there are as days: 20", "%s hours: %q is more than the %s that a day of this passage has", what,
			spelling.Clip(o.Text("hours")), quantity.Format(most, quantity.Duration, quantity.Metric))
	}
	r.legEngines(o, g, b)
	return g
}

// legEngines checks that the engines of a leg are there and can run so.
func (r *reader) legEngines(o *decode.Object, g path.Leg, b *path.Boat) {
	var all []*path.Engine
	var names []string
	for _, l := range b.Layouts {
		for i := range l.Engines {
			if e := &l.Engines[i]; !slices.Contains(names, e.Name) {
				all, names = append(all, e), append(names, e.Name)
			}
		}
	}
	at := o.Get("engine")
	if at == nil {
		at = o.Get("engines")
	}
	for _, name := range g.Engines {
		if !r.known(at, o.Path+" engine", name, names) {
			return
		}
	}
	if !slices.ContainsFunc(all, func(e *path.Engine) bool { return e.On(g) }) && len(all) > 0 {
		r.Wrong(o.At, "add engine: "+names[0], "%s: no engine of the file drives a propeller, so that none runs", o.Path)
	}
	for _, e := range all {
		if !e.On(g) {
			continue
		}
		r.notAbove(o.Get("speed"), o.Path+" speed", g.Speed, e.Rated.Speed, quantity.RotationalSpeed)
		r.turning(o, g, e)
		r.notAbove(o.Get("power"), o.Path+" power", g.Power, e.Rated.Power, quantity.Power)
		if len(g.Engines) == 1 {
			r.steady(o.Get("speed"), o.Path+" speed", e, g.Speed)
		}
	}
}

// turning refuses a speed that no engine keeps running at.
func (r *reader) turning(o *decode.Object, g path.Leg, e *path.Engine) {
	if least := leastSpeed * e.Rated.Speed; g.Speed > 0 && g.Speed < least {
		r.Wrong(o.Get("speed"), "write the speed of the engine; it idles at about "+quantity.Format(2*least, quantity.RotationalSpeed, quantity.Metric), "%s speed: %q is slower than %s can run, rated at %s",
			o.Path, spelling.Clip(o.Text("speed")), e.Name, quantity.Format(e.Rated.Speed, quantity.RotationalSpeed, quantity.Metric))
	}
}

// watch reads who is where; two share the day where no hours off are stated.
func (r *reader) watch(o *decode.Object, b *path.Boat) (w path.Watch) {
	n := o.Get("watch")
	if n == nil {
		if b.Passage != nil {
			w.On, w.Off = b.Passage.Watch, b.Passage.Watch
		}
		return w
	}
	x := r.Object(n, o.Path+".watch")
	w.On = x.MustValue("on", decode.Limits{Min: 0, Max: dayHours, OpenMin: true}, quantity.Duration)
	if off, ok := x.Value("off", decode.Limits{Min: 0, Max: dayHours}, quantity.Duration); ok {
		w.Off = off
	} else {
		w.Off = w.On
		r.Assume(x.Path+" off", quantity.Format(w.On, quantity.Duration, quantity.Metric), "two keep watch by turns", 0)
	}
	w.At, w.Rest = x.Text("at"), x.Text("rest")
	x.Done()
	var seats []string
	for _, l := range b.Listeners {
		seats = append(seats, l.Name)
	}
	for key, name := range map[string]string{"at": w.At, "rest": w.Rest} {
		if name != "" {
			r.known(x.Get(key), x.Path+" "+key, name, seats)
		}
	}
	return w
}

// fullDay refuses an engine that runs for more hours than a day has.
func (r *reader) fullDay(o *decode.Object, v path.Voyage) {
	sum := map[string]float64{}
	for _, g := range v.Legs {
		names := g.Engines
		if len(names) == 0 {
			names = []string{"the engines that drive propellers"}
		}
		for _, e := range names {
			sum[e] += g.Hours
			if most := dayHours * min(1, v.Days); sum[e] > most*(1+1e-9) && g.Hours <= most {
				r.Wrong(o.Get("legs"), "legs hold the hours of one day; write how many days there are as days: 20",
					"%s legs: %s run %s a day, of %s", o.Path, e, quantity.Format(sum[e], quantity.Duration, quantity.Metric), quantity.Format(most, quantity.Duration, quantity.Metric))
				return
			}
		}
	}
}

// fullYear refuses passages that take more days than a year has.
func (r *reader) fullYear(o *decode.Object, v path.Voyage) {
	if sum := v.Days * v.Times; sum > yearDays {
		hint := fmt.Sprintf("write how often such a passage is made, %g times a year at most", math.Floor(yearDays/v.Days))
		if v.Days > yearDays {
			hint = "leave times_a_year out"
		}
		r.Wrong(o.Get("times_a_year"), hint, "%s: %g times a year %g days are %.4g days, of %g", o.Path, v.Times, v.Days, sum, yearDays)
	}
}

// PropellerSchema is that of what an engine turns.
func PropellerSchema() *jsonschema.Schema {
	return schema.Mapping("what the engine drives", schema.Fields{"blades": schema.Whole("of the propeller", 2, 9), "gear": schema.Number("turns of the engine for one of the shaft")})
}

// PassagesSchema is that of days at sea.
func PassagesSchema() *jsonschema.Schema {
	leg := schema.Mapping("a duty kept for some hours of a day", schema.Fields{
		"hours!": schema.Quantity(quantity.Duration), "speed": schema.Quantity(quantity.RotationalSpeed), "power": schema.Quantity(quantity.Power), "over_ground": schema.Quantity(quantity.Speed),
		"engine": schema.Text("an engine alone"), "engines": {AnyOf: []*jsonschema.Schema{schema.List(schema.Text("an engine"), 1, 0), schema.Text("")}},
	})
	watch := schema.Mapping("who is where", schema.Fields{"on!": schema.Quantity(quantity.Duration), "off": schema.Quantity(quantity.Duration), "at": schema.Text("a listener, on watch"), "rest": schema.Text("a listener, off watch")})
	return schema.Named("days at sea, by name", schema.Mapping("a passage", schema.Fields{
		"days": schema.Number("how many"), "times_a_year": schema.Number("how often"), "fuel_price": schema.Quantity(quantity.PerVolume),
		"watch": watch, "legs": schema.List(leg, 1, mostLegs),
	}))
}
