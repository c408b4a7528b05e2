package silencer

import (
	"hushwake/silencer/chain"
	"hushwake/silencer/march"
)

// WaterInjection is where raw water meets the gas, kind "water_injection".
type WaterInjection struct {
	Common
	Flow              float64 // m3/s of water
	Temperature       float64 // K
	HeightOverWater   float64 // m
	HeightOverWaterOK bool    // stated
	Pipe              float64 // m, bore; 0 = that of the neighbour
}

// Kind names the element.
func (*WaterInjection) Kind() string { return "water_injection" }

func (e *WaterInjection) Form() Form { return Form{In: e.Pipe, Out: e.Pipe, Massless: true} }

// Injects is itself.
func (e *WaterInjection) Injects() *WaterInjection { return e }

func (e *WaterInjection) flow(s *march.Stream) { s.Inject(e.Flow, e.Temperature) }

// sound: what changes is the gas; the temperature step comes by itself. What flies behind it before it is on the wall
// takes its share.
func (e *WaterInjection) sound(c *chain.Chain) {
	c.Join(c.End(c.Bore, 0))
	c.Spray()
}
