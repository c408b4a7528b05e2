package silencer

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"hushwake/silencer/chain"
	"hushwake/silencer/loss"
	"hushwake/silencer/march"
	"hushwake/source/gas"
	"hushwake/source/published"
)

// course is a line laid out as a stream, with the rows it is printed in.
type course struct {
	line  *Line
	feed  Feed
	opts  Options
	rows  []Row
	owner []int  // element of a row, -1 for an implied step or the outlet
	ports []ends // by element
	march.Conduit
	branch branch            // the parallel part it lies in; zero for a whole line
	inside map[int][]*course // branches by the row of their parallel part
	memo   map[chain.OneMoreHose]*chain.HoseWalls
}

// March carries the gas from the manifold to the outlet and the pressure from the outlet back:
// temperature by the heat each wall gives off, pressure by Darcy friction and fittings with the local
// density, water injection by a heat balance. Losses of the rows add up to the back pressure, which is
// the total pressure at the inlet above that of the air. Steps are Options.Step long at most, 1 cm by
// default.
func (l *Line) March(f Feed, o Options) (Marched, error) {
	c, err := l.march(f, o)
	if err != nil {
		return Marched{}, err
	}
	return c.marched(), nil
}

// PressureCurve marches the line once for each feed, as for a curve of back pressure over speed.
func (l *Line) PressureCurve(feeds []Feed, o Options) ([]Marched, error) {
	r := make([]Marched, len(feeds))
	for i, f := range feeds {
		m, err := l.March(f, o)
		if err != nil {
			return nil, err
		}
		r[i] = m
	}
	return r, nil
}

func (l *Line) march(f Feed, o Options) (*course, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	c := &course{line: l, feed: f, opts: o}
	if err := c.layOut(); err != nil {
		return nil, err
	}
	c.First = march.Entering(f.Gas, float64(f.MassFlow), f.Temperature, f.Ambient)
	if f.MassFlow > 0 {
		c.First.Rated = float64(f.RatedFlow / f.MassFlow)
	}
	if err := c.Settle(c.conditions()); !errors.Is(err, march.ErrStuck) {
		return c, err
	}
	return c, c.stuck()
}

// conditions are those of the feed and the options.
func (c *course) conditions() march.Conditions {
	f := &c.feed
	return march.Conditions{Isothermal: f.Isothermal, Ambient: f.Ambient, WaterShare: f.WaterShare, Pulsation: f.Pulsation,
		Step: c.opts.Step, Handbook: c.Stream.Handbook}
}

func (f Feed) check() error {
	if err := f.Gas.Check(f.Temperature, gas.Atmosphere); err != nil {
		return err
	}
	switch {
	case !(f.MassFlow >= 0) || math.IsInf(float64(f.MassFlow), 0):
		return fmt.Errorf("gas flow of %g kg/s cannot be marched", f.MassFlow)
	case !f.Isothermal && !(f.Ambient > 200 && f.Ambient < 400):
		return fmt.Errorf("air round the line at %g K lies outside the heat model (200 to 400 K)", f.Ambient)
	}
	return nil
}

// layOut makes rows and parts of the elements, with implied steps between neighbours.
func (c *course) layOut() error {
	l := c.line
	if len(l.Elements) == 0 {
		return errors.New("the line has no element")
	}
	if err := checkElements(l.Elements); err != nil {
		return err
	}
	c.ports = ports(l.Elements, 0, l.Outlet.Bore)
	for i, e := range l.Elements {
		if c.ports[i].in <= 0 {
			return fmt.Errorf("element %d (%s): its bore cannot be told from its neighbours", i+1, e.Kind())
		}
	}
	c.run()
	c.end()
	return nil
}

// run lays the elements out one behind the other.
func (c *course) run() {
	c.Stream.Handbook, c.Stream.Around = c.opts.Friction == "handbook", c.branch.lagging
	c.Stream.Parts = make([]march.Part, 0, 8*len(c.ports))
	c.Mouth = c.ports[0].in
	for i, e := range c.line.Elements {
		if i > 0 && !march.Same(c.ports[i-1].out, c.ports[i].in) {
			c.implied("step", c.ports[i-1].out, c.ports[i].in)
		}
		c.element(i, e)
	}
}

