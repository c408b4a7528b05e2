// Package order takes the sound of an engine apart: its speed without a tachometer, its lines by order after resampling to the
// crank, and what lies between them.
package order

import "math"

// Engine is what the lines of an engine hang on.
type Engine struct {
	Cylinders int
	TwoStroke bool
}

// Cycle is the order of the working cycle, on whose multiples all lines lie.
func (e Engine) Cycle() float64 {
	if e.TwoStroke {
		return 1
	}
	return 0.5
}

// Firing is the order of firing.
func (e Engine) Firing() float64 { return float64(e.Cylinders) * e.Cycle() }

// EngineFiring is the rate at which all its cylinders fire at a speed in rpm, Hz, as source.Engine.EngineFiring; a pipe of two
// sees half of it.
func (e Engine) EngineFiring(rpm float64) float64 { return e.Firing() * rpm / 60 }

// Fires tells whether an order is a multiple of the firing order.
func (e Engine) Fires(order float64) bool {
	n := order / e.Firing()
	return math.Abs(n-math.Round(n)) < 1e-6 && n > 0.5
}
