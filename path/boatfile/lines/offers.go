package lines

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/schema"
	"hushwake/path/boatfile/spelling"
	"hushwake/silencer"
	"hushwake/source/spectrum"

	"github.com/google/jsonschema-go/jsonschema"
)

// Offer is a quote with the element that it becomes.
type Offer struct {
	Quote path.Quote
	given silencer.Given
}

// Cost is the offer's price with its extras, as far as they are stated, and which of them are not.
func (f Offer) Cost() (sum float64, open []string) {
	if f.Quote.Price == nil {
		open = append(open, f.Quote.Name)
	} else {
		sum = *f.Quote.Price
	}
	for _, x := range f.Quote.Extras {
		if x.Price == nil {
			open = append(open, x.What+" of "+f.Quote.Name)
		} else {
			sum += *x.Price
		}
	}
	return sum, open
}

// Quotes reads what makers offered: in the order of the file, and by name as the elements that they become.
func (r *Common) Quotes(n *decode.Node) ([]path.Quote, map[string]Offer) {
	byName := map[string]Offer{}
	var list []path.Quote
	s := r.Section(n, "quotes")
	for i, k := range s.Keys {
		f := r.offer(k.Text, s.Values[i])
		byName[k.Text] = f
		list = append(list, f.Quote)
	}
	return list, byName
}

func (r *Common) offer(name string, n *decode.Node) Offer {
	o := r.Object(n, "quotes."+name)
	r.refersToItself(o, name)
	q := path.Quote{Name: name, Price: o.Price("price")}
	q.InsertionLoss, q.Overall = r.insertionLoss(o, &q.OneSD)
	q.Loss = r.loss(o)
	q.Length, _ = o.Value("length", decode.UpTo(20), quantity.Length)
	q.Diameter, _ = o.Value("diameter", decode.UpTo(10), quantity.Length)
	q.Bore, _ = o.Value("bore", decode.UpTo(3), quantity.Length)
	q.Mass = o.Pointer("mass", decode.Positive, quantity.Mass)
	if q.Diameter > 0 && q.Bore >= q.Diameter {
		r.Wrong(o.Get("bore"), "", "%s: the bore %s is not smaller than the diameter %s", o.Path, quantity.Format(q.Bore, quantity.Length, quantity.Metric), quantity.Format(q.Diameter, quantity.Length, quantity.Metric))
	}
	if _, ok := r.Quantity(o.Get("lead_time"), o.Path+" lead_time", decode.NotNegative, quantity.Duration); ok {
		q.LeadTime = o.Text("lead_time")
	}
	q.Claim, q.Test = o.Text("claim"), o.Text("test")
	q.Includes = o.Texts("includes")
	for i, item := range r.List(o.Get("extras"), o.Path+" extras", 0, decode.Most) {
		x := r.Object(item, fmt.Sprintf("%s.extras[%d]", o.Path, i+1))
		q.Extras = append(q.Extras, path.Extra{What: x.Text("what"), Price: x.Price("price")})
		x.Done()
	}
	q.Level = r.promised(o)
	o.Done()
	return Offer{q, givenOf(q)}
}

// refersToItself catches a quote that is made of quotes.
func (r *Common) refersToItself(o *decode.Object, name string) {
	for _, key := range []string{"quote", "one_of"} {
		k, v := o.At.Find(key)
		if k == nil {
			continue
		}
		o.Known = append(o.Known, key)
		self := v.Kind == decode.Scalar && v.Text == name
		for _, item := range v.Items {
			self = self || item.Text == name
		}
		if self {
			r.Wrong(k, "write the offer's own figures here", "quote %q names itself", name)
		} else {
			r.Wrong(k, "write the offer's own figures here; a line names the quote", "a quote can't be made of another quote")
		}
	}
}

// insertionLoss reads {bands: [...]} or {overall: 22 dB}.
func (r *Common) insertionLoss(o *decode.Object, sd *float64) (*spectrum.Bands, *float64) {
	n := o.Get("insertion_loss")
	if n == nil {
		return nil, nil
	}
	what := o.Path + " insertion_loss"
	if n.Kind == decode.Sequence {
		return r.Bands(n, what), nil
	}
	if n.Kind == decode.Scalar && !strings.ContainsAny(n.Text, "0123456789") {
		r.Wrong(n, "write unknown; the maker's words go under claim", "%s: %q is no figure of loss", what, spelling.Clip(n.Text))
		return nil, nil
	}
	if n.Kind == decode.Scalar {
		return nil, overall(o, "insertion_loss", sd)
	}
	x := r.Object(n, what)
	b := r.Bands(x.Get("bands"), what)
	whole := overall(x, "overall", sd)
	x.Done()
	return b, whole
}

// overall reads one figure of loss, which a maker may promise as a bound or a span; sd takes the span's deviation, dB.
func overall(o *decode.Object, key string, sd *float64) *float64 {
	q, ok := o.Promise(key, decode.AnyValue, quantity.AtLeast, quantity.Level, quantity.LevelA)
	if !ok {
		return nil
	}
	*sd = q.SD()
	return &q.Value
}

