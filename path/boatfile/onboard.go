package boatfile

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/path/outdoor"
	"hushwake/path/panel"
)

// listeners decodes the places where people hear, in file order.
func (r *reader) listeners(n *node) []path.Listener {
	var out []path.Listener
	s := r.section(n, "listeners")
	for i, k := range s.keys {
		o := r.object(s.values[i], "listeners."+k.text)
		l := path.Listener{Name: k.text, In: o.text("in")}
		l.At, _ = r.vector(o.must("at", "[5.0 m, 0 m, 2.4 m]"), o.path+" at", anyValue)
		l.Hours, _ = o.value("hours", limits{min: 0, max: 24}, quantity.Duration)
		l.Limit = o.pointer("limit", anyValue, quantity.LevelA)
		l.Background = r.background(o)
		o.done()
		out = append(out, l)
	}
	return out
}

// background reads what is heard there without the engines: a level or nine bands, and when.
func (r *reader) background(o *object) (b path.Background) {
	n := o.get("background")
	if n == nil {
		return b
	}
	x := r.object(n, o.path+".background")
	level, stated := x.value("level", limits{min: 0, max: 140}, quantity.LevelA)
	bands, when := x.get("bands"), x.text("when")
	switch {
	case stated && bands != nil:
		r.wrong(bands, "keep one of the two", "%s: a level and bands", x.path)
	case stated:
		b = path.Background{Bands: path.BackgroundOf(level), SD: path.BackgroundSD, When: when}
	case bands != nil:
		if nine := r.bands(bands, x.path); nine != nil {
			b = path.Background{Bands: *nine, SD: path.BackgroundSD, When: when}
		}
	}
	x.done()
	return b
}

// edges decodes what shields the outlet from a listener.
func (r *reader) edges(n *node) []path.Edge {
	var out []path.Edge
	for i, item := range r.list(n, "edges", 0, many) {
		o := r.object(item, fmt.Sprintf("edges[%d]", i+1))
		e := path.Edge{Name: o.text("name")}
		if e.Name == "" {
			e.Name = fmt.Sprintf("edge %d", i+1)
		}
		from, a := r.vector(o.get("from"), o.path+" from", anyValue)
		to, b := r.vector(o.get("to"), o.path+" to", anyValue)
		if e.From, e.To = from, to; a && b && from == to {
			r.wrong(o.get("to"), "", "%s begins and ends at the same place", o.path)
		}
		o.done()
		if !a || !b {
			r.assume(o.path, "it shields nothing: its ends are not stated", practice, 3)
			continue
		}
		out = append(out, e)
	}
	return out
}

// wholeBoat reads the single values of the top level.
func (r *reader) wholeBoat(o *object, b *path.Boat) {
	if b.Currency == "" {
		b.Currency = "EUR"
		if strings.Contains(fmt.Sprint(keysOf(o.n)), "quotes") {
			r.assume("currency", b.Currency, practice, 0)
		}
	}
	b.Hatch = r.lengths(o.get("hatch"), "hatch", 2, 2, positive)
	if v, ok := o.value("heel", limits{min: 0, max: 60 * quantity.Degree}, quantity.Angle); ok {
		b.Heel, b.HeelStated = v, true
	} else if !o.has("heel") && b.Bench == nil {
		b.Heel = 15 * quantity.Degree
		r.assume("heel", "15 deg", practice+": for the flooding checks only", 0)
	}
	if n := o.get("passage"); n != nil {
		p := r.object(n, "passage")
		b.Passage = &path.Passage{}
		b.Passage.Hours, _ = p.value("hours", positive, quantity.Duration)
		b.Passage.Watch, _ = p.value("watch", limits{min: 0, max: 24, openMin: true}, quantity.Duration)
		b.Passage.FuelPrice, _ = p.value("fuel_price", positive, quantity.PerVolume)
		p.done()
	}
}

