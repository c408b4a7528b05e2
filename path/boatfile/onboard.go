package boatfile

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
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
		b.Heel, b.HeelStated = v, true
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
			r.Assume("weather."+key, quantity.Format(def, d, quantity.Metric), practice, 0.5)
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

// readings decodes what was measured on board.
func (r *reader) readings(n *decode.Node) []path.Reading {
	var out []path.Reading
	for i, item := range r.List(n, "readings", 0, decode.Most) {
		m := r.reading(i+1, item)
		if !m.HasSound() && m.BackPress == nil && m.Temp == nil && m.Mount == nil {
			r.Warn(item, "readings[%d] holds no measured value and is not used", i+1)
			continue
		}
		out = append(out, m)
	}
	return out
}

// mostKelvin is the largest error of a temperature, K: one in °C or °F would be a point on their scale, far over it.
const mostKelvin = 100.0

func (r *reader) reading(i int, n *decode.Node) path.Reading {
	o := r.Object(n, fmt.Sprintf("readings[%d]", i))
	m := path.Reading{Index: i, Listener: o.Text("listener"), Layout: o.Text("layout"), Engine: o.Text("engine"), Space: o.Text("space")}
	m.Weighting = o.Word("weighting", "A", "C")
	level, ok := o.Stated("level", decode.Limits{Min: 0, Max: 180}, quantity.LevelA, quantity.LevelC, quantity.Level)
	if ok {
		m.Level = &level.Value
		r.weighting(o, &m, level.Dim)
	}
	m.Bands = r.Bands(o.Get("bands"), o.Path)
	m.Mount = r.atMount(o, &m)
	m.Strike, _ = o.Flag("strike")
	m.Recording = r.recording(o, &m)
	r.plusMinus(o, &m, level.PlusMinus)
	if q, ok := r.Quantity(o.Get("background"), o.Path+" background", decode.Limits{Min: 0, Max: 180}, quantity.LevelA, quantity.LevelC, quantity.Level); ok {
		m.Background = &q.Value
	}
	m.Loudspeaker = r.loudspeaker(o, &m)
	m.Instrument, m.Open = o.Text("instrument"), o.Texts("open")
	pressure, felt := o.Stated("back_pressure", decode.Positive, quantity.Pressure)
	if felt {
		m.BackPress = &pressure.Value
	}
	heat, warm := o.Stated("temperature", decode.Positive, quantity.Temperature)
	if warm {
		m.Temp = &heat.Value
		r.otherDegrees(o, heat)
	}
	for _, q := range []quantity.Quantity{level, pressure, heat} {
		r.doubted(o, &m, q)
	}
	r.readAt(o, &m)
	o.Done()
	return m
}

// plusMinus reads the error of a reading, in its own unit, or takes the usual one of a level that has none beside it.
func (r *reader) plusMinus(o *decode.Object, m *path.Reading, beside bool) {
	errorDims := []quantity.Dim{quantity.Level, quantity.LevelA, quantity.LevelC}
	if o.Has("back_pressure") {
		errorDims = []quantity.Dim{quantity.Pressure}
	} else if o.Has("temperature") && m.Level == nil && m.Bands == nil {
		errorDims = []quantity.Dim{quantity.Temperature}
	}
	if v, ok := o.Value("plus_minus", decode.Positive, errorDims...); ok {
		m.PlusMinus = v
		if errorDims[0] == quantity.Temperature && v > mostKelvin {
			r.Wrong(o.Get("plus_minus"), "3 K", "%s plus_minus: the error of a temperature is a difference: write it in K, up to %g", o.Path, mostKelvin)
		}
	} else if !beside && !o.Has("plus_minus") && (m.Level != nil || m.Bands != nil || m.Mount != nil) {
		m.PlusMinus = 3
		if m.Recording != nil {
			m.PlusMinus = besideSD
			r.Assume(o.Path+" plus_minus", "2 dB", "a sound level meter held beside the recorder (judgement)", 0)
		} else {
			r.Assume(o.Path+" plus_minus", "3 dB", "a phone with its own microphone (judgement)", 0)
		}
	}
}

// Air round a running engine is taken to lie between these, K (judgement): a reading outside whose figure fits in the other
// degrees is doubted.
const coolest, hottest = 303.15, 373.15

// otherDegrees doubts a temperature that looks as if °C and °F were mixed up.
func (r *reader) otherDegrees(o *decode.Object, q quantity.Quantity) {
	celsius, fahrenheit := q.Value-273.15, (q.Value-273.15)*1.8+32
	inF := strings.HasSuffix(strings.ToUpper(strings.TrimSpace(q.Text)), "F")
	as, meant := (celsius-32)/1.8+273.15, fmt.Sprintf("%.0f F", celsius)
	if inF {
		as, meant = fahrenheit+273.15, fmt.Sprintf("%.0f °C", fahrenheit)
	}
	if fits := as > coolest && as < hottest; fits && (inF && q.Value < coolest || !inF && q.Value > hottest) {
		r.Warn(o.Get("temperature"), "%s: %q is %.0f °C, which the air round a running engine hardly has: was %s meant?", o.Path, spelling.Clip(q.Text), celsius, meant)
	}
}

