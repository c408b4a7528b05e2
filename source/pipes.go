package source

import (
	"fmt"
	"math"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Pipes is how many exhaust pipes an engine has, each with a line alike; 0 counts as 1.
type Pipes int

func (n Pipes) count() float64 { return math.Max(1, float64(n)) }

// All is what all pipes or their lines have together (length, mass, heat, price) of what one has.
func (n Pipes) All(ofOne float64) float64 { return ofOne * n.count() }

// Share is what falls to one pipe of what the engine has (power, flow).
func (n Pipes) Share(ofAll float64) float64 { return ofAll / n.count() }

// Level is by how much all pipes, each with a line alike, are over one, dB: the energy sum of equal sources.
func (n Pipes) Level() float64 { return 10 * math.Log10(n.count()) }

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

// PipePart is the level of one exhaust pipe and how it came about.
type PipePart struct{ Part }

// each shares the level of the whole engine among its pipes.
func (p Part) each(n Pipes) PipePart {
	if n < 2 {
		return PipePart{p}
	}
	return PipePart{p.with(Term{"one of the pipes", published.By(fmt.Sprintf("-10 lg %d", n), "energy shared evenly by the banks", "derived"), spectrum.Fill(-n.Level())})}
}

// PipeOrder is one line of the exhaust spectrum of one pipe.
type PipeOrder struct {
	Order     float64 // multiples of crankshaft speed
	Frequency float64 // Hz
	Level     float64 // dB re 1 pW
}

// EngineOrder is one line of the exhaust spectrum of all pipes together.
type EngineOrder PipeOrder

// All is what all pipes give off of an order.
func (o PipeOrder) All(n Pipes) EngineOrder {
	o.Level += n.Level()
	return EngineOrder(o)
}