// weather reads the air outdoors and the sea.
func (r *reader) weather(n *node, matters bool) path.Weather {
	o := r.object(n, "weather")
	stated := n != nil
	pick := func(key string, d quantity.Dim, lim limits, def float64) float64 {
		if stated && o.has(key) {
			if v, ok := o.value(key, lim, d); ok {
				return v
			}
			return def
		}
		o.raw(key)
		if matters {
			r.assume("weather."+key, quantity.Format(def, d, quantity.Metric), practice, 0.5)
		}
		return def
	}
	w := path.Weather{
		Temperature:    pick("air", quantity.Temperature, limits{min: 233, max: 333}, 293.15),
		Pressure:       pick("pressure", quantity.Pressure, limits{min: 50e3, max: 110e3}, 101325),
		Humidity:       pick("humidity", quantity.Fraction, limits{min: 0.01, max: 1}, 0.7),
		SeaTemperature: pick("sea", quantity.Temperature, limits{min: 270, max: 313}, 291.15),
	}
	o.done()
	// The model itself says in which air it holds; a bench doesn't ask it.
	if _, err := outdoor.Absorption(w.Temperature, w.Pressure, w.Humidity); err != nil && matters {
		r.wrong(n, "", "weather: %v", err)
	}
	return w
}

// userMaterials adds the file's own materials to the table.
func (r *reader) userMaterials(n *node) {
	for i, item := range r.list(n, "materials", 0, many) {
		o := r.object(item, fmt.Sprintf("materials[%d]", i+1))
		m := panel.Material{User: true, Mark: "user"}
		if name := o.must("name", "what build-ups call it"); name != nil {
			m.Name = r.textOf(name, o.path+" name")
		}
		m.Density, _ = o.value("density", positive, quantity.Density)
		m.Critical, _ = r.number(o.get("critical"), o.path+" critical (Hz m)", notNegative)
		m.Damping, _ = r.number(o.get("damping"), o.path+" damping", limits{min: 0, max: 1})
		m.AbsThickness, _ = o.value("thickness", positive, quantity.Length)
		m.Conductivity, _ = r.number(o.get("conductivity"), o.path+" conductivity (W/(m K))", limits{min: 0.005, max: 5})
		m.MaxTemperature, _ = o.value("max_temperature", limits{min: 273, max: 2000}, quantity.Temperature)
		for _, a := range r.list(o.get("absorption"), o.path+" absorption (31.5 Hz to 8 kHz)", 9, 9) {
			v, ok := r.number(a, o.path+" absorption", limits{min: 0, max: 1.2})
			if ok {
				m.Absorption = append(m.Absorption, v)
			}
		}
		if p := o.price("price"); p != nil {
			m.Price = *p
		}
		if m.Source = o.text("source"); m.Source == "" {
			m.Source = "the boat file, no source given"
			r.assume(o.path+" source", m.Source, "the file doesn't say where its figures are from", 2)
		}
		o.done()
		if m.Name != "" {
			r.materials.Add(m)
		}
	}
}

// readings decodes what was measured on board.
func (r *reader) readings(n *node) []path.Reading {
	var out []path.Reading
	for i, item := range r.list(n, "readings", 0, many) {
		m := r.reading(i+1, item)
		if !m.HasSound() && m.BackPress == nil && m.Temp == nil && m.Mount == nil {
			r.warn(item, "readings[%d] holds no measured value and is not used", i+1)
			continue
		}
		out = append(out, m)
	}
	return out
}

// mostKelvin is the largest error of a temperature, K: one in °C or °F would be a point on their scale, far over it.
const mostKelvin = 100.0

