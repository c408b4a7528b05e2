package silencer

import (
	"cmp"
	"errors"
	"math"

	"hushwake/source/gas"
)

// conduit is a run of parts from end to end with the gas at both.
type conduit struct {
	stream stream
	mouth  float64 // m, bore at its head
	first  state
	last   state
	inlet  float64 // Pa absolute
}

// conditions hold along a whole conduit.
type conditions struct {
	isothermal bool    // no heat loss
	ambient    float64 // K of the air round it
	waterShare float64 // of the stated injection water; 0 = all
	pulsation  float64 // factor on the inside heat transfer; 0 = 1
	step       float64 // m, largest step; 0 = 0.01
	handbook   bool    // friction as in a handbook
}

// entering is the gas at the head of a line in air of a temperature, K; 0 = that of the gas.
func entering(g gas.Gas, flow, t, ambient float64) state {
	return state{gas: g, flow: flow, t: t, table: newGasTable(g, math.Min(t, cmp.Or(ambient, t)), t)}
}

// errStuck is for gas that does not pass.
var errStuck = errors.New("the back pressure is above 100 bar")

// settle sweeps forward and back until the inlet pressure stands still. Without water or branches the
// temperatures do not depend on the pressure and one sweep each way does.
func (p *conduit) settle(c conditions) error {
	b := &backward{}
	memo := make([]float64, c.slices(p.stream.parts))
	past := 0.0
	for range 100 {
		f := &forward{conditions: c, memo: memo}
		last, err := f.run(p.stream.parts, p.first)
		if err != nil {
			return err
		}
		p.last, b.uneven = last, 0
		p.inlet = b.run(p.stream.parts, gas.Atmosphere)
		if !(p.inlet < 1e7) {
			return errStuck
		}
		if !p.coupled() || math.Abs(p.inlet-past) <= 1e-10*p.inlet && b.uneven < 1e-6 {
			return nil
		}
		past = p.inlet
	}
	return errors.New("the flow does not settle between the branches\nhint: simplify the parallel part or join its branches into one pipe of the same area")
}

// coupled says whether temperatures depend on the pressure.
func (p *conduit) coupled() bool {
	for i := range p.stream.parts {
		if k := p.stream.parts[i].kind; k == injectPart || k == branchPart {
			return true
		}
	}
	return false
}

// slices counts the temperatures kept along all ducts.
func (c conditions) slices(parts []part) (n int) {
	for i := range parts {
		if parts[i].kind == ductPart {
			n += c.steps(parts[i].duct.length) + 1
		}
		for _, l := range parts[i].lines {
			n += c.slices(l.stream.parts)
		}
	}
	return n
}
