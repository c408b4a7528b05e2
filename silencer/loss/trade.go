package loss

import (
	"fmt"
	"math"
)

// Form names a trade formula for the loss of a straight pipe.
type Form int

// Trade formulas in circulation, named by their units.
const (
	FormMetric    Form = iota + 1 // kPa; m, kg/m3, m3/min, mm
	FormPsi                       // psi; ft, lb/ft3, cfm, in
	FormHotPascal                 // Pa; m, m3/s, m, C: density of hot gas built in
	FormMercury                   // inHg; ft, lb/ft3 of gas at the temperature, cfm, in: constant by flow
)

// Units of the trade formulas in SI.
const (
	foot     = 0.3048
	inch     = 0.0254
	psi      = 6894.757293
	inHg     = 3386.389
	cfm      = 0.3048 * 0.3048 * 0.3048 / 60
	poundFt3 = 16.01846337
)

// TradeFormula is what is known of a form.
type TradeFormula struct {
	Form     Form
	Name     string
	Text     string
	Friction float64 // the friction factor hidden in its constant (the lowest flow band of FormMercury)
	Source   string
	Mark     string
}

// TradeFormulas lists the forms.
func TradeFormulas() []TradeFormula {
	return []TradeFormula{
		{FormMetric, "metric sheet", "p = 3.6e6 L S Q^2/D^5 kPa (m, kg/m3, m3/min, mm)", hidden(FormMetric, 1), "back-pressure calculation sheet for generator sets", Read},
		{FormPsi, "psi sheet", "p = L S Q^2/(5184 D^5) psi (ft, lb/ft3, cfm, in)", hidden(FormPsi, 1), "exhaust chimney sheet", Read},
		{FormHotPascal, "installation handbook", "p = 6.32 L Q^2/(D^5 (t + 273)) Pa (m, m3/s, m, C)", hidden(FormHotPascal, 1), "a marine installation manual", Read},
		{FormMercury, "mercury sheet", "p = C L R Q^2/D^5 inHg (ft, lb/ft3, cfm, in), C .00059 .00056 .00049 .00044", hidden(FormMercury, 0.1), "exhaust calculation of a generator set", Read},
	}
}

// Straight is a straight pipe with the gas in it.
type Straight struct {
	Length, Bore float64 // m
	Density      float64 // kg/m3
	Flow         float64 // m3/s at that density
	Temperature  float64 // K, for FormHotPascal and FormMercury, which make their own density
}

func (s Straight) check() error {
	if !(s.Length >= 0 && s.Bore > 0 && s.Density > 0 && s.Flow >= 0) {
		return fmt.Errorf("trade formula: length %.3g m, bore %.3g m, density %.3g kg/m3 and flow %.3g m3/s must be positive", s.Length, s.Bore, s.Density, s.Flow)
	}
	return nil
}

// Velocity is the mean velocity of a volume flow (m3/s) in a round bore (m), m/s.
func Velocity(flow, bore float64) float64 { return flow / (math.Pi / 4 * bore * bore) }

// Trade is the loss by one of the trade formulas, Pa.
func Trade(form Form, s Straight) (float64, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	switch form {
	case FormMetric:
		q, d := s.Flow*60, s.Bore*1e3
		return 3.6e6 * s.Length * s.Density * q * q / math.Pow(d, 5) * 1e3, nil
	case FormPsi:
		q, d := s.Flow/cfm, s.Bore/inch
		return s.Length / foot * s.Density / poundFt3 * q * q / (5184 * math.Pow(d, 5)) * psi, nil
	case FormHotPascal:
		if !(s.Temperature > 0) {
			return 0, fmt.Errorf("the installation handbook's formula needs the gas temperature")
		}
		return 6.32 * s.Length * s.Flow * s.Flow / (math.Pow(s.Bore, 5) * s.Temperature), nil
	case FormMercury:
		return mercury(s)
	}
	return 0, fmt.Errorf("no trade formula number %d", form)
}

