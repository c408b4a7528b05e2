package loss

import (
	"errors"
	"fmt"

	"hushwake/source/published"
	"hushwake/source/said"
)

// Basis says for which gas a quoted loss holds.
type Basis int

// Bases of a quoted loss.
const (
	BasisUnknown Basis = iota
	Hot                // at the stated flow and temperature
	EqualMass          // cold gas at the same mass flow
	EqualVolume        // cold gas at the same volume flow
)

// chartTemperature is that of the air silencer curves are usually drawn for, K (21 C, common practice).
const chartTemperature = 294.15

// ExhaustDensity is that of exhaust gas at a temperature in K and standard pressure, kg/m3 (derived, to 0.2 %).
func ExhaustDensity(temperature float64) float64 { return densityConstant / temperature }

// densityConstant over T is the density of exhaust gas at standard pressure, good to 0.2 % (derived).
const densityConstant = 353.4

// Quote is a silencer loss as quoted.
type Quote struct {
	Drop        float64 // Pa
	MassFlow    float64 // kg/s of the quote; 0 = not stated as mass
	VolumeFlow  float64 // m3/s of the quote; 0 = not stated as volume
	Temperature float64 // K of the gas of the quote; 0 = not stated
	// FlowTemperature is what VolumeFlow holds at, K; 0 = Temperature for a hot quote, the duty's for a cold one.
	FlowTemperature float64
	Basis           Basis
	SD              float64 `json:",omitempty"` // relative, of the drop as stated; 0 = one figure
	AtMost          bool    `json:",omitempty"` // the drop is promised as a bound
}

// Duty is the gas that will really flow through.
type Duty struct {
	MassFlow    float64 // kg/s
	Density     float64 // kg/m3
	Temperature float64 // K
	// QuotedMass is what a quote without a flow holds at, kg/s: the engine's rated flow; 0 = MassFlow.
	QuotedMass float64
}

// Scaled is a quoted loss at the duty. Where the basis is unknown Low and High are the two answers.
type Scaled struct {
	Drop, Low, High float64 // Pa; Drop is the value to reckon with
	published.Cited
	Warnings []string
}

// Scale brings a quoted loss to the duty. A loss goes as rho V^2; with r the duty's flow over the quoted flow
// of exhaust and rho_q the density of the gas the quote was taken with,
//
//	Hot:         dp = dp_q (m/m_q)^2 rho_q/rho
//	EqualMass:   dp = dp_q r^2 rho_q/rho
//	EqualVolume: dp = dp_q r^2 rho/rho_q
//
// The quoted flow is that of the exhaust, which the cold gas equals by mass or by volume; without one it is
// the duty's QuotedMass, or its own flow. A quote without a basis gives both cold readings, and the high one to reckon with.
func (q Quote) Scale(d Duty) (Scaled, error) {
	if err := q.check(d); err != nil {
		return Scaled{}, err
	}
	s := Scaled{Cited: published.By("dp = dp_quote rho V^2/(rho V^2)_quote", "similarity of turbulent losses", Derived)}
	switch q.Basis {
	case Hot:
		s.Drop = q.hot(d)
	case EqualMass:
		s.Drop = q.equalMass(d)
	case EqualVolume:
		s.Drop = q.equalVolume(d)
	default:
		byVolume := q
		byVolume.Basis = EqualVolume
		s.Low, s.High = byVolume.equalVolume(d), q.equalMass(d)
		if s.Low > s.High {
			s.Low, s.High = s.High, s.Low
		}
		s.Drop = s.High
		s.Warnings = append(s.Warnings, said.Textf("the quoted loss does not say for which gas it holds: {%.2f kPa} if the curve is cold air at the same volume flow, {%.2f kPa} if cold air at the same mass flow; the higher is used", s.Low/1e3, s.High/1e3))
		return s, nil
	}
	s.Low, s.High = s.Drop, s.Drop
	s.Warnings = append(s.Warnings, q.doubts(d)...)
	return s, nil
}

