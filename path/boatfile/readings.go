package boatfile

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
	"hushwake/path/recording"
)

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
		r.Warn(o.Get("temperature"), "%s: %q is {%.0f °C}, which the air round a running engine hardly has: was %s meant?", o.Path, spelling.Clip(q.Text), celsius, meant)
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

// besideSD is the error of a sound level meter held beside a recorder where none is stated, dB (judgement).
const besideSD = 2.0

// recording reads what a file of sound shows. One that is struck need not be there.
func (r *reader) recording(o *decode.Object, m *path.Reading) *path.Recorded {
	n := o.Get("recording")
	if n == nil {
		return nil
	}
	name := r.TextOf(n, o.Path+" recording")
	switch {
	case name == "":
		return nil
	case m.Bands != nil || m.Mount != nil || o.Has("back_pressure") || o.Has("temperature"):
		r.Wrong(n, "make two readings of it", "%s: a recording has its bands in it, and holds no value but a level that a meter showed beside it", o.Path)
		return nil
	case m.Listener == "" && m.Space == "":
		r.Warn(n, "%s: a recording without a place is not used: add listener: helm, or space: engine room", o.Path)
		return nil
	case m.Strike:
		return &path.Recorded{File: name}
	}
	at := filepath.FromSlash(name)
	if !filepath.IsAbs(at) {
		at = filepath.Join(r.Folder, at)
	}
	l, err := recording.Measure(at)
	if err != nil {
		message, hint, _ := strings.Cut(err.Error(), "\nhint: ")
		r.Wrong(n, hint, "%s: recording %s: %s", o.Path, name, message)
		return nil
	}
	for _, w := range l.Warnings {
		r.Warn(n, "%s: recording %s: %s", o.Path, name, w)
	}
	return &path.Recorded{File: name, Bands: l.Bands, A: l.A, C: l.C, Clipped: l.Clipped}
}
