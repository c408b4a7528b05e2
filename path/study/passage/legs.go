package passage

import (
	"fmt"
	"slices"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source"
	"hushwake/source/cores"
)

// leg is a leg of the file or a mode of a cycle.
type leg struct {
	path.Leg
	mode mode // weight 0 = none
}

func (g leg) duty(e *path.Engine) source.Duty {
	if g.mode.weight > 0 {
		return g.mode.duty(e)
	}
	return e.DutyOn(g.Leg)
}

// run is the layout on a leg: its engines at their duty, all others stopped.
func (g leg) run(l *path.Layout) (*path.Layout, error) {
	out, any := *l, false
	out.Engines = slices.Clone(l.Engines)
	for i := range out.Engines {
		e := &out.Engines[i]
		if !e.On(g.Leg) {
			e.Stopped = true
			continue
		}
		any = true
		e.RunAt(g.duty(e))
	}
	if !any {
		return nil, fmt.Errorf("layout %q: no engine runs on a leg of %g h\nhint: name one that it has, as engine: NAME", l.Name, g.Hours)
	}
	return &out, nil
}

// sameRun tells whether the engines of two layouts run alike.
func sameRun(a, b *path.Layout) bool {
	return slices.EqualFunc(a.Engines, b.Engines, func(x, y path.Engine) bool {
		d, _ := x.RunningDuty()
		e, _ := y.RunningDuty()
		return x.Stopped && y.Stopped || x.Stopped == y.Stopped && d == e
	})
}

// fleet is every state that the layouts run in on any leg, each once.
type fleet struct {
	known  *readings.Known
	runs   []*path.Layout
	alone  []bool // the background counts on another leg
	at     map[string]int
	heard  []path.Prediction
	sample draws.Sample
}

// add gives the place of a layout on a leg.
func (f *fleet) add(l *path.Layout, g leg, alone bool) (int, error) {
	run, err := g.run(l)
	if err != nil {
		return 0, err
	}
	key := fmt.Sprint(l.Name, "|", alone)
	for i := range run.Engines {
		e := &run.Engines[i]
		d, _ := e.RunningDuty()
		key += fmt.Sprint("|", e.Stopped, d)
	}
	at, ok := f.at[key]
	if !ok {
		at = len(f.runs)
		f.at[key], f.runs, f.alone = at, append(f.runs, run), append(f.alone, alone)
	}
	return at, nil
}

// predict works all of them out, each as all commands do, with the draws of what is known of the boat.
func (f *fleet) predict() error {
	session := scene.NewSession(f.known.Boat)
	f.heard = make([]path.Prediction, len(f.runs))
	errs := make([]error, len(f.runs))
	cores.Each(len(f.runs), func(i int) {
		f.heard[i], errs[i] = f.one(session, f.runs[i])
		if f.alone[i] {
			f.heard[i] = withoutBackground(f.heard[i])
		}
	})
	for i, err := range errs {
		if err != nil {
			return fmt.Errorf("on a leg of the passage with %q: %w", f.runs[i].Name, err)
		}
	}
	model, err := draws.NewModel(f.heard)
	if err == nil {
		f.sample = model.Run(f.known.Draws)
	}
	return err
}

// one predicts a layout, or takes the prediction of the file's own duty.
func (f *fleet) one(n *scene.Session, l *path.Layout) (path.Prediction, error) {
	for i := range f.known.Central {
		if c := &f.known.Central[i]; c.Layout.Name == l.Name && sameRun(c.Layout, l) {
			return *c, nil
		}
	}
	return n.Predict(l, path.Routes)
}

// withoutBackground leaves out what is heard without the engines: where engines run together their legs overlap, and it
// counts with the others.
func withoutBackground(p path.Prediction) path.Prediction {
	p.Listeners = slices.Clone(p.Listeners)
	for i := range p.Listeners {
		h := &p.Listeners[i]
		h.Routes = slices.DeleteFunc(slices.Clone(h.Routes), func(r path.Route) bool { return r.Way == path.ByBackground })
	}
	return p
}

// mode is a mode of a test cycle: shares of rated speed and power with their weight.
type mode struct{ speed, power, weight float64 }

// idlePower is that of an engine that turns over without load, W; 0 would be by the load law.
const idlePower = 1.0

// duty is that of an engine in a mode.
func (m mode) duty(e *path.Engine) source.Duty {
	d := e.DutyAt(m.speed * e.Rated.Speed)
	switch {
	case m.power < 0:
		d.Power = idlePower
	case m.power > 0:
		d.Power = m.power * e.Rated.Power
	}
	return d
}

// plan is the legs of a voyage with the states that they run in.
type plan struct {
	legs []leg
	at   []int
}

func (f *fleet) seat(name string) int {
	for j, l := range f.known.Boat.Listeners {
		if l.Name == name {
			return j
		}
	}
	return 0 // names are those of the file
}