// doubted takes the doubt with which a value was stated into the reading: what stands behind a ± is its plus_minus.
func (r *reader) doubted(o *decode.Object, m *path.Reading, q quantity.Quantity) {
	switch {
	case q.PlusMinus && !o.Has("plus_minus"):
		m.PlusMinus = (q.High - q.Low) / 2
	case q.Says == quantity.About || q.Says == quantity.Between:
		m.PlusMinus = math.Hypot(m.PlusMinus, q.SD())
	case q.Says == quantity.AtMost || q.Says == quantity.AtLeast:
		m.Bound = map[quantity.Hedge]string{quantity.AtMost: "at most", quantity.AtLeast: "at least"}[q.Says]
		r.Warn(o.At, "%s: %q is a bound and no figure; nothing is fitted to it. Write what the meter showed, with plus_minus", o.Path, q.Text)
	}
}

// loudspeaker reads a test with a loudspeaker in the engine space: three levels beside a level at the seat,
// or three times nine bands beside bands there.
func (r *reader) loudspeaker(o *decode.Object, m *path.Reading) *path.Loudspeaker {
	n := o.Get("loudspeaker")
	if n == nil {
		return nil
	}
	t := r.Object(n, o.Path+".loudspeaker")
	out := &path.Loudspeaker{Room: r.levels(t, "room", quantity.LevelA), Seat: r.levels(t, "seat", quantity.LevelA), Running: r.levels(t, "running", quantity.LevelA)}
	t.Done()
	each := len(out.Room)
	switch {
	case each*len(out.Seat)*len(out.Running) == 0 || m.Listener == "" || m.Level == nil && m.Bands == nil:
		r.Warn(n, "%s: a loudspeaker test needs room, seat and running, a listener, and the level there with the engine running; it is not used", o.Path)
		return nil
	case len(out.Seat) != each || len(out.Running) != each || each == 1 && (m.Level == nil || m.Weighting == "C") || each > 1 && m.Bands == nil:
		r.Wrong(n, "listener: bunk, level: 58 dBA, loudspeaker: {room: 95 dBA, seat: 62 dBA, running: 98 dBA}; or bands in all four",
			"%s: the levels of a loudspeaker test must all be of one kind, A-weighted or in bands", o.Path)
	}
	return out
}

// atMount reads what an accelerometer shows above and below a mount: a level each, or nine bands each.
func (r *reader) atMount(o *decode.Object, m *path.Reading) *path.AtMount {
	n := o.Get("mount")
	if n == nil {
		return nil
	}
	const fits = "engine: main, mount: {above: 92 dB, below: 70 dB}"
	t := r.Object(n, o.Path+".mount")
	out := &path.AtMount{Above: r.levels(t, "above", quantity.Level), Below: r.levels(t, "below", quantity.Level)}
	t.Done()
	switch {
	case len(out.Above)*len(out.Below) == 0:
		r.Warn(n, "%s: a reading at a mount needs a level above and one below; it is not used", o.Path)
		return nil
	case len(out.Above) != len(out.Below):
		r.Wrong(n, fits+"; or bands in both", "%s: above and below a mount must be both a level or both bands", o.Path)
	case m.Level != nil || m.Bands != nil || o.Has("back_pressure") || o.Has("temperature"):
		r.Wrong(n, "make two readings of it", "%s: a reading at a mount holds no other value", o.Path)
	}
	return out
}

// levels reads one level of that kind, or nine bands; nil when there is none.
func (r *reader) levels(o *decode.Object, key string, d quantity.Dim) []float64 {
	n := o.Get(key)
	if n == nil {
		return nil
	}
	if n.Kind == decode.Scalar {
		if q, ok := r.Quantity(n, o.Path+" "+key, decode.Limits{Min: 0, Max: 180}, d); ok {
			return []float64{q.Value}
		}
		return nil
	}
	if b := r.Bands(n, o.Path+" "+key); b != nil {
		return b[:]
	}
	return nil
}

// weighting settles whether a level is A or C weighted; "dB" alone is taken as A and listed.
func (r *reader) weighting(o *decode.Object, m *path.Reading, d quantity.Dim) {
	by := map[quantity.Dim]string{quantity.LevelA: "A", quantity.LevelC: "C"}[d]
	switch {
	case m.Weighting == "" && by != "":
		m.Weighting = by
	case m.Weighting == "":
		m.Weighting = "A"
		r.Assume(o.Path+" weighting", "A", "the reading says dB only; phones show A unless set otherwise", 3)
	case by != "" && by != m.Weighting:
		r.Wrong(o.Get("weighting"), "keep one of the two", "%s: the level is %s-weighted, weighting says %s", o.Path, by, m.Weighting)
	}
}

// readAt reads the duty at which it was measured.
func (r *reader) readAt(o *decode.Object, m *path.Reading) {
	n := o.Get("running")
	if n == nil {
		return
	}
	x := r.Object(n, o.Path+".running")
	m.RunEngine = x.Text("engine")
	m.RunSpeed, _ = x.Value("speed", decode.Positive, quantity.RotationalSpeed)
	m.RunPower, _ = x.Value("power", decode.Positive, quantity.Power)
	x.Done()
}
