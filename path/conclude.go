package path

import (
	"hushwake/silencer/safety"
	"hushwake/source"
)

// Gather puts together what was filled in and warned of, also where the sound was led.
func (p *Prediction) Gather(assumed []source.Assumption, warnings []string) {
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

// Conclude judges the layout as a whole.
func (p *Prediction) Conclude(b *Boat) {
	p.Findings = SortFindings(append(findings(b, p), p.Findings...))
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
