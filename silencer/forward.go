package silencer

import (
	"cmp"
	"errors"
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/source/gas"
)

// state is the gas on its way: what it is, how much of it, how warm, and the liquid that goes along.
type state struct {
	gas    gas.Gas
	table  *gasTable
	flow   float64 // kg/s of gas
	rated  float64 // rated flow over that of the feed; 0 = not known
	liquid float64 // kg/s of water beside the gas
	wet    bool    // water has joined
	t      float64 // K
	// Along a duct: gas temperatures at the ends of equal slices, and the walls at its hot end.
	slices   []float64
	friction curve
	wall     float64 // K, metal at the hot end
	skin     float64 // K, outside at the hot end
	meanWall float64 // K
	heat     float64 // W given to the space
	taken    float64 // W taken by water
	injected float64 // kg/s of water that joins here
	pressure float64 // Pa, mean absolute, from the last sweep back
	loss     float64 // Pa
	fastest  float64 // m/s
	mach     float64
	share    []float64 // of the flow, by branch
}

// forward carries temperature and composition from the inlet on; pressure is that of the last sweep back.
type forward struct {
	conditions
	memo []float64 // storage for slices
}

func (f *forward) run(parts []part, s state) (state, error) {
	for i := range parts {
		p := &parts[i]
		keep := p.state.pressure
		share := p.state.share
		out, err := f.pass(p, s, keep, share)
		if err != nil {
			return s, err
		}
		s = out
	}
	return s, nil
}

// pass sends the gas through one part and leaves the state at its inlet in it.
func (f *forward) pass(p *part, s state, pressure float64, share []float64) (state, error) {
	p.state = state{gas: s.gas, table: s.table, flow: s.flow, rated: s.rated, liquid: s.liquid, wet: s.wet, t: s.t,
		pressure: cmp.Or(pressure, gas.Atmosphere), share: share, wall: s.t, skin: s.t, meanWall: s.t}
	switch p.kind {
	case ductPart:
		f.duct(p)
		s.t = p.state.slices[len(p.state.slices)-1]
	case injectPart:
		return f.inject(p, s)
	case drainPart:
		s.liquid = 0
	case branchPart:
		return f.branches(p, s)
	case skinPart:
		if !f.isothermal && !s.wet && s.flow > 0 {
			f.hottest(p, f.wall(p, p.bore)(s.t))
		}
	}
	return s, nil
}

// steps is the number of equal slices of a duct.
func (c conditions) steps(length float64) int {
	return max(1, int(math.Ceil(length/cmp.Or(c.step, 0.01)-1e-9)))
}

func (f *forward) room(n int) []float64 {
	if len(f.memo) < n {
		f.memo = make([]float64, max(n, 4096))
	}
	r := f.memo[:n:n]
	f.memo = f.memo[n:]
	return r
}

// duct cools the gas along a duct: m cp dT = -q'(T) dx, by the midpoint rule.
func (f *forward) duct(p *part) {
	s, d := &p.state, &p.duct
	n := f.steps(d.length)
	s.slices = f.room(n + 1)
	area := fourpole.CircleArea(d.bore)
	rough := d.rough / d.bore
	factor := func(t float64) float64 {
		return frictionOf(s.flow*d.bore/(area*s.table.at(t).viscosity), rough, f.handbook)
	}
	if f.isothermal || s.wet || s.flow == 0 {
		s.friction = newCurve(s.t-1, s.t+1, factor)
		for i := range s.slices {
			s.slices[i] = s.t
		}
		return
	}
	f.cool(p, factor)
}

func (f *forward) cool(p *part, factor func(float64) float64) {
	s, d := &p.state, &p.duct
	wall := f.wall(p, cmp.Or(d.shell, d.bore))
	first := wall(s.t)
	low := s.t - 1.02*math.Abs(first.perMetre)*d.length/(s.flow*s.table.at(s.t).cp)
	low = math.Max(low, math.Min(f.ambient, s.t))
	if s.t < f.ambient {
		low = s.t - 1
	}
	high := math.Max(s.t, low+1e-3)
	var walls [4]wallState
	i := 0
	heat := newCurve(low, high, func(t float64) float64 {
		walls[i] = wall(t)
		i++
		return walls[i-1].perMetre
	})
	s.friction = newCurve(low, high, factor)
	f.hottest(p, first)
	f.integrate(s, d.length, &heat)
	end := s.slices[len(s.slices)-1]
	s.meanWall = (first.metal + wall(end).metal) / 2
}

