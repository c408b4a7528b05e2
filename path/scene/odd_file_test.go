package scene_test

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"

	"pgregory.net/rapid"
)

// oddFile draws the text of a boat file: every section and every key of the format, each value
// possible by itself, together as strange as chance makes them.
type oddFile struct {
	t         *rapid.T
	engines   []oddEngine
	spaces    []string
	rooms     map[string][3]float64 // m, of those with a stated size
	boxes     []string
	listeners []string
	quotes    []string
	layouts   []string // that a reading can name
	oneOfs    int      // in the layout at hand
}

// oddEngine is what other sections must know of an engine.
type oddEngine struct {
	name         string
	stopped      bool
	power, speed float64 // kW, rpm
	cylinders    int
}

// oddNames are names as people and accidents write them.
var oddNames = []string{"main", "wing, \"old\"", "O'Brien & søn", "🚤 <b>bold</b>", "a: b", "- dash", "# hash", "50 % {x}", "back\\slash", "名前", "null", "true",
	"1.5", "engine door", "sleeping cabin", "[0]", "$(rm)", "=1+1", "tab\there", "&amp;", "'", "x…"}

// bits draws a number of n bits, each as likely as not: other whole numbers lean towards the small.
func (f *oddFile) bits(n int) (v int) {
	for range n {
		v *= 2
		if rapid.Bool().Draw(f.t, "bit") {
			v++
		}
	}
	return v
}

func (f *oddFile) chance(percent int) bool { return f.bits(8)*100 >= (100-percent)*256 }

func (f *oddFile) whole(lo, hi int) int { return lo + f.bits(8)*(hi-lo+1)/256 }

func (f *oddFile) word(list ...string) string { return list[f.whole(0, len(list)-1)] }

// linear draws a number of a range evenly.
func (f *oddFile) linear(lo, hi float64) float64 { return lo + (hi-lo)*float64(f.bits(12))/4095 }

// between draws a number evenly over its logarithm.
func (f *oddFile) between(lo, hi float64) float64 {
	return math.Exp(f.linear(math.Log(lo), math.Log(hi)))
}

// some draws from a usual range mostly and from the whole legal one at times.
func (f *oddFile) some(lo, usualLo, usualHi, hi float64) float64 {
	if f.chance(85) {
		return f.between(usualLo, usualHi)
	}
	return f.between(lo, hi)
}

// long writes a length of v metres in some unit.
func (f *oddFile) long(v float64) string {
	units := []struct {
		name   string
		factor float64
	}{{"m", 1}, {"mm", 1e3}, {"cm", 100}, {"in", 1 / 0.0254}, {"ft", 1 / 0.3048}}
	u := units[f.whole(0, len(units)-1)]
	return plain(v*u.factor) + " " + u.name
}

// plain writes a number without an exponent.
func plain(v float64) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.9f", v), "0"), ".")
}

// quoted writes a text so that YAML reads it back as it is.
func quoted(s string) string {
	var b strings.Builder
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		panic(err)
	}
	return strings.TrimSpace(b.String())
}

// fields builds a mapping in flow style.
type fields struct {
	f     *oddFile
	parts []string
}

func (f *oddFile) fields() *fields { return &fields{f: f} }

func (m *fields) set(key, value string) *fields {
	m.parts = append(m.parts, key+": "+value)
	return m
}

// may sets a key, leaves it out, or says that the owner doesn't know.
func (m *fields) may(percent int, key string, value func() string) *fields {
	switch {
	case m.f.chance(percent):
		m.set(key, value())
	case m.f.chance(25):
		m.set(key, m.f.word("unknown", "don't know", `"?"`, "null", "~"))
	}
	return m
}

func (m *fields) String() string { return "{" + strings.Join(m.parts, ", ") + "}" }

func list(items ...string) string { return "[" + strings.Join(items, ", ") + "]" }

// point draws a place within some reach of the origin, m.
func (f *oddFile) point(reach float64) string {
	v := make([]string, 3)
	for i := range v {
		v[i] = plain(f.linear([]float64{-reach, -reach, -reach / 12}[i], reach)) + " m" // little under the water
	}
	return list(v...)
}

