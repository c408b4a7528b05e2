package march

import (
	"cmp"
	"errors"
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/source/gas"
)

// forward carries temperature and composition from the inlet on; pressure is that of the last sweep back.
type forward struct {
	Conditions
	memo []float64 // storage for slices
}

func (f *forward) run(parts []Part, s State) (State, error) {
	for i := range parts {
		p := &parts[i]
		keep := p.State.Pressure
		share := p.State.Share
		out, err := f.pass(p, s, keep, share)
		if err != nil {
			return s, err
		}
		s = out
	}
	return s, nil
}

// pass sends the gas through one part and leaves the state at its inlet in it.
func (f *forward) pass(p *Part, s State, pressure float64, share []float64) (State, error) {
	p.State = State{Gas: s.Gas, Table: s.Table, Flow: s.Flow, Rated: s.Rated, Liquid: s.Liquid, Wet: s.Wet, T: s.T,
		Pressure: cmp.Or(pressure, gas.Atmosphere), Share: share, Wall: s.T, Skin: s.T, MeanWall: s.T}
	switch p.Kind {
	case DuctPart:
		f.duct(p)
		s.T = p.State.Slices[len(p.State.Slices)-1]
	case InjectPart:
		return f.inject(p, s)
	case drainPart:
		s.Liquid = 0
	case BranchPart:
		return f.branches(p, s)
	case SkinPart:
		if !f.Isothermal && !s.Wet && s.Flow > 0 {
			f.hottest(p, f.wall(p, p.Bore)(s.T))
		}
	}
	return s, nil
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
func (f *forward) duct(p *Part) {
	s, d := &p.State, &p.Duct
	n := f.steps(d.Length)
	s.Slices = f.room(n + 1)
	area := fourpole.CircleArea(d.Bore)
	rough := d.Rough / d.Bore
	factor := func(t float64) float64 {
		return frictionOf(s.Flow*d.Bore/(area*s.Table.At(t).Viscosity), rough, f.Handbook)
	}
	if f.Isothermal || s.Wet || s.Flow == 0 {
		s.friction = newCurve(s.T-1, s.T+1, factor)
		for i := range s.Slices {
			s.Slices[i] = s.T
		}
		return
	}
	f.cool(p, factor)
}

func (f *forward) cool(p *Part, factor func(float64) float64) {
	s, d := &p.State, &p.Duct
	wall := f.wall(p, cmp.Or(d.Shell, d.Bore))
	first := wall(s.T)
	low := s.T - 1.02*math.Abs(first.perMetre)*d.Length/(s.Flow*s.Table.At(s.T).cp)
	low = math.Max(low, math.Min(f.Ambient, s.T))
	if s.T < f.Ambient {
		low = s.T - 1
	}
	high := math.Max(s.T, low+1e-3)
	var walls [4]wallState
	i := 0
	heat := newCurve(low, high, func(t float64) float64 {
		walls[i] = wall(t)
		i++
		return walls[i-1].perMetre
	})
	s.friction = newCurve(low, high, factor)
	f.hottest(p, first)
	f.integrate(s, d.Length, &heat)
	end := s.Slices[len(s.Slices)-1]
	s.MeanWall = (first.metal + wall(end).metal) / 2
}

// hottest notes the walls at the hot end; where a jet strikes a wide shell it is as if the gas of the pipe
// washed it (judgement).
func (f *forward) hottest(p *Part, w wallState) {
	s := &p.State
	if p.Duct.Jet > 0 {
		w = f.wall(p, p.Duct.Jet)(s.T)
	}
	s.Wall, s.Skin = w.metal, w.skin
}

func (f *forward) integrate(s *State, length float64, heat *curve) {
	n := len(s.Slices) - 1
	dx := length / float64(n)
	t := s.T
	s.Slices[0] = t
	cp := s.Table.At(t).cp
	for i := 1; i <= n; i++ {
		mid := t - f.fall(t, heat.at(t)*dx/(2*s.Flow*cp))
		cp = s.Table.At(mid).cp
		fall := f.fall(t, heat.at(mid)*dx/(s.Flow*cp))
		t -= fall
		s.Slices[i] = t
		s.Heat += fall * s.Flow * cp
	}
}

// fall keeps a trickle of gas that cools within less than a step from passing the air's temperature: beyond a
// fifth of the difference it decays by the exponential of that share.
func (f *forward) fall(t, fall float64) float64 {
	if over := t - f.Ambient; math.Abs(fall) > 0.2*math.Abs(over) {
		return over * -math.Expm1(-math.Abs(fall/over))
	}
	return fall
}

// inject cools the gas with water to their common equilibrium.
func (f *forward) inject(p *Part, s State) (State, error) {
	w := p.water
	share := cmp.Or(f.WaterShare, 1)
	if f.Isothermal || w.flow*share == 0 || s.Flow == 0 {
		return s, nil
	}
	if s.Wet {
		return s, errors.New("water injection after water injection: the heat balance knows one injection in a line")
	}
	r, err := gas.Inject(gas.Injection{
		Gas: s.Gas, GasFlow: s.Flow, GasTemperature: s.T, Pressure: p.State.Pressure,
		WaterFlow: w.flow * share * gas.SeaWaterDensity, WaterTemperature: w.temperature,
	})
	if err != nil {
		return s, err
	}
	p.State.Taken, p.State.Injected = r.HeatGiven, w.flow*share*gas.SeaWaterDensity
	s.Gas, s.Flow, s.Liquid, s.Wet, s.T = r.Gas, r.GasFlow, r.WaterFlow, true, r.Temperature
	s.Table = NewGasTable(s.Gas, s.T-5, s.T+5)
	return s, nil
}

// branches splits the flow, sends it through each branch and mixes the ends by enthalpy, with the water that none has drained.
func (f *forward) branches(p *Part, s State) (State, error) {
	if len(p.State.Share) != len(p.Lines) {
		p.State.Share = evenShare(p.Lines)
	}
	enthalpy, hottest, liquid := 0.0, 0.0, 0.0
	for i, l := range p.Lines {
		l.First = s.Shared(p.State.Share[i])
		e, err := f.run(l.Stream.Parts, l.First)
		if err != nil {
			return s, err
		}
		l.Last = e
		if e.Wet != s.Wet {
			return s, errors.New("water injection inside a branch is outside the march: put it before or after the parallel part")
		}
		enthalpy += p.State.Share[i] * s.Table.At(e.T).enthalpy
		hottest = math.Max(hottest, e.T)
		liquid += e.Liquid
		p.State.Heat += heatOf(l.Stream.Parts)
	}
	s.T, s.Liquid = hottest, liquid
	for range 4 {
		n := s.Table.At(s.T)
		s.T -= (n.enthalpy - enthalpy) / n.cp
	}
	return s, nil
}

func heatOf(parts []Part) (w float64) {
	for i := range parts {
		w += parts[i].State.Heat
	}
	return w
}

// evenShare is a first guess of the split: by the area of each branch's first passage.
func evenShare(lines []*Conduit) []float64 {
	r := make([]float64, len(lines))
	sum := 0.0
	for i, l := range lines {
		r[i] = fourpole.CircleArea(l.Mouth)
		sum += r[i]
	}
	for i := range r {
		r[i] /= sum
	}
	return r
}