// hottest notes the walls at the hot end; where a jet strikes a wide shell it is as if the gas of the pipe
// washed it (judgement).
func (f *forward) hottest(p *part, w wallState) {
	s := &p.state
	if p.duct.jet > 0 {
		w = f.wall(p, p.duct.jet)(s.t)
	}
	s.wall, s.skin = w.metal, w.skin
}

func (f *forward) integrate(s *state, length float64, heat *curve) {
	n := len(s.slices) - 1
	dx := length / float64(n)
	t := s.t
	s.slices[0] = t
	cp := s.table.at(t).cp
	for i := 1; i <= n; i++ {
		mid := t - f.fall(t, heat.at(t)*dx/(2*s.flow*cp))
		cp = s.table.at(mid).cp
		fall := f.fall(t, heat.at(mid)*dx/(s.flow*cp))
		t -= fall
		s.slices[i] = t
		s.heat += fall * s.flow * cp
	}
}

// fall keeps a trickle of gas that cools within less than a step from passing the air's temperature: beyond a
// fifth of the difference it decays by the exponential of that share.
func (f *forward) fall(t, fall float64) float64 {
	if over := t - f.ambient; math.Abs(fall) > 0.2*math.Abs(over) {
		return over * -math.Expm1(-math.Abs(fall/over))
	}
	return fall
}

// inject cools the gas with water to their common equilibrium.
func (f *forward) inject(p *part, s state) (state, error) {
	w := p.water
	share := cmp.Or(f.waterShare, 1)
	if f.isothermal || w.flow*share == 0 || s.flow == 0 {
		return s, nil
	}
	if s.wet {
		return s, errors.New("water injection after water injection: the heat balance knows one injection in a line")
	}
	r, err := gas.Inject(gas.Injection{
		Gas: s.gas, GasFlow: s.flow, GasTemperature: s.t, Pressure: p.state.pressure,
		WaterFlow: w.flow * share * gas.SeaWaterDensity, WaterTemperature: w.temperature,
	})
	if err != nil {
		return s, err
	}
	p.state.taken, p.state.injected = r.HeatGiven, w.flow*share*gas.SeaWaterDensity
	s.gas, s.flow, s.liquid, s.wet, s.t = r.Gas, r.GasFlow, r.WaterFlow, true, r.Temperature
	s.table = newGasTable(s.gas, s.t-5, s.t+5)
	return s, nil
}

// branches splits the flow, sends it through each branch and mixes the ends by enthalpy, with the water that none has drained.
func (f *forward) branches(p *part, s state) (state, error) {
	if len(p.state.share) != len(p.lines) {
		p.state.share = evenShare(p.lines)
	}
	enthalpy, hottest, liquid := 0.0, 0.0, 0.0
	for i, l := range p.lines {
		l.first = s.shared(p.state.share[i])
		e, err := f.run(l.stream.parts, l.first)
		if err != nil {
			return s, err
		}
		l.last = e
		if e.wet != s.wet {
			return s, errors.New("water injection inside a branch is outside the march: put it before or after the parallel part")
		}
		enthalpy += p.state.share[i] * s.table.at(e.t).enthalpy
		hottest = math.Max(hottest, e.t)
		liquid += e.liquid
		p.state.heat += heatOf(l.stream.parts)
	}
	s.t, s.liquid = hottest, liquid
	for range 4 {
		n := s.table.at(s.t)
		s.t -= (n.enthalpy - enthalpy) / n.cp
	}
	return s, nil
}

func heatOf(parts []part) (w float64) {
	for i := range parts {
		w += parts[i].state.heat
	}
	return w
}

// shared is a share of the gas.
func (s state) shared(share float64) state {
	s.flow, s.liquid = s.flow*share, s.liquid*share
	return s
}

// evenShare is a first guess of the split: by the area of each branch's first passage.
func evenShare(lines []*conduit) []float64 {
	r := make([]float64, len(lines))
	sum := 0.0
	for i, l := range lines {
		r[i] = fourpole.CircleArea(l.mouth)
		sum += r[i]
	}
	for i := range r {
		r[i] /= sum
	}
	return r
}
