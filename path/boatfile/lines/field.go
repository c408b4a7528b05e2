package lines

import (
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/schema"
	"hushwake/silencer"
	"hushwake/source/said"
)

// field is one key of an element, or a few that belong together: what the decoder reads, the schema knows and the
// help says of it. A field without keys is a step between them.
type field struct {
	keys  schema.Fields // as the schema has them
	taken string        // what stands in where it is not stated, in words
	port  bool          // a bore that the parts beside it take over
	read  func(*element)
	// of a quantity
	key string
	to  *float64
	dim quantity.Dim
	lim decode.Limits
}

// step is something to do between two keys.
func step(do func(*element)) field { return field{read: do} }

// amount is an optional quantity that nothing stands in for.
func amount(key string, to *float64, dim quantity.Dim, lim decode.Limits) field {
	return field{keys: schema.Fields{key: schema.Quantity(dim)}, key: key, to: to, dim: dim, lim: lim,
		read: func(e *element) { *to, _ = e.o.Value(key, lim, dim) }}
}

func length(key string, to *float64, lim decode.Limits) field {
	return amount(key, to, quantity.Length, lim)
}

// must makes a quantity required.
func (f field) must() field {
	f.keys = schema.Fields{f.key + "!": f.keys[f.key]}
	f.read = func(e *element) { *f.to = e.o.MustValue(f.key, f.lim, f.dim) }
	return f
}

// or takes a value where none is stated, and lists it with its price in dB.
func (f field) or(value float64, src string, plusMinus float64) field {
	f = f.by(func() float64 { return value }, src, plusMinus)
	f.taken = quantity.Format(value, f.dim, quantity.Metric) + ": " + said.Plain(src)
	return f
}

// by takes a value that follows from the fields before it.
func (f field) by(value func() float64, src string, plusMinus float64) field {
	f.taken = said.Plain(src)
	f.read = func(e *element) {
		v, ok := e.o.Value(f.key, f.lim, f.dim)
		if *f.to = v; !ok {
			*f.to = value()
		}
		if !e.o.Has(f.key) {
			e.fill(f.key, quantity.Said(*f.to, f.dim), src, plusMinus)
		}
	}
	return f
}

// assumed takes a value where none is stated and says so in words of its own.
func (f field) assumed(value float64, text, src string, plusMinus float64) field {
	f.taken = said.Plain(text) + ": " + src
	f.read = func(e *element) {
		if *f.to, _ = e.o.Value(f.key, f.lim, f.dim); !e.o.Has(f.key) {
			*f.to = value
			e.fill(f.key, text, src, plusMinus)
		}
	}
	return f
}

// noting sets a flag where the quantity is stated.
func (f field) noting(stated *bool) field {
	read := f.read
	f.read = func(e *element) {
		read(e)
		*stated = e.o.Has(f.key)
	}
	return f
}

// bore is that of a part that is a tube: handed on to the next; without one that of the part beside it, or required.
func (e *element) bore(to *float64, required bool) field {
	f := length("bore", to, decode.UpTo(3))
	if required {
		f = f.must()
	} else {
		f = f.by(e.neighbour, "that of the part beside it", 1)
	}
	read := f.read
	f.port, f.read = true, func(e *element) {
		read(e)
		e.handOn("bore", *to)
	}
	return f
}

// widest is the bore of an exhaust of about 1 MW, m: 1.9 kg/s of gas at 450 °C flows there at 30 m/s (judgement).
const widest = 0.4

// handOn makes a bore that of the line, and warns of one that no exhaust has.
func (e *element) handOn(key string, b float64) {
	e.l.bore = b
	if b > 0 && b < 0.015 {
		e.l.Common.Warn(e.o.Get(key), "%s: a bore of %s is very small for an exhaust; were inches meant?", e.o.Path, quantity.Said(b, quantity.Length))
	}
	if b > widest {
		e.l.Common.Warn(e.o.Get(key), "%s: a bore of %s is wider than the exhausts of engines up to about 1 MW (%s, judgement): is the unit right?", e.o.Path, quantity.Said(b, quantity.Length), quantity.Said(widest, quantity.Length))
	}
}

// words is a key with one of a few words; set gets "" where none is stated.
func words(key, desc string, allowed []string, set func(e *element, word string)) field {
	return field{keys: schema.Fields{key: schema.Words(desc, allowed...)}, key: key,
		read: func(e *element) { set(e, e.o.Word(key, allowed...)) }}
}

// text is a key with a text.
func text(key, desc string, to *string) field {
	return field{keys: schema.Fields{key: schema.Text(desc)}, read: func(e *element) { *to = e.o.Text(key) }}
}

// size is a length inside a piece.
type size struct {
	key, name string
	to        *float64
	def       func() float64
}

// piece is a mapping inside an element. Left out, all its sizes are taken and said in one line.
func piece(key, desc string, said func() string, plusMinus float64, sizes ...size) field {
	inner := schema.Fields{}
	for _, s := range sizes {
		inner[s.key] = schema.Quantity(quantity.Length)
	}
	return field{keys: schema.Fields{key: schema.Mapping(desc, inner)}, read: func(e *element) {
		n := e.o.Get(key)
		if n != nil {
			o := e.l.Common.Object(n, e.o.Path+"."+key)
			defer o.Done()
			for _, s := range sizes {
				*s.to = e.part(o, s.key, s.def(), s.name)
			}
			return
		}
		for _, s := range sizes {
			*s.to = s.def()
		}
		e.fill(key, said(), decode.Practice, plusMinus)
	}}
}

// part reads a length of an inner mapping or takes a default.
func (e *element) part(o *decode.Object, key string, def float64, name string) float64 {
	if o.Has(key) {
		if v, ok := o.Value(key, decode.Positive, quantity.Length); ok {
			return v
		}
		return def
	}
	o.Raw(key)
	e.fill(name, quantity.Said(def, quantity.Length), decode.Practice, 2)
	return def
}

// metal is the step that fills in the wall's material, which rules growth and radiated heat.
func metal(c *silencer.Common, usual string, plusMinus float64) field {
	return step(func(e *element) {
		if c.Material == "" {
			c.Material = usual
			e.fill("material", usual, decode.Practice, plusMinus)
		}
	})
}

func (e *element) metal(c *silencer.Common, usual string) { metal(c, usual, 0).read(e) }

// refuses is a step that finds sizes that cannot be together; it points at the first of the keys that is stated.
func refuses(bad func() bool, hint string, keys []string, format string, sizes ...*float64) field {
	return step(func(e *element) {
		if bad() {
			what := []any{e.o.Path}
			for _, m := range sizes {
				what = append(what, metric(*m))
			}
			e.l.Common.Wrong(e.at(keys...), hint, "%s: "+format, what...)
		}
	})
}

func metric(m float64) string { return quantity.Format(m, quantity.Length, quantity.Metric) }

// at gives the first of the keys that stands in the element, or the element itself.
func (e *element) at(keys ...string) *decode.Node {
	for _, k := range keys {
		if v := e.o.Get(k); v != nil {
			return v
		}
	}
	return e.key
}
