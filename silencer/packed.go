package silencer

import (
	"fmt"
	"math"

	"hushwake/silencer/chain"
	"hushwake/silencer/chambers"
	"hushwake/silencer/fourpole"
	"hushwake/silencer/march"
)

// Fibre names a bulk fibre model.
type Fibre int

// Fibre models.
const (
	AutoFibre Fibre = iota // Miki, held passive far below its range
	AllardChampoux
	DelanyBazley
	Miki
)

// Packed is a perforated tube with a fibre filling round it, kind "packed".
type Packed struct {
	Common
	Perforate
	FlowResistivity float64 // Pa s/m2 at 20 C
	Fibre           Fibre
}

const packingDensity = 110.0 // kg/m3 of long-strand filling, common practice

// Kind names the element.
func (*Packed) Kind() string { return "packed" }

func (e *Packed) Form() Form {
	outside := e.Bore + 2*e.TubeWall
	area := math.Pi / 4 * (e.ChamberBore*e.ChamberBore - outside*outside)
	return e.Perforate.Form(e.Material, math.Max(0, packingDensity*area*e.Length))
}

func (e *Packed) flow(s *march.Stream) { e.Perforate.flow(s, e.Lagging) }

// packedCeiling is what a packed tube is trusted to do above its cut-on, dB: high frequencies beam
// through the open bore. Judgement.
const packedCeiling = 20.0

// sound: the filling is denser in hot gas, its resistivity goes with the viscosity.
func (e *Packed) sound(c *chain.Chain) {
	m := c.End(e.Bore, 0.5).Medium
	sigma, err := e.FlowResistivity, error(nil)
	if m.Viscosity > 0 && !c.Isothermal {
		sigma, err = fourpole.HotResistivity(e.FlowResistivity, m.Viscosity)
	}
	if err != nil {
		c.Err = err
		return
	}
	t := e.tube()
	t.Fill = &chambers.Filling{Fibre: e.fibre(), Resistivity: sigma}
	low, high := fourpole.FibreRange(sigma, m.Density)
	c.Warn(fmt.Sprintf("the fibre model was fitted from %.0f Hz to %.0f Hz in this gas; below that it is extrapolated", low, high))
	c.Perforated(t, packedCeiling)
}

// fibre is the stated model; without one the fit that stays passive below its range.
func (e *Packed) fibre() fourpole.Fibre {
	switch e.Fibre {
	case AllardChampoux:
		return fourpole.AllardChampoux
	case DelanyBazley:
		return fourpole.DelanyBazley
	case Miki:
		return fourpole.Miki
	}
	return fourpole.PassiveMiki
}

func (e *Packed) sizing(_, maxLength, maxDiameter float64) *Sizing {
	return e.resized(maxLength, maxDiameter, &e.Common, func(p Perforate) Element {
		n := *e
		n.Perforate = p
		return &n
	})
}

func (e *Packed) check() error { return e.Perforate.check() }

func (e *Packed) model(float64) (string, []float64) {
	return "", append(e.acousticSizes(), e.FlowResistivity)
}
