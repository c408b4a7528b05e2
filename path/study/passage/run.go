package passage

import (
	"math"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// Run works the passages of the file out for some of its layouts; without any it takes a day by a test cycle.
func Run(k *readings.Known, layouts []*path.Layout) ([]Passage, error) {
	voyages := k.File.Passages
	if len(voyages) == 0 {
		voyages = []path.Voyage{usualVoyage(k.File)}
	}
	f := &fleet{known: k, at: map[string]int{}}
	all := make([]Passage, len(voyages))
	plans := make([][]plan, len(voyages))
	for i, v := range voyages {
		all[i] = Passage{Voyage: v, Hours: 24 * v.Days}
		for _, l := range layouts {
			p, cycle, err := f.plan(v, l)
			if err != nil {
				return nil, err
			}
			all[i].Cycle, plans[i] = cycle, append(plans[i], p)
		}
	}
	if err := f.predict(); err != nil {
		return nil, err
	}
	for i := range all {
		for j, l := range layouts {
			all[i].Layouts = append(all[i].Layouts, f.layout(all[i].Voyage, l, plans[i][j]))
		}
	}
	return all, nil
}

// usualVoyage is what the file says of its one passage, or a day.
func usualVoyage(b *path.Boat) path.Voyage {
	v := path.Voyage{Name: "a day at sea", Days: 1}
	if p := b.Passage; p != nil {
		v.FuelPrice, v.Watch = p.FuelPrice, path.Watch{On: p.Watch, Off: p.Watch}
		if p.Hours > 0 {
			v.Name, v.Days = "the passage", p.Hours/24
		}
	}
	return v
}

func (f *fleet) plan(v path.Voyage, l *path.Layout) (p plan, name string, err error) {
	day := 24 * math.Min(1, v.Days)
	for _, g := range v.Legs {
		p.legs = append(p.legs, leg{Leg: g})
	}
	if len(p.legs) == 0 {
		c, engines := cycleOf(l)
		p.legs, name = c.legs(engines, day), c.name+" ("+c.source+", "+c.mark+")"
	}
	sum := 0.0
	for _, g := range p.legs {
		sum += g.Hours
	}
	for _, g := range p.legs {
		at, err := f.add(l, g, sum > day*(1+1e-9) && onlySets(l, g))
		if err != nil {
			return p, name, err
		}
		p.at = append(p.at, at)
	}
	return p, name, nil
}

// onlySets tells whether no engine of a leg drives a propeller.
func onlySets(l *path.Layout, g leg) bool {
	for i := range l.Engines {
		if e := &l.Engines[i]; e.On(g.Leg) && e.LoadLaw() == source.Propeller {
			return false
		}
	}
	return true
}

// layout gathers a passage with one layout.
func (f *fleet) layout(v path.Voyage, l *path.Layout, p plan) Layout {
	out := Layout{Name: l.Name}
	for _, seat := range f.known.File.Listeners {
		out.Places = append(out.Places, f.dose(seat.Name, p, stay{seat.Name, 1}))
	}
	if v.Watch.On > 0 && len(out.Places) > 0 {
		out.Watch = f.watch(v, p)
	}
	out.Cruise = f.cruise(p)
	for i, g := range p.legs {
		out.Fuel += f.fuel(p.at[i]) * 3600 * g.Hours * math.Max(1, v.Days)
		out.Legs = append(out.Legs, f.running(g, p.at[i]))
	}
	return out
}

// stay is a place with the share of each leg that one is there.
type stay struct {
	seat  string
	share float64
}

// dose is the daily exposure of one who is at places for shares of each leg:
//
//	LEX,8h = 10 lg sum_i h_i/8 10^(L_i/10)
//
// in every draw, so that what the legs have in common stays common. Source: ISO 9612; directive 2003/10/EC.
func (f *fleet) dose(name string, p plan, stays ...stay) Place {
	day := make([]float64, f.known.Draws.Draws.N)
	for i, g := range p.legs {
		for _, s := range stays {
			hours := spectrum.Exposure8h(0, s.share*g.Hours)
			for d, level := range f.sample.Levels[p.at[i]][f.seat(s.seat)] {
				day[d] += spectrum.Power(level + hours)
			}
		}
	}
	for d, e := range day {
		day[d] = spectrum.Level(e)
	}
	return Place{name, draws.Quantile(day, 0.5), draws.Quantile(day, 0.1), draws.Quantile(day, 0.9)}
}

// watch is the day of one who stands watches from the beginning; each leg falls on watch and off alike.
func (f *fleet) watch(v path.Voyage, p plan) *Watch {
	at, rest := v.Watch.At, v.Watch.Rest
	if at == "" {
		at = f.known.File.Listeners[0].Name
	}
	if rest == "" {
		rest = bunk(f.known.File.Listeners, at)
	}
	if at == rest {
		return nil
	}
	on, off, err := spectrum.Watches{Passage: 24 * v.Days, Watch: v.Watch.On, Off: v.Watch.Off}.Day()
	if err != nil || on+off == 0 {
		on, off = 1, 0
	}
	share := on / (on + off)
	name := at + ", off watch " + rest
	return &Watch{f.dose(name, p, stay{at, share}, stay{rest, 1 - share}), at, rest}
}

// bunk is the first cabin of the file, or the same place where there is none.
func bunk(seats []path.Listener, at string) string {
	for _, l := range seats {
		if fit := spectrum.CriteriaFor(l.Name + " " + l.In); len(fit) > 0 && fit[0].Name == "cabin" {
			return l.Name
		}
	}
	return at
}
