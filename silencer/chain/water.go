package chain

import (
	"cmp"
	"fmt"
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/march"
	"hushwake/silencer/wet"
	"hushwake/source/gas"
	"hushwake/source/said"
)

// lost is what the gas works against in the element, Pa.
func (a *Chain) lost() (pa float64) {
	for _, i := range a.Parts {
		pa += a.Gas.Stream.Parts[i].State.Loss
	}
	return pa
}

// LostInDucts is the same without its fittings, Pa.
func (a *Chain) LostInDucts() (pa float64) {
	for _, i := range a.Parts {
		if p := &a.Gas.Stream.Parts[i]; p.Kind == march.DuctPart {
			pa += p.State.Loss
		}
	}
	return pa
}

// rise is how far the element lifts its water, m.
func (a *Chain) rise() (m float64) {
	for _, i := range a.Parts {
		m += math.Max(0, a.Gas.Stream.Parts[i].Duct.Rise)
	}
	return m
}

// Friction is the two-phase friction in a bore, Pa/m.
func (a *Chain) Friction(bore float64) float64 {
	s := a.StateAt(0)
	f := s.Mixture(bore)
	g, _ := f.LockhartMartinelli()
	return g
}

// WetRun is a pipe with water on its wall and in its gas. What the water costs in back pressure, a mean gradient in
// Pa/m, it takes from the sound: R' = 2 G/U. In a rise the gas is the core that the water leaves. Bore, length and rise
// are in m.
func (a *Chain) WetRun(bore, length, gradient, rise float64) {
	s := a.StateAt(0)
	f := s.Mixture(bore)
	full, void := s.End(fourpole.CircleArea(bore)), 1.0
	a.Join(full)
	if rise > 0 {
		void = f.DriftFlux()
	}
	core := s.End(fourpole.CircleArea(bore) * void)
	u := f.GasVelocity() / void
	drops, err := a.drops(s, f.Drops())
	if err != nil {
		a.Err = err
		return
	}
	p := cmp.Or(s.Pressure, gas.Atmosphere)
	x, _, _ := s.Gas.OverSeaWater(s.T, p)
	if x > 0.5 {
		a.Warn(said.Textf("gas at {%.0f °C}: the layer on a wet wall is known to {81 °C} and taken as there", s.T-273.15))
	}
	r := fourpole.Run{End: core, Bore: bore * math.Sqrt(void), Length: length, Drag: dragOf(2*gradient/u, bore, u), Drops: drops,
		Vapour: math.Min(x, 0.5), Diffusivity: gas.VapourDiffusivity(s.T, p)}
	line, err := fourpole.NewLine(r)
	a.squeeze(full, core)
	a.Add(line, err, core)
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
func (a *Chain) squeeze(from, to fourpole.End) {
	if a.Err == nil && from.Area != to.Area {
		p, err := fourpole.NewStep(from, to, fourpole.NoCorrections)
		a.Add(p, err, to)
	}
}

// drops is a spray in the saturated gas of a state; nil without drops.
func (a *Chain) drops(s *march.State, classes []gas.Class) (fourpole.Cloud, error) {
	if len(classes) == 0 {
		return nil, nil
	}
	p := cmp.Or(s.Pressure, gas.Atmosphere)
	_, y, dry := s.Gas.OverSeaWater(s.T, p)
	return gas.NewSpray(gas.Droplets{Gas: s.Gas.At(s.T, p), Density: wet.WaterDensity, Heat: wet.WaterHeat, Vapour: y, DryMass: dry}, classes)
}

// Spray is what flies behind an injection: the excess of drag and drops over the gas, on a length short beside the
// wave, and the resistance of the back pressure that its acceleration costs.
func (a *Chain) Spray() {
	if len(a.Parts) == 0 || a.hot {
		return
	}
	in, s := &a.Gas.Stream.Parts[a.Parts[0]].State, a.behind()
	if in.Injected == 0 || s.Liquid == 0 {
		return
	}
	end := s.End(fourpole.CircleArea(a.Bore))
	a.Join(end)
	f := s.Mixture(a.Bore)
	classes, cut := f.Spray()
	if cut {
		a.Warn("more water than the spray theory holds for (5 % by volume): the rest is left out of the sound")
	}
	drops, err := a.drops(s, classes)
	if err != nil {
		a.Err = err
		return
	}
	u := in.Fastest
	r := fourpole.Run{End: end, Bore: a.Bore, Length: wet.SprayLength, Drag: dragOf(wet.SprayResistance(in.Loss, u)/wet.SprayLength, a.Bore, u), Drops: drops}
	p, err := fourpole.NewLump(r)
	a.Add(p, err, end)
	a.doubt("wet line", "spray behind an injection", sprayDoubt, "judgement: size, share and speed of the drops, each within a factor of 1.6")
	if err == nil && a.isRead() {
		low, high := tookRange(p, nil, end)
		a.Note(said.Textf("the spray behind it takes %s dB ({%.2f kPa} to bring half the water up to speed, drops of {0.6 mm})", span(low, high), in.Loss/1e3))
	}
}

// Mouth is what a tube that draws gas and water in takes beyond the dry contraction: R = 2 dp/U.
func (a *Chain) Mouth(bore float64) {
	s := a.StateAt(0)
	f := s.Mixture(bore)
	u, extra := f.GasVelocity(), 0.0
	for _, i := range a.Parts {
		if p := &a.Gas.Stream.Parts[i]; p.Kind == march.LossPart && march.Same(p.Bore, bore) {
			extra += math.Max(0, p.State.Loss-p.K*f.GasDensity*u*u/2)
		}
	}
	end := s.End(fourpole.CircleArea(bore))
	p, err := fourpole.NewLump(fourpole.Run{End: end, Bore: bore, Length: 1, Drag: dragOf(2*extra/u, bore, u)})
	a.Add(p, err, end)
}

// Plugs are the slugs of a riser, as energy beside the chain. All are in m.
func (a *Chain) Plugs(bore, length, rise float64) {
	s := a.StateAt(0)
	if s.Liquid == 0 || rise <= 0 {
		return
	}
	f := s.Mixture(bore)
	a.TakeOut(f.PlugLoss(length, s.Medium().Impedance()))
	a.Note(fmt.Sprintf("plugs of water shut it some %.0f %% of the time", 100*f.Plugged(length)))
}
