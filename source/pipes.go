package source

import "math"

// Pipes is how many exhaust pipes an engine has, each with a line alike; 0 counts as 1.
type Pipes int

func (n Pipes) count() float64 { return math.Max(1, float64(n)) }

// All is what all pipes or their lines have together (length, mass, heat, price) of what one has.
func (n Pipes) All(ofOne float64) float64 { return ofOne * n.count() }

// Share is what falls to one pipe of what the engine has (power, flow).
func (n Pipes) Share(ofAll float64) float64 { return ofAll / n.count() }

// EngineFlow is a mass flow of the whole engine, kg/s.
type EngineFlow float64

// PipeFlow is the mass flow in each exhaust pipe, kg/s.
type PipeFlow float64

// Each is what passes one of the pipes.
func (f EngineFlow) Each(n Pipes) PipeFlow { return PipeFlow(n.Share(float64(f))) }

// All is what passes all pipes.
func (f PipeFlow) All(n Pipes) EngineFlow { return EngineFlow(n.All(float64(f))) }

// PipeFiring is the rate at which pulses enter one exhaust pipe, Hz: what its line hears.
type PipeFiring float64

// EngineFiring is the rate at which cylinders fire, Hz: what body and mounts hear.
type EngineFiring float64
