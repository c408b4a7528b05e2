package sweep

import (
	"context"
	"math"

	"hushwake/path"
	"hushwake/source"
)

// Engines are those of a layout that a sweep moves: those on the propeller law, or all where there is none.
func Engines(l *path.Layout) map[string]bool {
	chosen, all := map[string]bool{}, map[string]bool{}
	for i := range l.Engines {
		e := &l.Engines[i]
		if e.Stopped {
			continue
		}
		all[e.Name] = true
		if e.LoadLaw() == source.Propeller {
			chosen[e.Name] = true
		}
	}
	if len(chosen) == 0 {
		return all
	}
	return chosen
}

// OverLoad tells whether layouts are swept over load instead of speed: nothing that runs in them drives a propeller.
func OverLoad(layouts []*path.Layout) bool {
	for _, l := range layouts {
		for i := range l.Engines {
			if e := &l.Engines[i]; !e.Stopped && e.LoadLaw() == source.Propeller {
				return false
			}
		}
	}
	return RatedSpeed(layouts) > 0
}

// RatedSpeed is the highest rated speed in rpm of the engines that are swept; 0 = none runs.
func RatedSpeed(layouts []*path.Layout) (top float64) {
	for _, l := range layouts {
		swept := Engines(l)
		for i := range l.Engines {
			if swept[l.Engines[i].Name] {
				top = math.Max(top, l.Engines[i].Rated.Speed)
			}
		}
	}
	return top
}

// RunningSpeed is the one at which all swept engines of layouts run, rpm; 0 = they run at several.
func RunningSpeed(layouts []*path.Layout) (at float64) {
	for _, l := range layouts {
		swept := Engines(l)
		for i := range l.Engines {
			if !swept[l.Engines[i].Name] {
				continue
			}
			d, _ := l.Engines[i].RunningDuty()
			if at != 0 && d.Speed != at {
				return 0
			}
			at = d.Speed
		}
	}
	return at
}

// Speeds are n speeds, two or more, from 40 % of the rated one to it, rpm. The nearest is put to where the engines run, so that
// a curve drawn over them meets what is told of that duty.
func Speeds(layouts []*path.Layout, n int) []float64 {
	rated, running := RatedSpeed(layouts), RunningSpeed(layouts)
	all, nearest := make([]float64, n), 0
	for k := range all {
		all[k] = rated * (0.4 + 0.6*float64(k)/float64(n-1))
		if math.Abs(all[k]-running) < math.Abs(all[nearest]-running) {
			nearest = k
		}
	}
	if running > 0 {
		all[nearest] = running
	}
	return all
}

// AtSpeed is the layout with its swept engines at a speed in rpm on their load law through their running duty, never above rated.
func AtSpeed(l *path.Layout, rpm float64) *path.Layout {
	return with(l, func(e *path.Engine) source.Duty { return e.DutyThrough(rpm) })
}

// AtLoad is the layout with its swept engines at a share of their rated power, at the speed that they are set to.
func AtLoad(l *path.Layout, share float64) *path.Layout {
	return with(l, func(e *path.Engine) source.Duty {
		d, _ := e.RunningDuty()
		return source.Duty{Power: math.Min(1, share) * e.DutyAt(d.Speed).Power, Speed: d.Speed}
	})
}

// with puts the swept engines at a duty.
func with(l *path.Layout, duty func(*path.Engine) source.Duty) *path.Layout {
	out := *l
	out.Engines = append([]path.Engine(nil), l.Engines...)
	swept := Engines(l)
	for i := range out.Engines {
		if e := &out.Engines[i]; swept[e.Name] {
			e.RunAt(duty(e))
		}
	}
	return &out
}

// RunLoads is Run over shares of the rated power at the set speed: no order moves, so that nothing can boom.
func RunLoads(ctx context.Context, layouts []string, loads []float64, predict Predict) ([]Swept, error) {
	all, err := Run(ctx, layouts, loads, predict, nil)
	for i := range all {
		all[i].Booms, all[i].OverLoad = nil, true
		for k := range all[i].Points {
			p := &all[i].Points[k]
			p.Load, p.Speed = p.Speed, 0
			for _, x := range p.exhausts {
				p.Speed = math.Max(p.Speed, x.Source.Duty.Speed)
			}
		}
	}
	return all, err
}
