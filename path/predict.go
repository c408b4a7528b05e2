package path

import (
	"fmt"

	"hushwake/silencer/safety"
	"hushwake/source"
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

// gather puts together what was filled in and warned of, also where the sound was led.
func (p *Prediction) gather(assumed []source.Assumption, warnings []string) {
	for _, r := range p.Exhausts {
		p.Assumptions = append(p.Assumptions, r.Source.Assumptions...)
		p.Warnings = append(p.Warnings, r.Source.Warnings...)
		p.Warnings = append(p.Warnings, r.RatedSource.Warnings...)
		p.Warnings = append(p.Warnings, r.Running.Warnings...)
		p.Warnings = append(p.Warnings, r.Rated.Warnings...)
		p.Warnings = append(p.Warnings, r.Acoustics.Warnings...)
	}
	p.Assumptions = append(p.Assumptions, assumed...)
	p.Warnings = append(p.Warnings, warnings...)
	p.Warnings = unique(p.Warnings)
	p.Assumptions = unique(p.Assumptions)
}

// conclude judges the layout as a whole.
func (p *Prediction) conclude(b *Boat) {
	p.Findings = sortFindings(append(findings(b, p), p.Findings...))
	for _, f := range p.Findings {
		p.Refused = p.Refused || f.Refuse
		if f.Ask {
			p.Questions = append(p.Questions, f.Text)
		}
	}
	if p.Refused {
		p.Questions = nil
	} else if s := p.Layout.Slots; s != nil {
		p.Questions = append([]string{s.question()}, p.Questions...)
	}
	p.Fits = fits(p)
	p.Length, p.Mass = sizes(p)
}

// unique keeps the first of equal values.
func unique[T comparable](all []T) []T {
	seen := map[T]bool{}
	out := all[:0:0]
	for _, v := range all {
		if !seen[v] {
			seen[v] = true
			out = append(out, v)
		}
	}
	return out
}

// fits says whether every element keeps to its stated envelope; nil where none is stated.
func fits(p *Prediction) *bool {
	stated := false
	for i := range p.Layout.Exhausts {
		for _, e := range p.Layout.Exhausts[i].Line.Elements {
			stated = stated || len(e.Base().Envelope) > 0
		}
	}
	if !stated {
		return nil
	}
	ok := true
	for _, f := range p.Findings {
		if f.Refuse && (f.Code == safety.CodeDoesNotFit || f.Code == safety.CodeTooLong) {
			ok = false
		}
	}
	return &ok
}

// sizes adds up length and mass over all lines, one for each pipe of an engine; mass is nil where any part's is unknown.
func sizes(p *Prediction) (length, mass *float64) {
	if len(p.Exhausts) == 0 {
		return nil, nil
	}
	total, kg, known := 0.0, 0.0, true
	for _, r := range p.Exhausts {
		total += r.RatedSource.Pipes.All(r.Rated.Length)
		if r.Rated.Mass == nil {
			known = false
			continue
		}
		kg += r.RatedSource.Pipes.All(*r.Rated.Mass)
	}
	if known {
		mass = &kg
	}
	return &total, mass
}
