package passage

import (
	"math"

	"hushwake/path"
	"hushwake/path/study/draws"
)

// mile is a sea mile, m.
const mile = 1852.0

// cruise compares legs for a fixed distance: a mile brings the energy of its level for as long as it takes,
//
//	L - 10 lg v
//
// by the speeds over ground that the file states: no hull is reckoned.
func (f *fleet) cruise(p plan) (all []Cruised) {
	for _, seat := range f.known.File.Listeners {
		best, worst, count := -1, 0.0, 0
		least := math.Inf(1)
		for i, g := range p.legs {
			if g.Over <= 0 {
				continue
			}
			l := draws.Quantile(f.sample.Levels[p.at[i]][f.seat(seat.Name)], 0.5) - 10*math.Log10(g.Over)
			if l < least {
				best, least = i, l
			}
			if count++; count == 1 || l > worst {
				worst = l
			}
		}
		if count >= 2 {
			at := p.at[best]
			all = append(all, Cruised{seat.Name, f.speed(at), p.legs[best].Over, worst - least, f.fuel(at) * mile / p.legs[best].Over})
		}
	}
	return all
}

// speed is that of the fastest engine of a state, rpm.
func (f *fleet) speed(at int) (rpm float64) {
	for _, x := range f.heard[at].Exhausts {
		rpm = math.Max(rpm, x.Source.Duty.Speed)
	}
	return rpm
}

// fuel is what a state burns in m3/s: the flow of each engine with what the back pressure of its line costs beside.
func (f *fleet) fuel(at int) (flow float64) {
	for i := range f.heard[at].Exhausts {
		x := &f.heard[at].Exhausts[i]
		if x.Source.FuelDensity == 0 {
			return math.NaN()
		}
		more := 0.0
		e, _ := f.runs[at].Engine(x.Engine)
		pa := x.Running.BackPressure
		if f.known.Draws.Moved { // by readings
			pa *= draws.Quantile(f.sample.Factors[at][i], 0.5)
		}
		if c, ok := path.BackPressureCost(e.Engine, x.Source.Duty, pa); ok {
			more = c.Fuel
		}
		flow += float64(x.Source.FuelFlow) * (1 + more) / x.Source.FuelDensity
	}
	return flow
}

// running says what runs on a leg, with the lines of shaft and propeller.
func (f *fleet) running(g leg, at int) Leg {
	out := Leg{Leg: g.Leg}
	for _, x := range f.heard[at].Exhausts {
		e, _ := f.runs[at].Engine(x.Engine)
		shaft, blade := e.Propeller.Lines(x.Source.Duty.Speed)
		out.Running = append(out.Running, Running{x.Engine, x.Source.Duty, shaft, blade})
	}
	return out
}
