package scene

import (
	"fmt"

	"hushwake/path"
)

// Predict works out one layout at the running duty: every route from every source to every
// listener, the back pressure at running and rated, and everything that must be said about it.
func Predict(b *path.Boat, l *path.Layout) (path.Prediction, error) {
	return PredictIn(b, l, path.Full)
}

// PredictIn is Predict in a form of its choice.
func PredictIn(b *path.Boat, l *path.Layout, form path.Form) (path.Prediction, error) {
	return NewSession(b).Predict(l, form)
}

// March is a prediction of what the gas does alone: back pressures, heat and the air of boxes, with nobody who hears it.
func (n *Session) March(l *path.Layout, form path.Form) (path.Prediction, error) {
	p := path.Prediction{Layout: l}
	err := eachLine(l, func(e *path.Engine, x *path.Exhaust) error {
		r, err := n.source(e, form)
		if err == nil {
			err = r.March(n.boat, e, x, form)
		}
		p.Exhausts = append(p.Exhausts, r)
		return err
	})
	if err != nil {
		return p, err
	}
	return p, p.Enclose(n.boat)
}

// eachLine calls f for the engines of a layout that run, with their exhausts.
func eachLine(l *path.Layout, f func(*path.Engine, *path.Exhaust) error) error {
	for i := range l.Engines {
		e := &l.Engines[i]
		if e.Stopped {
			continue
		}
		x, ok := l.Exhaust(e.Name)
		if !ok {
			return fmt.Errorf("layout %s: engine %s has no exhaust\nhint: add it, or set its running to stopped", l.Name, e.Name)
		}
		if err := f(e, x); err != nil {
			return fmt.Errorf("layout %s: %w", l.Name, err)
		}
	}
	return nil
}

// predict works out the layout of a scene.
func (s *scene) predict(n *Session) (path.Prediction, error) {
	b, l := s.boat, s.layout
	p := path.Prediction{Layout: l}
	err := eachLine(l, func(e *path.Engine, x *path.Exhaust) error {
		r, err := n.line(b, e, x, s.form)
		if err != nil {
			return err
		}
		f, err := path.Foot(b, l, e, x, &r)
		if err != nil {
			return err
		}
		s.feet[casingOf(e.Name)], r.Feet = f, f.AtSpeed(r.Source.Duty.Speed)
		p.Exhausts = append(p.Exhausts, r)
		s.assumed = append(s.assumed, f.Assumed...)
		return nil
	})
	if err != nil {
		return p, err
	}
	if err := p.Enclose(b); err != nil {
		return p, fmt.Errorf("layout %s: %w", l.Name, err)
	}
	all := emitters(s, p.Exhausts)
	for _, ear := range b.Listeners {
		p.Listeners = append(p.Listeners, s.hear(all, ear))
	}
	if s.form == path.Full {
		p.Findings = append(s.neighbours(&p, all), s.shaking(&p)...)
	}
	if p.Gather(s.assumed, s.warnings); s.form != path.Points { // asked for its levels at many speeds
		p.Conclude(b)
	}
	return p, nil
}
