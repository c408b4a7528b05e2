package lines

import (
	"fmt"
	"math"
	"slices"
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
		r.Warn(o.Get("pressure_drop"), "%s: a pressure drop of %s is more than any engine can bear", o.Path, quantity.Format(drop, quantity.Pressure, quantity.Metric))
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

// givenOf is the element that an offer becomes.
func givenOf(q path.Quote) silencer.Given {
	g := silencer.Given{Common: silencer.Common{Name: q.Name, Mass: q.Mass, Price: q.Price}, Offer: q.Name,
		InsertionLoss: q.InsertionLoss, Overall: q.Overall, OneSD: q.OneSD, Loss: q.Loss, Length: q.Length, Diameter: q.Diameter, Bore: q.Bore}
	if q.Level != nil {
		level := q.Level.Level
		g.AtLevel, g.AtDistance, g.AtAngle = &level, q.Level.Distance, q.Level.Angle
		if g.Overall == nil {
			g.OneSD = q.Level.SD
		}
	}
	return g
}

// quote stands for a given element with an offer's figures: a name, or {offer: NAME, envelope: ...}.
func (e *element) quote(n *decode.Node) silencer.Element {
	if n.Kind == decode.Mapping {
		o := e.l.Common.Object(n, e.l.Path+".quote")
		name := o.Must("offer", "the name of a quote")
		if name == nil {
			return nil
		}
		f, ok := e.lookup(name)
		c := e.open(n)
		e.o.Raw("offer")
		e.o.Done()
		if !ok {
			return nil
		}
		return e.useOffer(f, &c)
	}
	if f, ok := e.lookup(n); ok {
		return e.useOffer(f, nil)
	}
	return nil
}

// oneOf takes the offer chosen for this layout: a list of names, or {offers: [A, B], envelope: ...}.
func (e *element) oneOf(n *decode.Node) silencer.Element {
	var c *silencer.Common
	list := n
	if n.Kind == decode.Mapping {
		common := e.open(n)
		c = &common
		list = e.o.Must("offers", "a list of quotes")
		e.o.Done()
	}
	if list == nil {
		return nil
	}
	items := e.l.Common.List(list, "one_of", 1, 20)
	seen := map[string]bool{}
	var out silencer.Element
	for _, item := range items {
		f, ok := e.lookup(item)
		if seen[item.Text] {
			e.l.Common.Wrong(item, "", "one_of names %q twice", spelling.Clip(item.Text))
		}
		seen[item.Text] = true
		if ok && item.Text == e.l.Chosen[n] {
			out = e.useOffer(f, c)
		}
	}
	return out
}

func (e *element) lookup(n *decode.Node) (Offer, bool) {
	if n.Kind != decode.Scalar {
		e.l.Common.Wrong(n, "", "quote must be the name of a quote, not %s", n.Kind)
		return Offer{}, false
	}
	f, ok := e.l.Quotes[strings.TrimSpace(n.Text)]
	if !ok {
		allowed := "there is no quotes section"
		if len(e.l.Names) > 0 {
			allowed = "the file's quotes are " + strings.Join(e.l.Names, ", ")
		}
		e.l.Common.Wrong(n, spelling.DidYouMean(n.Text, e.l.Names), "no quote %q; %s", spelling.Clip(n.Text), allowed)
	}
	return f, ok
}

// useOffer makes the element; what the line says about the place (in, lagging, envelope, clearance) is kept.
func (e *element) useOffer(f Offer, c *silencer.Common) silencer.Element {
	g := f.given
	if c != nil {
		g.In, g.Lagging, g.Envelope, g.Clearance = c.In, c.Lagging, c.Envelope, c.Clearance
		g.Material = c.Material
		if c.Name != "" {
			g.Name = c.Name
		}
	}
	e.name = g.Name
	e.metal(&g.Common, "mild steel")
	if g.Bore == 0 {
		g.Bore = e.neighbour()
		e.fill("bore", quantity.Format(g.Bore, quantity.Length, quantity.Metric), "that of the part beside it: the offer doesn't say", 1)
	}
	if !slices.ContainsFunc(e.l.Used, func(u Offer) bool { return u.Quote.Name == f.Quote.Name }) {
		e.l.Used = append(e.l.Used, f)
	}
	e.l.bore = g.Bore
	return &g
}

// given is a silencer known only by figures stated in the line.
func (e *element) given(n *decode.Node) silencer.Element {
	g := &silencer.Given{Common: e.open(n)}
	g.InsertionLoss, g.Overall = e.l.Common.insertionLoss(e.o, &g.OneSD)
	g.Loss = e.l.Common.loss(e.o)
	g.Length, _ = e.o.Value("length", decode.UpTo(20), quantity.Length)
	g.Diameter, _ = e.o.Value("diameter", decode.UpTo(10), quantity.Length)
	if g.Bore, _ = e.o.Value("bore", decode.UpTo(3), quantity.Length); g.Bore == 0 {
		g.Bore = e.neighbour()
		e.fill("bore", quantity.Format(g.Bore, quantity.Length, quantity.Metric), "that of the part beside it", 1)
	}
	if q := e.l.Common.promised(e.o); q != nil {
		g.AtLevel, g.AtDistance, g.AtAngle = &q.Level, q.Distance, q.Angle
		if g.Overall == nil {
			g.OneSD = q.SD
		}
	}
	if g.InsertionLoss == nil && g.Overall == nil && g.AtLevel == nil && g.Loss == nil { // no sheet: nobody to ask
		g.Look = &silencer.Look{Inside: silencer.InsideUnknown}
		e.looked(g)
	}
	e.metal(&g.Common, "mild steel")
	e.l.bore = g.Bore
	e.o.Done()
	return g
}

// looked lists what stands for the loss of a silencer without figures.
func (e *element) looked(g *silencer.Given) {
	e.fill("loss", "by its look: "+string(g.Look.Inside)+", "+orWord(string(g.Look.State), "state unknown, taken as old"), silencer.LookSource, g.LookDoubt())
}

// silencerByLook is a silencer of which a tape and a look tell: inside, state, length and diameter.
func (e *element) silencerByLook(n *decode.Node) silencer.Element {
	g := &silencer.ByLook{Given: silencer.Given{Common: e.open(n), Look: &silencer.Look{}}}
	g.Length, _ = e.o.Value("length", decode.UpTo(20), quantity.Length)
	g.Diameter, _ = e.o.Value("diameter", decode.UpTo(10), quantity.Length)
	if g.Bore, _ = e.o.Value("bore", decode.UpTo(3), quantity.Length); g.Bore == 0 {
		g.Bore = e.neighbour()
		e.fill("bore", quantity.Format(g.Bore, quantity.Length, quantity.Metric), "that of the part beside it", 1)
	}
	if g.Diameter > 0 && g.Bore >= g.Diameter {
		e.l.Common.Wrong(e.o.Get("diameter"), "", "%s: the bore %s is not smaller than the diameter %s", e.o.Path, quantity.Format(g.Bore, quantity.Length, quantity.Metric), quantity.Format(g.Diameter, quantity.Length, quantity.Metric))
	}
	g.Look.Inside = silencer.Inside(e.o.Word("kind", insides...))
	if g.Look.Inside == "" {
		g.Look.Inside = silencer.InsideUnknown
	}
	g.Look.State = silencer.State(e.o.Word("state", states...))
	e.looked(&g.Given)
	e.metal(&g.Common, "mild steel")
	e.l.bore = g.Bore
	e.o.Done()
	return g
}

func orWord(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}

var (
	insides = []string{string(silencer.StraightThrough), string(silencer.Baffled), string(silencer.FibrePacked)}
	states  = []string{string(silencer.StateNew), string(silencer.StateOld), string(silencer.StateHoled), string(silencer.StateSooted)}
)

func lookFields() schema.Fields {
	return schema.Fields{"kind": schema.Words("its inside", append(insides, "unknown")...), "state": schema.Words("what a look tells", states...),
		"length": schema.Quantity(quantity.Length), "diameter": schema.Quantity(quantity.Length), "bore": schema.Quantity(quantity.Length)}
}

// slot is met only where a slot has none of its own to fill: inside another.
func (e *element) slot(*decode.Node) silencer.Element {
	e.l.Common.Wrong(e.key, "put its options beside those of the outer slot", "a slot inside a slot")
	return nil
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