// mercury makes its own density, R = 41.1/(F + 460) lb/ft3.
func mercury(s Straight) (float64, error) {
	if !(s.Temperature > 0) {
		return 0, fmt.Errorf("the mercury sheet's formula needs the gas temperature")
	}
	q, d := s.Flow/cfm, s.Bore/inch
	c, err := mercuryConstant(q)
	if err != nil {
		return 0, err
	}
	r := 41.1 / (s.Temperature*1.8 - 459.67 + 460)
	return c * s.Length / foot * r * q * q / math.Pow(d, 5) * inHg, nil
}

func mercuryConstant(q float64) (float64, error) {
	switch {
	case q < 100 || q > 6000:
		return 0, fmt.Errorf("the mercury sheet's constants end at 100 and 6000 cfm, the flow is %.0f cfm", q)
	case q < 400:
		return 0.00059, nil
	case q < 700:
		return 0.00056, nil
	case q < 2000:
		return 0.00049, nil
	}
	return 0.00044, nil
}

// hidden is the friction factor that makes Darcy-Weisbach give the form's answer at a flow in m3/s.
func hidden(form Form, flow float64) float64 {
	s := Straight{Length: 1, Bore: 0.1, Flow: flow, Temperature: 700}
	s.Density = 353.4 / s.Temperature
	if form == FormMercury {
		s.Density = 41.1 / (700*1.8 + 0.33) * poundFt3
	}
	p, err := Trade(form, s)
	if err != nil {
		return 0
	}
	v := Velocity(s.Flow, s.Bore)
	return p * s.Bore / (s.Length * s.Density * v * v / 2)
}

// HiddenFriction is the friction factor a trade formula assumes, at a flow in m3/s.
func HiddenFriction(form Form, flow float64) float64 { return hidden(form, flow) }

// HandbookBendLength is the straight length in bores that the installation handbook counts for a bend:
// 15 for 90 degrees and 6.4 for 45, straight lines between and beyond (read from its table).
func HandbookBendLength(angle float64) float64 {
	const quarter = math.Pi / 4
	if angle <= quarter {
		return 6.4 * max(angle, 0) / quarter
	}
	return 6.4 + (15-6.4)*(angle-quarter)/quarter
}

// HandbookBend is the same as velocity heads with the handbook's friction.
func HandbookBend(angle float64) Coefficient {
	return Coefficient{K: HandbookFriction * HandbookBendLength(angle), Formula: "K = 0.022 x 15 (90 degrees) or 6.4 (45 degrees) bores",
		Source: "bend lengths of a marine installation manual", Mark: Read, SD: 0.3}
}

// Darcy is the loss of the straight pipe by Darcy-Weisbach and Colebrook, Pa.
func Darcy(s Straight, viscosity, roughness float64) (float64, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	if !(viscosity > 0) {
		return 0, fmt.Errorf("friction needs a viscosity above 0")
	}
	v := Velocity(s.Flow, s.Bore)
	if err := CheckFriction(s.Density*v*s.Bore/viscosity, roughness/s.Bore); err != nil {
		return 0, err
	}
	return Pipe{Bore: s.Bore, Length: s.Length, Roughness: roughness}.Loss(s.Density, viscosity, v).Drop(s.Density, v), nil
}

// Opinion is one formula's answer for a straight pipe.
type Opinion struct {
	Name, Formula, Source string
	Drop                  float64 // Pa; meaningless when Note is set
	Note                  string
}

// Opinions sets all trade formulas beside the Darcy result for one pipe.
func Opinions(s Straight, viscosity, roughness float64) []Opinion {
	var all []Opinion
	for _, f := range TradeFormulas() {
		p, err := Trade(f.Form, s)
		all = append(all, opinion(f.Name, f.Text, f.Source, p, err))
	}
	p, err := Darcy(s, viscosity, roughness)
	return append(all, opinion("Darcy with Colebrook", "dp = f L/D rho V^2/2", "Darcy-Weisbach; Colebrook 1939", p, err))
}

func opinion(name, formula, source string, p float64, err error) Opinion {
	o := Opinion{Name: name, Formula: formula, Source: source, Drop: p}
	if err != nil {
		o.Note = err.Error()
	}
	return o
}
