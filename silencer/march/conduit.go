// Package march carries gas along a conduit of parts: the temperature forward by the heat that each wall gives off, the pressure
// back by friction and fittings with the local density, with water and branches on the way. Steady flow of an ideal gas below
// Mach 0.3. SI units; K counts velocity heads of the bore named.
package march

import (
	"errors"
	"math"

	"hushwake/source/gas"
)

// ErrStuck is for gas that does not pass.
var ErrStuck = errors.New("the back pressure is above 100 bar")

// Settle sweeps forward and back until the inlet pressure stands still. Without water or branches the
// temperatures do not depend on the pressure and one sweep each way does.
func (p *Conduit) Settle(c Conditions) error {
	b := &backward{}
	memo := make([]float64, c.slices(p.Stream.Parts))
	past := 0.0
	for range 100 {
		f := &forward{Conditions: c, memo: memo}
		last, err := f.run(p.Stream.Parts, p.First)
		if err != nil {
			return err
		}
		p.Last, b.uneven = last, 0
		p.Inlet = b.run(p.Stream.Parts, gas.Atmosphere)
		if !(p.Inlet < 1e7) {
			return ErrStuck
		}
		if !p.coupled() || math.Abs(p.Inlet-past) <= 1e-10*p.Inlet && b.uneven < 1e-6 {
			return nil
		}
		past = p.Inlet
	}
	return errors.New("the flow does not settle between the branches\nhint: simplify the parallel part or join its branches into one pipe of the same area")
}

// coupled says whether temperatures depend on the pressure.
func (p *Conduit) coupled() bool {
	for i := range p.Stream.Parts {
		if k := p.Stream.Parts[i].Kind; k == InjectPart || k == BranchPart {
			return true
		}
	}
	return false
}

// slices counts the temperatures kept along all ducts.
func (c Conditions) slices(parts []Part) (n int) {
	for i := range parts {
		if parts[i].Kind == DuctPart {
			n += c.steps(parts[i].Duct.Length) + 1
		}
		for _, l := range parts[i].Lines {
			n += c.slices(l.Stream.Parts)
		}
	}
	return n
}
