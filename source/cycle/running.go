package cycle

import (
	"fmt"
	"math"
)

// Running is the condition a cylinder runs at.
type Running struct {
	Speed             float64 // rpm
	IntakePressure    float64 // Pa, absolute; with a Blower only the first guess of the box pressure
	IntakeTemperature float64 // K, at the valve; with a Blower the air before it
	ExhaustPressure   float64 // Pa, absolute, outside the exhaust valve
	Fuel              Fuel
	AirFuelRatio      float64 // kg of air passed per kg of fuel; used when FuelMass is 0
	FuelMass          float64 // kg per cycle
	Blower            *Blower
}

// Blower is a positive-displacement blower without internal compression, its share of one cylinder.
// With Delivered set it passes that mass whatever the pressure; the box pressure follows.
type Blower struct {
	Delivered float64 // kg per cycle
	Swept     float64 // m3 of ambient air per cycle
	Leak      float64 // m3/s per root Pa of pressure rise
	Ambient   float64 // Pa
}

// Usual air before the intake valve of an engine that breathes for itself: pressure lost in filter and
// manifold, heat taken up from an engine space and a warm manifold (judgement).
const (
	NaturalPressure    = 0.95 * 101325 // Pa
	NaturalTemperature = 333.0         // K
)

const (
	blowerMechanical  = 0.85 // mechanical efficiency of a Roots blower (judgement)
	blowerCompression = 0.60 // compression efficiency of a Roots blower for the temperature rise (judgement)
)

// mass is what the blower passes per cycle, kg, against a pressure rise in Pa.
func (b *Blower) mass(rise, temperature, cycleTime float64) float64 {
	if b.Delivered > 0 {
		return b.Delivered
	}
	rho := b.Ambient / (gasConstant * temperature)
	return rho * math.Max(b.Swept-b.Leak*math.Sqrt(math.Max(rise, 0))*cycleTime, 0.05*b.Swept)
}

// heated is the air temperature behind the blower, K.
func (b *Blower) heated(pressure, temperature float64) float64 {
	r := math.Max(pressure/b.Ambient, 1)
	return temperature * (1 + (math.Pow(r, 0.2857)-1)/blowerCompression)
}

// Work is the work of the blower per cycle, J, at a box pressure in Pa. The air around is at a temperature in K.
func (b *Blower) Work(boxPressure, ambientTemperature float64) float64 {
	swept := b.Swept
	if swept == 0 {
		swept = b.Delivered * gasConstant * ambientTemperature / b.Ambient
	}
	return swept * math.Max(boxPressure-b.Ambient, 0) / blowerMechanical
}

func (r *Running) check() error {
	switch {
	case !(r.Speed >= 20 && r.Speed <= 12000):
		return fmt.Errorf("cycle at %g rpm; the model takes 20 to 12000", r.Speed)
	case !(r.IntakePressure > 2e4 && r.IntakePressure < 8e5):
		return fmt.Errorf("intake at %g Pa; the model takes 0.2 to 8 bar absolute", r.IntakePressure)
	case !(r.ExhaustPressure > 5e4 && r.ExhaustPressure < 8e5):
		return fmt.Errorf("exhaust at %g Pa; the model takes 0.5 to 8 bar absolute", r.ExhaustPressure)
	case !(r.IntakeTemperature > 220 && r.IntakeTemperature < 500):
		return fmt.Errorf("intake at %g K; the model takes 220 to 500", r.IntakeTemperature)
	case !(r.Fuel.HeatingValue > 1e6 && r.Fuel.Stoichiometric > 1):
		return fmt.Errorf("fuel of %g J/kg", r.Fuel.HeatingValue)
	case !(r.FuelMass > 0 || r.AirFuelRatio >= 8 && r.AirFuelRatio < 2000):
		return fmt.Errorf("fuel %g kg a cycle at air-fuel ratio %g: state one; the ratio from 8 to 2000", r.FuelMass, r.AirFuelRatio)
	}
	if b := r.Blower; b != nil && !((b.Delivered > 0 || b.Swept > 0) && b.Leak >= 0 && b.Ambient > 5e4) {
		return fmt.Errorf("blower of %g m3 or %g kg a cycle from %g Pa", b.Swept, b.Delivered, b.Ambient)
	}
	return nil
}
