package path

import (
	"fmt"
)

// Predict works out one layout at the running duty: every route from every source to every
// listener, the back pressure at running and rated, and everything that must be said about it.
func Predict(b *Boat, l *Layout) (Prediction, error) { return PredictIn(b, l, Full) }

// PredictIn is Predict in a form of its choice.
func PredictIn(b *Boat, l *Layout, form Form) (Prediction, error) {
	return NewSession(b).Predict(l, form)
}

// predict works out the layout of a scene.
func (s *scene) predict(n *Session) (Prediction, error) {
	b, l := s.boat, s.layout
	p := Prediction{Layout: l}
	for i := range l.Engines {
		e := &l.Engines[i]
		if e.Stopped {
			continue
		}
		x, ok := l.Exhaust(e.Name)
		if !ok {
			return p, fmt.Errorf("layout %s: engine %s has no exhaust\nhint: add it, or set its running to stopped", l.Name, e.Name)
		}
		r, err := n.source(e, s.form)
		if err == nil {
			err = r.solve(b, e, x, s.form)
		}
		if err != nil {
			return p, fmt.Errorf("layout %s: %w", l.Name, err)
		}
		f, err := footing(b, l, e, x, &r)
		if err != nil {
			return p, fmt.Errorf("layout %s: %w", l.Name, err)
		}
		s.feet[casingOf(e.Name)], r.Feet = f, f.onMounts(r.Source.Duty.Speed)
		p.Exhausts = append(p.Exhausts, r)
		s.assumed = append(s.assumed, f.assumed...)
	}
	if err := p.box(b); err != nil {
		return p, fmt.Errorf("layout %s: %w", l.Name, err)
	}
	all := emitters(s, p.Exhausts)
	for _, ear := range b.Listeners {
		p.Listeners = append(p.Listeners, s.hear(all, ear))
	}
	if s.form == Full {
		p.Findings = append(s.neighbours(&p, all), s.shaking(&p)...)
	}
	if p.gather(s.assumed, s.warnings); s.form != Points { // asked for its levels at many speeds
		p.conclude(b)
	}
	return p, nil
}
