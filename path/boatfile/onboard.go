package boatfile

import (
	"fmt"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/outdoor"
	"hushwake/path/panel"
)

// listeners decodes the places where people hear, in file order.
func (r *reader) listeners(n *decode.Node) []path.Listener {
	var out []path.Listener
	s := r.Section(n, "listeners")
	for i, k := range s.Keys {
		o := r.Object(s.Values[i], "listeners."+k.Text)
		l := path.Listener{Name: k.Text, In: o.Text("in")}
		l.At, _ = r.Vector(o.Must("at", "[5.0 m, 0 m, 2.4 m]"), o.Path+" at", decode.AnyValue)
		l.Hours, _ = o.Value("hours", decode.Limits{Min: 0, Max: 24}, quantity.Duration)
		l.Limit = o.Pointer("limit", decode.AnyValue, quantity.LevelA)
		l.Background = r.background(o)
		o.Done()
		out = append(out, l)
	}
	return out
}

// background reads what is heard there without the engines: a level or nine bands, and when.
func (r *reader) background(o *decode.Object) (b path.Background) {
	n := o.Get("background")
	if n == nil {
		return b
	}
	x := r.Object(n, o.Path+".background")
	level, stated := x.Value("level", decode.Limits{Min: 0, Max: 140}, quantity.LevelA)
	bands, when := x.Get("bands"), x.Text("when")
	switch {
	case stated && bands != nil:
		r.Wrong(bands, "keep one of the two", "%s: a level and bands", x.Path)
	case stated:
		b = path.Background{Bands: path.BackgroundOf(level), SD: path.BackgroundSD, When: when}
	case bands != nil:
		if nine := r.Bands(bands, x.Path); nine != nil {
			b = path.Background{Bands: *nine, SD: path.BackgroundSD, When: when}
		}
	}
	x.Done()
	return b
}

// edges decodes what shields the outlet from a listener.
func (r *reader) edges(n *decode.Node) []path.Edge {
	var out []path.Edge
	for i, item := range r.List(n, "edges", 0, decode.Most) {
		o := r.Object(item, fmt.Sprintf("edges[%d]", i+1))
		e := path.Edge{Name: o.Text("name")}
		if e.Name == "" {
			e.Name = fmt.Sprintf("edge %d", i+1)
		}
		from, a := r.Vector(o.Get("from"), o.Path+" from", decode.AnyValue)
		to, b := r.Vector(o.Get("to"), o.Path+" to", decode.AnyValue)
		if e.From, e.To = from, to; a && b && from == to {
			r.Wrong(o.Get("to"), "", "%s begins and ends at the same place", o.Path)
		}
		o.Done()
		if !a || !b {
			r.Assume(o.Path, "it shields nothing: its ends are not stated", practice, 3)
			continue
		}
		out = append(out, e)
	}
	return out
}

// wholeBoat reads the single values of the top level.
func (r *reader) wholeBoat(o *decode.Object, b *path.Boat) {
	if b.Currency == "" {
		b.Currency = "EUR"
		if strings.Contains(fmt.Sprint(decode.KeysOf(o.At)), "quotes") {
			r.Assume("currency", b.Currency, practice, 0)
		}
	}
	b.Hatch = r.Lengths(o.Get("hatch"), "hatch", 2, 2, decode.Positive)
	if v, ok := o.Value("heel", decode.Limits{Min: 0, Max: 60 * quantity.Degree}, quantity.Angle); ok {
		b.Heel = v
	} else if !o.Has("heel") && b.Bench == nil {
		b.Heel = 15 * quantity.Degree
		r.Assume("heel", "15 deg", practice+": for the flooding checks only", 0)
	}
	if n := o.Get("passage"); n != nil {
		p := r.Object(n, "passage")
		b.Passage = &path.Passage{}
		b.Passage.Hours, _ = p.Value("hours", decode.Positive, quantity.Duration)
		b.Passage.Watch, _ = p.Value("watch", decode.Limits{Min: 0, Max: 24, OpenMin: true}, quantity.Duration)
		b.Passage.FuelPrice, _ = p.Value("fuel_price", decode.Positive, quantity.PerVolume)
		p.Done()
	}
}

// weather reads the air outdoors and the sea.
func (r *reader) weather(n *decode.Node, matters bool) path.Weather {
	o := r.Object(n, "weather")
	stated := n != nil
	pick := func(key string, d quantity.Dim, lim decode.Limits, def float64) float64 {
		if stated && o.Has(key) {
			if v, ok := o.Value(key, lim, d); ok {
				return v
			}
			return def
		}
		o.Raw(key)
		if matters {
			r.Assume("weather."+key, quantity.Said(def, d), practice, 0.5)
		}
		return def
	}
	w := path.Weather{
		Temperature:    pick("air", quantity.Temperature, decode.Limits{Min: 233, Max: 333}, 293.15),
		Pressure:       pick("pressure", quantity.Pressure, decode.Limits{Min: 50e3, Max: 110e3}, 101325),
		Humidity:       pick("humidity", quantity.Fraction, decode.Limits{Min: 0.01, Max: 1}, 0.7),
		SeaTemperature: pick("sea", quantity.Temperature, decode.Limits{Min: 270, Max: 313}, 291.15),
	}
	o.Done()
	// The model itself says in which air it holds; a bench doesn't ask it.
	if _, err := outdoor.Absorption(w.Temperature, w.Pressure, w.Humidity); err != nil && matters {
		r.Wrong(n, "", "weather: %v", err)
	}
	return w
}

// userMaterials adds the file's own materials to the table.
func (r *reader) userMaterials(n *decode.Node) {
	for i, item := range r.List(n, "materials", 0, decode.Most) {
		o := r.Object(item, fmt.Sprintf("materials[%d]", i+1))
		m := panel.Material{User: true, Mark: "user"}
		if name := o.Must("name", "what build-ups call it"); name != nil {
			m.Name = r.TextOf(name, o.Path+" name")
		}
		m.Density, _ = o.Value("density", decode.Positive, quantity.Density)
		m.Critical, _ = r.Number(o.Get("critical"), o.Path+" critical (Hz m)", decode.NotNegative)
		m.Damping, _ = r.Number(o.Get("damping"), o.Path+" damping", decode.Limits{Min: 0, Max: 1})
		m.AbsThickness, _ = o.Value("thickness", decode.Positive, quantity.Length)
		m.Conductivity, _ = r.Number(o.Get("conductivity"), o.Path+" conductivity (W/(m K))", decode.Limits{Min: 0.005, Max: 5})
		m.MaxTemperature, _ = o.Value("max_temperature", decode.Limits{Min: 273, Max: 2000}, quantity.Temperature)
		for _, a := range r.List(o.Get("absorption"), o.Path+" absorption (31.5 Hz to 8 kHz)", 9, 9) {
			v, ok := r.Number(a, o.Path+" absorption", decode.Limits{Min: 0, Max: 1.2})
			if ok {
				m.Absorption = append(m.Absorption, v)
			}
		}
		if p := o.Price("price"); p != nil {
			m.Price = *p
		}
		if m.Source = o.Text("source"); m.Source == "" {
			m.Source = "the boat file, no source given"
			r.Assume(o.Path+" source", m.Source, "the file doesn't say where its figures are from", 2)
		}
		o.Done()
		if m.Name != "" {
			r.Materials.Add(m)
		}
	}
}