func (r *reader) reading(i int, n *node) path.Reading {
	o := r.object(n, fmt.Sprintf("readings[%d]", i))
	m := path.Reading{Index: i, Listener: o.text("listener"), Layout: o.text("layout"), Engine: o.text("engine"), Space: o.text("space")}
	m.Weighting = o.word("weighting", "A", "C")
	level, ok := o.stated("level", limits{min: 0, max: 180}, quantity.LevelA, quantity.LevelC, quantity.Level)
	if ok {
		m.Level = &level.Value
		r.weighting(o, &m, level.Dim)
	}
	m.Bands = r.bands(o.get("bands"), o.path)
	m.Mount = r.atMount(o, &m)
	m.Strike, _ = o.flag("strike")
	m.Recording = r.recording(o, &m)
	errorDims := []quantity.Dim{quantity.Level, quantity.LevelA, quantity.LevelC}
	if o.has("back_pressure") {
		errorDims = []quantity.Dim{quantity.Pressure}
	} else if o.has("temperature") && m.Level == nil && m.Bands == nil {
		errorDims = []quantity.Dim{quantity.Temperature}
	}
	if v, ok := o.value("plus_minus", positive, errorDims...); ok {
		m.PlusMinus = v
		if errorDims[0] == quantity.Temperature && v > mostKelvin {
			r.wrong(o.get("plus_minus"), "3 K", "%s plus_minus: the error of a temperature is a difference: write it in K, up to %g", o.path, mostKelvin)
		}
	} else if !o.has("plus_minus") && (m.Level != nil || m.Bands != nil || m.Mount != nil) {
		m.PlusMinus = 3
		if m.Recording != nil {
			m.PlusMinus = besideSD
			r.assume(o.path+" plus_minus", "2 dB", "a sound level meter held beside the recorder (judgement)", 0)
		} else {
			r.assume(o.path+" plus_minus", "3 dB", "a phone with its own microphone (judgement)", 0)
		}
	}
	if q, ok := r.quantity(o.get("background"), o.path+" background", limits{min: 0, max: 180}, quantity.LevelA, quantity.LevelC, quantity.Level); ok {
		m.Background = &q.Value
	}
	m.Loudspeaker = r.loudspeaker(o, &m)
	m.Instrument, m.Open = o.text("instrument"), o.texts("open")
	pressure, felt := o.stated("back_pressure", positive, quantity.Pressure)
	if felt {
		m.BackPress = &pressure.Value
	}
	heat, warm := o.stated("temperature", positive, quantity.Temperature)
	if warm {
		m.Temp = &heat.Value
		r.otherDegrees(o, heat)
	}
	for _, q := range []quantity.Quantity{level, pressure, heat} {
		r.doubted(o, &m, q)
	}
	r.readAt(o, &m)
	o.done()
	return m
}

// Air round a running engine is taken to lie between these, K (judgement): a reading outside whose figure fits in the other
// degrees is doubted.
const coolest, hottest = 303.15, 373.15

// otherDegrees doubts a temperature that looks as if °C and °F were mixed up.
func (r *reader) otherDegrees(o *object, q quantity.Quantity) {
	celsius, fahrenheit := q.Value-273.15, (q.Value-273.15)*1.8+32
	inF := strings.HasSuffix(strings.ToUpper(strings.TrimSpace(q.Text)), "F")
	as, meant := (celsius-32)/1.8+273.15, fmt.Sprintf("%.0f F", celsius)
	if inF {
		as, meant = fahrenheit+273.15, fmt.Sprintf("%.0f °C", fahrenheit)
	}
	if fits := as > coolest && as < hottest; fits && (inF && q.Value < coolest || !inF && q.Value > hottest) {
		r.warn(o.get("temperature"), "%s: %q is %.0f °C, which the air round a running engine hardly has: was %s meant?", o.path, spelling.Clip(q.Text), celsius, meant)
	}
}

// doubted takes the doubt with which a value was stated into the reading.
func (r *reader) doubted(o *object, m *path.Reading, q quantity.Quantity) {
	switch q.Says {
	case quantity.About, quantity.Between:
		m.PlusMinus = math.Hypot(m.PlusMinus, q.SD())
	case quantity.AtMost, quantity.AtLeast:
		m.Bound = map[quantity.Hedge]string{quantity.AtMost: "at most", quantity.AtLeast: "at least"}[q.Says]
		r.warn(o.n, "%s: %q is a bound and no figure; nothing is fitted to it. Write what the meter showed, with plus_minus", o.path, q.Text)
	}
}

