package silencer

import (
	"cmp"
	"fmt"
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/wet"
	"hushwake/source/gas"
	"hushwake/source/spectrum"
)

// Standard deviations of what water does to sound, dB by octave, judgement: the spread over drops, entrained share,
// drag at high frequency and fog.
var (
	sprayDoubt = spectrum.Bands{.4, .4, .4, .4, .4, .5, .6, .8, 1.2}
	hoseDoubt  = spectrum.Bands{.6, .6, .6, .6, .7, .8, 1.1, 1.6, 2.2} // over 3 m
	riserDoubt = spectrum.Fill(1.3)                                    // over 0.9 m, with plugs
	wetDoubt   = spectrum.Fill(2.5)                                    // all of it together
)

// WetUnproven is the cause of error that all wet lines share.
const WetUnproven = "no boat measured wet and dry"

// lost is what the gas works against in the element, Pa.
func (a *chain) lost() (pa float64) {
	for _, i := range a.parts {
		pa += a.gas.stream.parts[i].state.loss
	}
	return pa
}

// lostInDucts is the same without its fittings, Pa.
func (a *chain) lostInDucts() (pa float64) {
	for _, i := range a.parts {
		if p := &a.gas.stream.parts[i]; p.kind == ductPart {
			pa += p.state.loss
		}
	}
	return pa
}

// rise is how far the element lifts its water, m.
func (a *chain) rise() (m float64) {
	for _, i := range a.parts {
		m += math.Max(0, a.gas.stream.parts[i].duct.rise)
	}
	return m
}

// friction is the two-phase friction in a bore, Pa/m.
func (a *chain) friction(bore float64) float64 {
	s := a.stateAt(0)
	f := s.mixture(bore)
	g, _ := f.LockhartMartinelli()
	return g
}

// wetRun is a pipe with water on its wall and in its gas. What the water costs in back pressure, a mean gradient in
// Pa/m, it takes from the sound: R' = 2 G/U. In a rise the gas is the core that the water leaves.
func (a *chain) wetRun(bore, length, gradient, rise float64) {
	s := a.stateAt(0)
	f := s.mixture(bore)
	full, void := s.end(fourpole.CircleArea(bore)), 1.0
	a.join(full)
	if rise > 0 {
		void = f.DriftFlux()
	}
	core := s.end(fourpole.CircleArea(bore) * void)
	u := f.GasVelocity() / void
	drops, err := a.drops(s, f.Drops())
	if err != nil {
		a.err = err
		return
	}
	p := cmp.Or(s.pressure, gas.Atmosphere)
	x, _, _ := s.gas.OverSeaWater(s.t, p)
	if x > 0.5 {
		a.warn(fmt.Sprintf("gas at %.0f °C: the layer on a wet wall is known to 81 °C and taken as there", s.t-273.15))
	}
	r := fourpole.Run{End: core, Bore: bore * math.Sqrt(void), Length: length, Drag: dragOf(2*gradient/u, bore, u), Drops: drops,
		Vapour: math.Min(x, 0.5), Diffusivity: gas.VapourDiffusivity(s.t, p)}
	line, err := fourpole.NewLine(r)
	a.squeeze(full, core)
	a.add(line, err, core)
	a.squeeze(core, full)
	if err != nil {
		return
	}
	a.noteRun(r, line, f, gradient*length, rise)
}

// dragOf is a resistance with the time in which gas crosses an obstacle a quarter of the bore wide (judgement).
func dragOf(resistance, bore, u float64) fourpole.Drag {
	return fourpole.Drag{Resistance: resistance, Crossing: bore / 4 / u}
}

// squeeze goes from a bore to its gas core and back: smooth, so without a near field.
func (a *chain) squeeze(from, to fourpole.End) {
	if a.err == nil && from.Area != to.Area {
		p, err := fourpole.NewStep(from, to, fourpole.NoCorrections)
		a.add(p, err, to)
	}
}

// drops is a spray in the saturated gas of a state; nil without drops.
func (a *chain) drops(s *state, classes []gas.Class) (fourpole.Cloud, error) {
	if len(classes) == 0 {
		return nil, nil
	}
	p := cmp.Or(s.pressure, gas.Atmosphere)
	_, y, dry := s.gas.OverSeaWater(s.t, p)
	return gas.NewSpray(gas.Droplets{Gas: s.gas.At(s.t, p), Density: wet.WaterDensity, Heat: wet.WaterHeat, Vapour: y, DryMass: dry}, classes)
}

// spray is what flies behind an injection: the excess of drag and drops over the gas, on a length short beside the
// wave, and the resistance of the back pressure that its acceleration costs.
func (a *chain) spray() {
	if len(a.parts) == 0 || a.hot {
		return
	}
	in, s := &a.gas.stream.parts[a.parts[0]].state, a.behind()
	if in.injected == 0 || s.liquid == 0 {
		return
	}
	end := s.end(fourpole.CircleArea(a.bore))
	a.join(end)
	f := s.mixture(a.bore)
	classes, cut := f.Spray()
	if cut {
		a.warn("more water than the spray theory holds for (5 % by volume): the rest is left out of the sound")
	}
	drops, err := a.drops(s, classes)
	if err != nil {
		a.err = err
		return
	}
	u := in.fastest
	r := fourpole.Run{End: end, Bore: a.bore, Length: wet.SprayLength, Drag: dragOf(wet.SprayResistance(in.loss, u)/wet.SprayLength, a.bore, u), Drops: drops}
	p, err := fourpole.NewLump(r)
	a.add(p, err, end)
	a.doubt("wet line", "spray behind an injection", sprayDoubt, "judgement: size, share and speed of the drops, each within a factor of 1.6")
	if err == nil && a.told() {
		low, high := tookRange(p, nil, end)
		a.note(fmt.Sprintf("the spray behind it takes %s dB (%.2f kPa to bring half the water up to speed, drops of 0.6 mm)", span(low, high), in.loss/1e3))
	}
}

// mouth is what a tube that draws gas and water in takes beyond the dry contraction: R = 2 dp/U.
func (a *chain) mouth(bore float64) {
	s := a.stateAt(0)
	f := s.mixture(bore)
	u, extra := f.GasVelocity(), 0.0
	for _, i := range a.parts {
		if p := &a.gas.stream.parts[i]; p.kind == lossPart && same(p.bore, bore) {
			extra += math.Max(0, p.state.loss-p.k*f.GasDensity*u*u/2)
		}
	}
	end := s.end(fourpole.CircleArea(bore))
	p, err := fourpole.NewLump(fourpole.Run{End: end, Bore: bore, Length: 1, Drag: dragOf(2*extra/u, bore, u)})
	a.add(p, err, end)
}

// plugs are the slugs of a riser, as energy beside the chain.
func (a *chain) plugs(bore, length, rise float64) {
	s := a.stateAt(0)
	if s.liquid == 0 || rise <= 0 {
		return
	}
	f := s.mixture(bore)
	a.takeOut(f.PlugLoss(length, s.medium().Impedance()))
	a.note(fmt.Sprintf("plugs of water shut it some %.0f %% of the time", 100*f.Plugged(length)))
}