func (c *course) row(r Row, owner int) {
	c.Stream.Row = len(c.rows)
	c.rows = append(c.rows, r)
	c.owner = append(c.owner, owner)
}

func (c *course) element(i int, e Element) {
	b, f := e.Base(), e.Form()
	name := b.Name
	if name == "" {
		name = fmt.Sprintf("%s%s %d", c.branch.name, e.Kind(), i+1)
	}
	index := i + 1
	if c.branch.index > 0 {
		index = c.branch.index
	}
	c.row(Row{Name: name, Kind: e.Kind(), Index: index, Branch: c.branch.number, In: cmp.Or(b.In, c.branch.in), Length: f.Length,
		Bore: c.ports[i].in, OuterSize: outerSize(f, c.Stream.Wrapped(b.Lagging)), Mass: massOf(b, f)}, i)
	c.Stream.Bore = c.ports[i].in
	c.Stream.Material = loss.MaterialOf(b.Material, e.usual())
	if branches := e.Within(); branches != nil {
		c.split(branches, b.Lagging)
		return
	}
	e.flow(&c.Stream)
}

func (c *course) implied(kind string, up, down float64) {
	c.row(Row{Name: kind, Kind: kind, Branch: c.branch.number, Bore: up}, -1)
	c.Stream.Bore, c.Stream.Material = up, loss.MaterialOf("", "")
	c.Stream.Step(up, down)
}

// end adds the step to the outlet's bore and the outlet itself.
func (c *course) end() {
	o, last := c.line.Outlet, c.ports[len(c.ports)-1].out
	if !o.Present {
		return
	}
	bore := c.outletBore()
	if !march.Same(last, bore) {
		c.implied("step", last, bore)
	}
	c.row(Row{Name: "outlet", Kind: "outlet", Bore: bore}, -1)
	c.Stream.Fitting(loss.Exit(), bore)
	if o.BelowWater > 0 {
		c.Stream.Add(march.Part{Kind: march.DepthPart, Depth: o.BelowWater, Bore: bore,
			Cited: published.By("rho g depth", "hydrostatics", loss.Derived)})
	}
}

func (c *course) outletBore() float64 {
	return orDefault(c.line.Outlet.Bore, c.ports[len(c.ports)-1].out)
}

func outerSize(f Form, l Lagging) float64 {
	if f.Outer == 0 {
		return 0
	}
	return f.Outer + 2*l.Thickness
}

func massOf(b *Common, f Form) *float64 {
	if b.Mass != nil {
		return b.Mass
	}
	if f.Mass > 0 {
		m := f.Mass
		return &m
	}
	return nil
}

// stuck names the element that lets nothing through, the one nearest the outlet first.
func (c *course) stuck() error {
	for i := len(c.Stream.Parts) - 1; i >= 0; i-- {
		p := &c.Stream.Parts[i]
		if s := &p.State; !(s.Loss < 1e7) {
			return c.blocked(p)
		}
	}
	return errors.New("the back pressure is above 100 bar: this flow does not pass the line\nhint: check bores and gas flow")
}

func (c *course) blocked(p *march.Part) error {
	return fmt.Errorf("%s: %.3g kg/s of gas at %.0f °C does not pass a bore of %.3g mm\nhint: check bores and gas flow", c.rows[p.Row].Name, p.State.Flow, p.State.T-273.15, 1000*p.Bore)
}

// choked names the element in which the gas, at the pressure outside, would go fastest, if that is faster than sound.
func (c *course) choked() error {
	var narrow *march.Part
	most := 1.0
	for i := range c.Stream.Parts {
		p := &c.Stream.Parts[i]
		if s := &p.State; p.Bore > 0 && c.owner[p.Row] >= 0 {
			if mach := s.Flow / circle(p.Bore) / s.Table.Rho(s.T, gas.Atmosphere) / s.SoundSpeed(s.T); mach >= most {
				narrow, most = p, mach
			}
		}
	}
	if narrow == nil {
		return nil
	}
	return c.blocked(narrow)
}
