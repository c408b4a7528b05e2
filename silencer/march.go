package silencer

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"hushwake/silencer/loss"
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
	conduit
	branch branch            // the parallel part it lies in; zero for a whole line
	inside map[int][]*course // branches by the row of their parallel part
	memo   map[oneMoreHose]*hoseWalls
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
	c.first = entering(f.Gas, float64(f.MassFlow), f.Temperature, f.Ambient)
	if f.MassFlow > 0 {
		c.first.rated = float64(f.RatedFlow / f.MassFlow)
	}
	if err := c.settle(c.conditions()); !errors.Is(err, errStuck) {
		return c, err
	}
	return c, c.stuck()
}

// conditions are those of the feed and the options.
func (c *course) conditions() conditions {
	f := &c.feed
	return conditions{isothermal: f.Isothermal, ambient: f.Ambient, waterShare: f.WaterShare, pulsation: f.Pulsation,
		step: c.opts.Step, handbook: c.stream.handbook}
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
	c.stream.handbook, c.stream.around = c.opts.Friction == "handbook", c.branch.lagging
	c.stream.parts = make([]part, 0, 8*len(c.ports))
	c.mouth = c.ports[0].in
	for i, e := range c.line.Elements {
		if i > 0 && !same(c.ports[i-1].out, c.ports[i].in) {
			c.implied("step", c.ports[i-1].out, c.ports[i].in)
		}
		c.element(i, e)
	}
}

func (c *course) row(r Row, owner int) {
	c.stream.row = len(c.rows)
	c.rows = append(c.rows, r)
	c.owner = append(c.owner, owner)
}

func (c *course) element(i int, e Element) {
	b, f := e.Base(), e.form()
	name := b.Name
	if name == "" {
		name = fmt.Sprintf("%s%s %d", c.branch.name, e.Kind(), i+1)
	}
	index := i + 1
	if c.branch.index > 0 {
		index = c.branch.index
	}
	c.row(Row{Name: name, Kind: e.Kind(), Index: index, Branch: c.branch.number, In: cmp.Or(b.In, c.branch.in), Length: f.length,
		Bore: c.ports[i].in, OuterSize: outerSize(f, c.stream.wrapped(b.Lagging)), Mass: massOf(b, f)}, i)
	c.stream.bore = c.ports[i].in
	c.stream.material = wallOf(b.Material, e.usual())
	if branches := e.Within(); branches != nil {
		c.split(branches, b.Lagging)
		return
	}
	e.flow(&c.stream)
}

func (c *course) implied(kind string, up, down float64) {
	c.row(Row{Name: kind, Kind: kind, Branch: c.branch.number, Bore: up}, -1)
	c.stream.bore, c.stream.material = up, wallOf("", "")
	c.stream.step(up, down)
}

// end adds the step to the outlet's bore and the outlet itself.
func (c *course) end() {
	o, last := c.line.Outlet, c.ports[len(c.ports)-1].out
	if !o.Present {
		return
	}
	bore := c.outletBore()
	if !same(last, bore) {
		c.implied("step", last, bore)
	}
	c.row(Row{Name: "outlet", Kind: "outlet", Bore: bore}, -1)
	c.stream.fitting(loss.Exit(), bore)
	if o.BelowWater > 0 {
		c.stream.add(part{kind: depthPart, depth: o.BelowWater, bore: bore,
			Cited: published.By("rho g depth", "hydrostatics", loss.Derived)})
	}
}

func (c *course) outletBore() float64 {
	return orDefault(c.line.Outlet.Bore, c.ports[len(c.ports)-1].out)
}

func outerSize(f form, l Lagging) float64 {
	if f.outer == 0 {
		return 0
	}
	return f.outer + 2*l.Thickness
}

func massOf(b *Common, f form) *float64 {
	if b.Mass != nil {
		return b.Mass
	}
	if f.mass > 0 {
		m := f.mass
		return &m
	}
	return nil
}

// stuck names the element that lets nothing through, the one nearest the outlet first.
func (c *course) stuck() error {
	for i := len(c.stream.parts) - 1; i >= 0; i-- {
		p := &c.stream.parts[i]
		if s := &p.state; !(s.loss < 1e7) {
			return c.blocked(p)
		}
	}
	return errors.New("the back pressure is above 100 bar: this flow does not pass the line\nhint: check bores and gas flow")
}

func (c *course) blocked(p *part) error {
	return fmt.Errorf("%s: %.3g kg/s of gas at %.0f °C does not pass a bore of %.3g mm\nhint: check bores and gas flow", c.rows[p.row].Name, p.state.flow, p.state.t-273.15, 1000*p.bore)
}

// choked names the element in which the gas, at the pressure outside, would go fastest, if that is faster than sound.
func (c *course) choked() error {
	var narrow *part
	most := 1.0
	for i := range c.stream.parts {
		p := &c.stream.parts[i]
		if s := &p.state; p.bore > 0 && c.owner[p.row] >= 0 {
			if mach := s.flow / circle(p.bore) / s.table.rho(s.t, gas.Atmosphere) / s.soundSpeed(s.t); mach >= most {
				narrow, most = p, mach
			}
		}
	}
	if narrow == nil {
		return nil
	}
	return c.blocked(narrow)
}