func (q Quote) check(d Duty) error {
	switch {
	case !(q.Drop >= 0):
		return fmt.Errorf("quoted loss of %.3g Pa cannot be: it is 0 or more", q.Drop)
	case !(d.MassFlow >= 0 && d.Density > 0):
		return errors.New("a quoted loss needs the duty's mass flow and density")
	case q.MassFlow < 0 || q.VolumeFlow < 0 || q.Temperature < 0:
		return errors.New("flow and temperature of a quoted loss must be positive")
	}
	return nil
}

// hot reads the quote at its own flow and temperature; without temperature at the duty's density.
func (q Quote) hot(d Duty) float64 {
	density := d.Density
	if q.Temperature > 0 {
		density = q.densityAt(d, q.Temperature)
	}
	return q.Drop * q.flows(d, density) * density / d.Density
}

func (q Quote) equalMass(d Duty) float64 {
	return q.Drop * q.flows(d, d.Density) * q.cold(d) / d.Density
}

func (q Quote) equalVolume(d Duty) float64 {
	return q.Drop * q.flows(d, d.Density) * d.Density / q.cold(d)
}

// flows is the square of the duty's flow over the quoted flow; density turns a quoted volume into mass.
func (q Quote) flows(d Duty, density float64) float64 {
	mass := q.MassFlow
	if mass == 0 {
		mass = q.VolumeFlow * density
	}
	if q.VolumeFlow > 0 && q.MassFlow == 0 && q.FlowTemperature > 0 && q.Basis != EqualVolume {
		mass = q.VolumeFlow * q.densityAt(d, q.FlowTemperature)
	}
	if mass == 0 {
		mass = d.QuotedMass
	}
	if mass == 0 {
		return 1
	}
	r := d.MassFlow / mass
	return r * r
}

// orChart is the temperature, or that of silencer charts where it is 0, K.
func orChart(t float64) float64 {
	if t > 0 {
		return t
	}
	return chartTemperature
}

// cold is the density of the quote's cold gas, at 21 C where not stated.
func (q Quote) cold(d Duty) float64 {
	if q.Temperature > 0 {
		return q.densityAt(d, q.Temperature)
	}
	return q.densityAt(d, chartTemperature)
}

// densityAt scales the duty's density by temperature so that the duty's pressure and gas carry over.
func (q Quote) densityAt(d Duty, t float64) float64 {
	if d.Temperature > 0 {
		return d.Density * d.Temperature / t
	}
	return densityConstant / t
}

// doubts are readings that contradict each other.
func (q Quote) doubts(d Duty) []string {
	var w []string
	if q.Basis == EqualMass && q.VolumeFlow > 0 && q.MassFlow == 0 && q.FlowTemperature == 0 && d.Temperature > 0 {
		t := orChart(q.Temperature)
		w = append(w, said.Textf("the quoted volume flow does not say at which temperature: taken as hot exhaust at {%.0f °C}; if it is the cold gas at {%.0f °C} the loss is %.2f times too high. One density does not serve two temperatures: only the mass flow tells",
			d.Temperature-273.15, t-273.15, (d.Temperature/t)*(d.Temperature/t)))
	}
	if q.Basis == Hot && q.Temperature > 0 && q.Temperature < 373 && d.Temperature > q.Temperature+150 {
		w = append(w, said.Textf("a loss called hot is quoted at {%.0f °C} while the gas has {%.0f °C}: a cold-air curve read as hot is too low by a factor of %.2f at the same mass flow; ask the maker",
			q.Temperature-273.15, d.Temperature-273.15, d.Temperature/q.Temperature))
	}
	if q.MassFlow > 0 && q.VolumeFlow > 0 && q.Temperature > 0 {
		if s := DensitySlip(q.MassFlow/q.VolumeFlow, q.Temperature, 101325); s != nil {
			w = append(w, s.Text)
		}
	}
	return w
}
