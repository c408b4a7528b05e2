package silencer

import (
	"math"

	"hushwake/silencer/loss"
)

const waterDensity = 1025.0 // kg/m3

// frictionOf is Darcy's friction factor by the law that the options ask for.
func frictionOf(re, rel float64, o Options) float64 {
	if o.Friction == "handbook" {
		return loss.HandbookFriction
	}
	return loss.Friction(re, rel)
}

// quotedDrop is a quoted loss at the state of the line.
type quotedDrop struct {
	drop            float64
	formula, source string
	warnings        []string
}

func quotedLoss(l *Loss, s *state, bore, pressure float64) quotedDrop {
	v := s.flow / s.table.rho(s.t, pressure)
	q := l.VolumeFlow
	if q == 0 && l.MassFlow > 0 {
		q = l.MassFlow / s.table.rho(orDefault(l.Temperature, s.t), pressure)
	}
	if q == 0 {
		return quotedDrop{drop: l.Drop}
	}
	return quotedDrop{drop: l.Drop * (v / q) * (v / q)}
}

// wetLaw adds what liquid beside the gas costs.
type wetLaw struct{ multiplier, head, local_ float64 }

func newWetLaw(s *state, bore float64) wetLaw {
	if s.liquid <= 0 {
		return wetLaw{multiplier: 1, local_: 1}
	}
	x := s.flow / (s.flow + s.liquid)
	m := math.Pow((1-x)/x, 0.9) * math.Sqrt(1.0/waterDensity)
	jl := s.liquid / waterDensity / circle(bore)
	jg := s.flow / s.table.rho(s.t, 101325) / circle(bore)
	a := jg / (1.2*(jg+jl) + 0.35*math.Sqrt(gravity*bore))
	return wetLaw{multiplier: 1 + 20*m + m*m, head: (1 - a) * waterDensity * gravity, local_: 1 + s.liquid/s.flow*0.1}
}

func (w *wetLaw) duct(friction float64, d *duct, dx, pressure float64) float64 {
	return friction*w.multiplier + w.head*math.Max(0, d.rise)/d.length*dx
}

func (w *wetLaw) local(k, flux, rho float64) float64 { return k * flux * flux / (2 * rho) * w.local_ }

// wallState is a wall at one gas temperature.
type wallState struct{ perMetre, metal, skin float64 }

func (f *forward) wall(p *part) func(gasK float64) wallState {
	s, d := &p.state, &p.duct
	inner := orDefault(d.shell, d.bore)
	return func(t float64) wallState {
		n := s.table.at(t)
		re := 4 * s.flow / (math.Pi * inner * n.viscosity)
		h := 0.023 * math.Pow(re, 0.8) * math.Pow(0.7, 0.4) * n.conductivity / inner * orDefault(f.feed.Pulsation, 1)
		out := inner + 2*d.wall + 2*d.lagging.Thickness
		u := 1 / (1/(h*math.Pi*inner) + math.Log(out/(inner+2*d.wall))/(2*math.Pi*0.07) + 1/(20*math.Pi*out))
		q := u * (t - f.feed.Ambient)
		return wallState{q, t - q/(h*math.Pi*inner), f.feed.Ambient + q/(20*math.Pi*out)}
	}
}

func frictionName(o Options) (formula, source string) {
	if o.Friction == "handbook" {
		return "f L/D rho V2/2 with f = 0.022", "marine installation handbook form"
	}
	return "f L/D rho V2/2, f by Colebrook", "Colebrook 1939"
}

func wetName(rising bool) (formula, source string) {
	return "two-phase multiplier", "Lockhart & Martinelli 1949, Chisholm 1967"
}