// loss reads a pressure drop with the flow and temperature it holds for.
func (r *Common) loss(o *decode.Object) *silencer.Loss {
	keys := []string{"at_flow", "at_temperature", "pressure_basis"}
	stated, ok := o.Promise("pressure_drop", decode.NotNegative, quantity.AtMost, quantity.Pressure)
	drop := stated.Value
	if !ok {
		for _, k := range keys {
			if o.Get(k) != nil && !o.Has("pressure_drop") {
				r.Warn(o.Get(k), "%s: %s is stated without a pressure_drop and is not used", o.Path, k)
			}
		}
		return nil
	}
	l := &silencer.Loss{Drop: drop, AtMost: stated.Says == quantity.AtMost}
	if drop > 0 {
		l.SD = stated.SD() / drop
	}
	if q, ok := r.Quantity(o.Get("at_flow"), o.Path+" at_flow", decode.Positive, quantity.MassFlow, quantity.VolumeFlow); ok {
		if q.Dim == quantity.MassFlow {
			l.MassFlow = q.Value
		} else {
			l.VolumeFlow = q.Value
		}
	}
	if v, ok := o.Value("at_temperature", decode.Limits{Min: 223, Max: 1400}, quantity.Temperature); ok {
		l.Temperature, l.Basis = v, silencer.BasisHot
		if l.VolumeFlow > 0 {
			l.FlowTemperature = v
		}
	}
	r.basis(o, l)
	if drop > 60e3 {
		r.Warn(o.Get("pressure_drop"), "%s: a pressure drop of %s is more than any engine can bear", o.Path, quantity.Said(drop, quantity.Pressure))
	}
	return l
}

// basis reads pressure_basis: for which gas the drop was stated.
func (r *Common) basis(o *decode.Object, l *silencer.Loss) {
	n := o.Get("pressure_basis")
	if n == nil {
		if l.Basis == silencer.BasisUnknown {
			r.Assume(o.Path+" pressure_basis", "unknown: both answers are worked out", "the offer doesn't say; ask the maker", 0)
		}
		return
	}
	b := r.Object(n, o.Path+".pressure_basis")
	medium := b.Word("gas", "air", "exhaust")
	if v, ok := b.Value("temperature", decode.Limits{Min: 223, Max: 1400}, quantity.Temperature); ok {
		l.Temperature = v
	}
	switch at := b.Word("at", "equal mass", "equal volume", "unknown"); {
	case medium == "exhaust" && l.Temperature > 0 && at == "":
		l.Basis = silencer.BasisHot // exhaust at a stated temperature is the gas itself
	case at == "equal mass":
		l.Basis = silencer.BasisEqualMass
	case at == "equal volume":
		l.Basis = silencer.BasisEqualVolume
	default:
		l.Basis = silencer.BasisUnknown
	}
	b.Done()
}

// promised reads {level: 82 dBA, distance: 3 m, angle: 90 deg, load: full}.
func (r *Common) promised(o *decode.Object) *path.QuotedLevel {
	n := o.Get("level")
	if n == nil {
		return nil
	}
	x := r.Object(n, o.Path+".level")
	q := &path.QuotedLevel{}
	var distance bool
	promise, level := x.Promise("level", decode.AnyValue, quantity.AtMost, quantity.LevelA)
	q.Level, q.SD = promise.Value, promise.SD()
	q.Distance, distance = x.Value("distance", decode.Positive, quantity.Length)
	q.Angle, q.AngleOK = x.Value("angle", decode.Limits{Min: 0, Max: math.Pi * 1.0001}, quantity.Angle)
	q.Load = x.Text("load")
	x.Done()
	if !level || !distance {
		r.Warn(n, "%s: a promised level needs its distance; it is not used. Ask the maker", o.Path)
		return nil
	}
	return q
}

// LossFields are the keys of a loss that a maker states.
func LossFields() schema.Fields {
	basis := schema.Mapping("the gas that the pressure drop holds for", schema.Fields{"gas": schema.Words("gas", "air", "exhaust"), "temperature": schema.Quantity(quantity.Temperature), "at": schema.Words("compared at", "equal mass", "equal volume", "unknown")})
	level := schema.Mapping("a promised level", schema.Fields{"level": schema.Stated(quantity.LevelA), "distance": schema.Quantity(quantity.Length), "angle": schema.Quantity(quantity.Angle), "load": schema.Text("at which load")})
	db := schema.Stated(quantity.Level)
	loss := &jsonschema.Schema{Description: "octave bands or one overall figure", AnyOf: []*jsonschema.Schema{schema.Ref("bands"), db, schema.Mapping("", schema.Fields{"overall": db, "bands": schema.Ref("bands")})}}
	return schema.Fields{"insertion_loss": loss, "pressure_drop": schema.Stated(quantity.Pressure), "at_flow": schema.Quantity(quantity.MassFlow, quantity.VolumeFlow), "at_temperature": schema.Quantity(quantity.Temperature), "pressure_basis": basis,
		"length": schema.Quantity(quantity.Length), "diameter": schema.Quantity(quantity.Length), "bore": schema.Quantity(quantity.Length), "level": level}
}
