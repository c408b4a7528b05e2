package offers

import (
	"strings"

	"hushwake/path"
	"hushwake/silencer"
	"hushwake/silencer/loss"
	"hushwake/silencer/safety"
	"hushwake/source/said"
)

// pressure scales the quoted loss to the duty.
func (j *Judged) pressure(q path.Quote, d Duty) (why []string) {
	if q.Loss == nil {
		j.question("Pressure loss, at which flow and gas temperature? The engine's limit can't be checked without it.")
		return []string{"it states no pressure loss"}
	}
	in := lossQuote(*q.Loss)
	s, err := in.Scale(loss.Duty{MassFlow: float64(d.MassFlow), Density: d.Density, Temperature: d.Temperature})
	if err != nil {
		return []string{strings.SplitN(err.Error(), "\n", 2)[0]}
	}
	j.Drop, j.DropLow, j.DropHigh = &s.Drop, &s.Low, &s.High
	j.DropBasis = said.Textf("{%.2f kPa} at %s rated flow and heat, as quoted", s.Drop/1000, d.whose("this engine's"))
	if s.High > s.Low*1.02 {
		j.DropBasis = said.Textf("{%.2f or %.2f kPa} at %s rated flow, as its basis is hot or cold", s.Low/1000, s.High/1000, d.whose("this engine's"))
	}
	for _, w := range s.Warnings {
		j.Warnings = append(j.Warnings, q.Name+": "+w)
	}
	if q.Loss.Basis == silencer.BasisUnknown {
		q := safety.BasisQuestion(q.Name, s.Low, s.High)
		if d.Engine != "" {
			q = d.Engine + ": " + q
		}
		j.question(q)
	}
	j.flowQuestions(*q.Loss)
	if d.Limit != nil && s.High > *d.Limit {
		j.Warnings = append(j.Warnings, said.Textf("%s: as quoted it alone may take {%.1f kPa} of the {%.1f kPa} that the engine allows for the whole line", q.Name, s.High/1000, *d.Limit/1000))
	}
	return nil
}

func (j *Judged) flowQuestions(l silencer.Loss) {
	if l.MassFlow == 0 && l.VolumeFlow == 0 {
		j.question("At which flow, as a mass or as a volume at a stated temperature, does the pressure loss hold?")
	}
	if l.VolumeFlow > 0 && l.FlowTemperature == 0 && (l.Temperature == 0 || l.Basis == silencer.BasisEqualMass) {
		j.question("At which temperature was the volume flow meant?")
	}
}

// lossQuote hands the quoted loss to the package that knows how losses scale.
func lossQuote(l silencer.Loss) loss.Quote {
	q := loss.Quote{Drop: l.Drop, MassFlow: l.MassFlow, VolumeFlow: l.VolumeFlow, Temperature: l.Temperature, FlowTemperature: l.FlowTemperature}
	switch l.Basis {
	case silencer.BasisHot:
		q.Basis = loss.Hot
	case silencer.BasisEqualMass:
		q.Basis = loss.EqualMass
	case silencer.BasisEqualVolume:
		q.Basis = loss.EqualVolume
	}
	return q
}
