package lines

import (
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/schema"
	"hushwake/path/boatfile/spelling"
	"hushwake/silencer"
)

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
		e.fill("bore", quantity.Said(g.Bore, quantity.Length), "that of the part beside it: the offer doesn't say", 1)
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
		e.fill("bore", quantity.Said(g.Bore, quantity.Length), "that of the part beside it", 1)
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
	e.fill("loss", "by its look: "+string(g.Look.Inside)+", "+orWord(string(g.Look.State), "state unknown, taken as old"), g.Look.Origin(), g.LookDoubt())
}

// silencerByLook is a silencer of which a tape and a look tell: inside, state, length and diameter.
func (e *element) silencerByLook(n *decode.Node) silencer.Element {
	g := &silencer.ByLook{Given: silencer.Given{Common: e.open(n), Look: &silencer.Look{}}}
	g.Length, _ = e.o.Value("length", decode.UpTo(20), quantity.Length)
	g.Diameter, _ = e.o.Value("diameter", decode.UpTo(10), quantity.Length)
	if g.Bore, _ = e.o.Value("bore", decode.UpTo(3), quantity.Length); g.Bore == 0 {
		g.Bore = e.neighbour()
		e.fill("bore", quantity.Said(g.Bore, quantity.Length), "that of the part beside it", 1)
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
	insides = knownInsides()
	states  = []string{string(silencer.StateNew), string(silencer.StateOld), string(silencer.StateHoled), string(silencer.StateSooted)}
)

// knownInsides are the words for what is inside.
func knownInsides() (all []string) {
	for _, in := range silencer.Interiors {
		if in.Inside != silencer.InsideUnknown {
			all = append(all, string(in.Inside))
		}
	}
	return all
}

func lookFields() schema.Fields {
	return schema.Fields{"kind": schema.Words("its inside", append(slices.Clone(insides), string(silencer.InsideUnknown))...), "state": schema.Words("what a look tells", states...),
		"length": schema.Quantity(quantity.Length), "diameter": schema.Quantity(quantity.Length), "bore": schema.Quantity(quantity.Length)}
}

// slot is met only where a slot has none of its own to fill: inside another.
func (e *element) slot(*decode.Node) silencer.Element {
	e.l.Common.Wrong(e.key, "put its options beside those of the outer slot", "a slot inside a slot")
	return nil
}
