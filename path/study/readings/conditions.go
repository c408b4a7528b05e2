package readings

import (
	"fmt"
	"strings"

	"hushwake/path"
	"hushwake/path/study/draws"
)

// Predictor predicts a layout in the configuration of a reading: other duty, doors open.
type Predictor func(layout string, r path.Reading) (path.Prediction, error)

// configured is the layout as it was when the reading was taken.
func configured(m *draws.Model, r path.Reading, predict Predictor) (*draws.Layout, error) {
	name := r.Layout
	if name == "" && len(m.Layouts) == 1 {
		name = m.Layouts[0].Name
	}
	if name == "" {
		return nil, fmt.Errorf("reading %d doesn't say on which layout it was taken\nhint: name one of: %s", r.Index, strings.Join(m.Names(), "; "))
	}
	l, _ := m.Find(name, "")
	if l < 0 {
		return nil, fmt.Errorf("reading %d: no layout %q in the file\nhint: name one of: %s", r.Index, name, strings.Join(m.Names(), "; "))
	}
	if plain := PlainDuty(m, r); len(r.Open) == 0 && plain.RunSpeed == 0 && r.RunPower == 0 {
		return m.Layouts[l], nil
	}
	if predict == nil {
		return nil, fmt.Errorf("reading %d: no prediction for its own duty or open doors can be made", r.Index)
	}
	p, err := predict(name, r)
	if err != nil {
		return nil, fmt.Errorf("reading %d: %w", r.Index, err)
	}
	if p.Layout == nil {
		p.Layout = &path.Layout{Name: name}
	}
	return m.LayoutOf(&p)
}

// listenerOf is the place of a reading.
func listenerOf(r path.Reading, l *draws.Layout) (*draws.Listener, error) {
	if heard := l.Listener(r.Listener); heard != nil {
		return heard, nil
	}
	var names []string
	for _, h := range l.Listeners {
		names = append(names, h.Name)
	}
	return nil, fmt.Errorf("reading %d: no listener %q in the file\nhint: name one of: %s", r.Index, r.Listener, strings.Join(names, "; "))
}

func exhaustOf(r path.Reading, l *draws.Layout) (*draws.Exhaust, error) {
	var names []string
	for _, p := range l.Exhausts {
		if p.Engine == r.Engine || r.Engine == "" && len(l.Exhausts) == 1 {
			return p, nil
		}
		names = append(names, p.Engine)
	}
	return nil, fmt.Errorf("reading %d: no exhaust of an engine %q in layout %q\nhint: name one of: %s",
		r.Index, r.Engine, l.Name, strings.Join(names, "; "))
}

// PlainDuty leaves a stated duty out where it is the running duty anyhow.
func PlainDuty(m *draws.Model, r path.Reading) path.Reading {
	l, _ := m.Find(r.Layout, "")
	if l < 0 || r.RunPower != 0 {
		return r
	}
	for _, p := range m.Layouts[l].Exhausts {
		if (r.RunEngine == p.Engine || r.RunEngine == "" && len(m.Layouts[l].Exhausts) == 1) && r.RunSpeed == p.Speed {
			r.RunEngine, r.RunSpeed = "", 0
		}
	}
	return r
}

// sameConditions is true where both were taken in the same way.
func sameConditions(a, b path.Reading) bool {
	same := a.Layout == b.Layout && a.Listener == b.Listener && a.Engine == b.Engine && strings.EqualFold(a.Weighting, b.Weighting) &&
		a.RunEngine == b.RunEngine && a.RunSpeed == b.RunSpeed && a.RunPower == b.RunPower &&
		strings.Join(a.Open, "|") == strings.Join(b.Open, "|")
	sound := a.Level != nil && b.Level != nil
	gauge := a.BackPress != nil && b.BackPress != nil && *a.BackPress > 0 && *b.BackPress > 0
	return same && (sound || gauge)
}