// loudspeaker reads a test with a loudspeaker in the engine space: three levels beside a level at the seat,
// or three times nine bands beside bands there.
func (r *reader) loudspeaker(o *object, m *path.Reading) *path.Loudspeaker {
	n := o.get("loudspeaker")
	if n == nil {
		return nil
	}
	t := r.object(n, o.path+".loudspeaker")
	out := &path.Loudspeaker{Room: r.levels(t, "room", quantity.LevelA), Seat: r.levels(t, "seat", quantity.LevelA), Running: r.levels(t, "running", quantity.LevelA)}
	t.done()
	each := len(out.Room)
	switch {
	case each*len(out.Seat)*len(out.Running) == 0 || m.Listener == "" || m.Level == nil && m.Bands == nil:
		r.warn(n, "%s: a loudspeaker test needs room, seat and running, a listener, and the level there with the engine running; it is not used", o.path)
		return nil
	case len(out.Seat) != each || len(out.Running) != each || each == 1 && (m.Level == nil || m.Weighting == "C") || each > 1 && m.Bands == nil:
		r.wrong(n, "listener: bunk, level: 58 dBA, loudspeaker: {room: 95 dBA, seat: 62 dBA, running: 98 dBA}; or bands in all four",
			"%s: the levels of a loudspeaker test must all be of one kind, A-weighted or in bands", o.path)
	}
	return out
}

// atMount reads what an accelerometer shows above and below a mount: a level each, or nine bands each.
func (r *reader) atMount(o *object, m *path.Reading) *path.AtMount {
	n := o.get("mount")
	if n == nil {
		return nil
	}
	const fits = "engine: main, mount: {above: 92 dB, below: 70 dB}"
	t := r.object(n, o.path+".mount")
	out := &path.AtMount{Above: r.levels(t, "above", quantity.Level), Below: r.levels(t, "below", quantity.Level)}
	t.done()
	switch {
	case len(out.Above)*len(out.Below) == 0:
		r.warn(n, "%s: a reading at a mount needs a level above and one below; it is not used", o.path)
		return nil
	case len(out.Above) != len(out.Below):
		r.wrong(n, fits+"; or bands in both", "%s: above and below a mount must be both a level or both bands", o.path)
	case m.Level != nil || m.Bands != nil || o.has("back_pressure") || o.has("temperature"):
		r.wrong(n, "make two readings of it", "%s: a reading at a mount holds no other value", o.path)
	}
	return out
}

// levels reads one level of that kind, or nine bands; nil when there is none.
func (r *reader) levels(o *object, key string, d quantity.Dim) []float64 {
	n := o.get(key)
	if n == nil {
		return nil
	}
	if n.kind == scalar {
		if q, ok := r.quantity(n, o.path+" "+key, limits{min: 0, max: 180}, d); ok {
			return []float64{q.Value}
		}
		return nil
	}
	if b := r.bands(n, o.path+" "+key); b != nil {
		return b[:]
	}
	return nil
}

// weighting settles whether a level is A or C weighted; "dB" alone is taken as A and listed.
func (r *reader) weighting(o *object, m *path.Reading, d quantity.Dim) {
	by := map[quantity.Dim]string{quantity.LevelA: "A", quantity.LevelC: "C"}[d]
	switch {
	case m.Weighting == "" && by != "":
		m.Weighting = by
	case m.Weighting == "":
		m.Weighting = "A"
		r.assume(o.path+" weighting", "A", "the reading says dB only; phones show A unless set otherwise", 3)
	case by != "" && by != m.Weighting:
		r.wrong(o.get("weighting"), "keep one of the two", "%s: the level is %s-weighted, weighting says %s", o.path, by, m.Weighting)
	}
}

// readAt reads the duty at which it was measured.
func (r *reader) readAt(o *object, m *path.Reading) {
	n := o.get("running")
	if n == nil {
		return
	}
	x := r.object(n, o.path+".running")
	m.RunEngine = x.text("engine")
	m.RunSpeed, _ = x.value("speed", positive, quantity.RotationalSpeed)
	m.RunPower, _ = x.value("power", positive, quantity.Power)
	x.done()
}