// reach is how far a place lies from the transom: mostly aboard, at times at it or far away.
func (f *oddFile) reach() float64 {
	return []float64{6, 6, 6, 6, 0, 0.001, 100, 5000}[f.whole(0, 7)]
}

// bands draws nine levels or losses.
func (f *oddFile) bands(lo, hi float64) string {
	v := make([]string, 9)
	for i := range v {
		v[i] = plain(f.linear(lo, hi)) + f.word("", " dB")
	}
	return "{bands: " + list(v...) + "}"
}

// names draws different names.
func (f *oddFile) names(lo, hi int) (all []string) {
	rest := slices.Clone(oddNames)
	for range f.whole(lo, hi) {
		i := f.whole(0, len(rest)-1)
		all, rest = append(all, rest[i]), slices.Delete(rest, i, i+1)
	}
	return all
}

// anywhere is a space of the file, or the open air.
func (f *oddFile) anywhere() string { return f.word(append([]string{"outside"}, f.spaces...)...) }

// oddText draws a whole file.
func oddText(t *rapid.T) string {
	f := &oddFile{t: t, rooms: map[string][3]float64{}}
	f.spaces, f.boxes, f.quotes, f.listeners = f.names(0, 5), f.names(0, 2), f.names(0, 3), f.names(1, 3)
	engines := f.names(1, 3)
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("boat: %s", quoted(f.word(oddNames...)))
	line("engines:")
	for _, name := range engines {
		line("  %s: %s", quoted(name), f.engine(name))
	}
	f.section(line, "spaces", f.spaces, f.space)
	f.section(line, "enclosures", f.boxes, func(string) string { return f.box() })
	f.section(line, "listeners", f.listeners, func(string) string { return f.listener() })
	f.section(line, "quotes", f.quotes, func(string) string { return f.offer().String() })
	f.items(line, "partitions", f.whole(0, 6), f.partition)
	line("layouts:")
	for i := range f.whole(1, 3) {
		f.layout(line, fmt.Sprintf("%d %s", i+1, f.word(oddNames...)))
	}
	f.items(line, "readings", f.whole(0, 3), f.reading)
	f.items(line, "edges", f.whole(0, 2), f.edge)
	f.items(line, "materials", f.whole(0, 1), f.material)
	f.wholeBoat(line)
	return b.String()
}

func (f *oddFile) section(line func(string, ...any), key string, names []string, entry func(name string) string) {
	if len(names) == 0 {
		return
	}
	line("%s:", key)
	for _, n := range names {
		line("  %s: %s", quoted(n), entry(n))
	}
}

func (f *oddFile) items(line func(string, ...any), key string, n int, entry func() string) {
	if n == 0 {
		return
	}
	line("%s:", key)
	for range n {
		line("  - %s", entry())
	}
}

func (f *oddFile) wholeBoat(line func(string, ...any)) {
	m := f.fields().
		may(40, "passage", func() string {
			return f.fields().may(80, "hours", func() string { return plain(f.between(0.1, 2000)) + " h" }).
				may(60, "watch", func() string { return plain(f.between(0.1, 24)) + " h" }).
				may(60, "fuel_price", func() string { return plain(f.between(0.01, 100)) + " /L" }).String()
		}).
		may(30, "currency", func() string { return f.word("GBP", "€", quoted("<i>")) }).
		may(40, "hatch", func() string { return list(f.long(f.between(0.01, 3)), f.long(f.between(0.01, 3))) }).
		may(40, "heel", func() string { return plain(f.between(0.1, 60)) + " deg" }).
		may(40, "weather", func() string {
			return f.fields().may(70, "air", func() string { return plain(f.linear(-38, 58)) + " °C" }).
				may(50, "sea", func() string { return plain(f.linear(-2, 39)) + " °C" }).
				may(50, "pressure", func() string { return plain(f.between(501, 1099)) + " mbar" }).
				may(50, "humidity", func() string { return plain(f.between(1.1, 100)) + " %" }).String()
		})
	for _, p := range m.parts {
		line("%s", p)
	}
}
