package path

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path/structure"
	"hushwake/source"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// sandwich is taken as solid laminate with more doubt.
const sandwich = "sandwich"

// AtSpeed is what can be said of the feet at a speed, rpm: at the firing line, or the highest whole order in reach of a phone.
func (f *Footing) AtSpeed(speed float64) OnMounts {
	l := f.engine.lines(speed)
	line := float64(l.Firing)
	if line > PhoneReach {
		line = l.Turn * math.Max(1, math.Floor(PhoneReach/l.Turn))
	}
	out := OnMounts{Line: line, feet: &f.Feet, lines: l}
	out.AcrossMount, out.Share = f.Feet.AcrossMount(line)
	if f.Feet.Mount.Kind != structure.Rigid {
		out.Doubts = append(f.mountDoubts(), f.bedDoubt())
	}
	return out
}

// doubtful is a value that was filled in, with what it adds to the doubt of the route.
type doubtful struct {
	term string // feet | mounts | bridges | hull
	key  string
	sd   spectrum.Bands
}

// Footing is an engine on its feet: what it sends into its bed, worked out once for a layout.
type Footing struct {
	boat     *Boat
	layout   *Layout
	engine   *Engine
	Feet     structure.Feet
	Material structure.Material
	Velocity spectrum.Bands // at the feet, free
	moved    source.Part    // by which a stated velocity came from the duty it was measured at
	rigid    spectrum.Bands // power into the bed with rigid feet
	mounts   spectrum.Bands // loss
	Bridged  spectrum.Bands // loss that is left with the bridges
	mountSD  spectrum.Bands
	doubts   []doubtful
	text     string // of the mounts
	Assumed  []source.Assumption
}

// fill lists a value that was filled in and remembers its doubt.
func (f *Footing) fill(field, value, source, term, key string, sd spectrum.Bands) {
	f.Assumed = append(f.Assumed, sourceAssumption(field, value, source, sd))
	f.doubts = append(f.doubts, doubtful{term, key + " not stated", sd})
}

// Foot works out how an engine stands and what it sends into its bed.
func Foot(b *Boat, l *Layout, e *Engine, x *Exhaust, r *ExhaustResult) (*Footing, error) {
	f := &Footing{boat: b, layout: l, engine: e}
	f.Material = f.hullMaterial()
	mass := f.mass()
	mount := f.mountsOf(mass)
	bridges := f.bridgesOf(x, mount.Kind)
	count := e.Mounts.Count
	if count == 0 {
		count = usualCount
	}
	var err error
	if f.Feet, err = structure.NewFeet(mass, count, mount, bridges, bedOf(e.Bed, f.Material.Bed), f.Material); err != nil {
		return nil, fmt.Errorf("engine %s: %w", e.Name, err)
	}
	f.Velocity = structure.FreeVelocity(r.Source.Casing.Bands, mass)
	if e.FootVelocity != nil {
		f.moved = e.CasingMove(r.Source.Duty)
		f.Velocity = e.FootVelocity.Plus(f.moved.Bands)
	}
	f.rigid = f.Feet.RigidPower(f.Velocity)
	f.mounts, f.Bridged = f.Feet.Losses(e.lines(r.Source.Duty.Speed))
	return f, nil
}

// hullMaterial is the stated one, else unstatedHull: a house or a deck of steel may stand on any hull, so that no wall tells it.
func (f *Footing) hullMaterial() structure.Material {
	name := f.boat.Hull.Material
	switch name {
	case sandwich:
		f.doubts = append(f.doubts, doubtful{"hull", "hull sandwich", structure.SandwichSD})
		name = "grp"
	case "":
		name = unstatedHull
		f.fill("hull", name, "not stated; no wall tells it for certain: next to the loudest", "hull", "hull", structure.HullUnstatedSD)
	}
	m, _ := structure.MaterialNamed(name)
	return m
}

// unstatedHull stands for a hull of which nothing is known: next to wood the loudest of the four at a seat, so that
// what is left out makes no boat quieter (judgement).
const unstatedHull = "aluminium"

func (f *Footing) mass() float64 {
	e := f.engine
	mass := e.weighs()
	if e.Mass > 0 {
		return mass
	}
	f.fill("engines."+e.Name+".mass", said.Textf("{%.0f kg}", mass), "judgement: by its rated power", "feet", "mass/"+e.Name, structure.MassUnstatedSD)
	return mass
}

// mountsOf fills in what is not said of the mounts.
func (f *Footing) mountsOf(mass float64) structure.Mount {
	e := f.engine
	field, key := "engines."+e.Name+".mounts", "mounts/"+e.Name
	m := structure.Mount{Kind: e.Mounts.Kind, Frequency: e.Mounts.NaturalFrequency(mass)}
	thrust := e.Generator == nil && e.Bridges.Shaft != "thrust bearing" && e.Bridges.Shaft != structure.None
	switch {
	case m.Kind == structure.Unstated && m.Frequency > 0:
		m.Kind = structure.Rubber
	case m.Kind == structure.Unstated && e.Generator != nil:
		m.Kind = structure.Rubber
		f.fill(field, said.Textf("rubber, {2.5 mm}"), "judgement: sets come on mounts", "mounts", key, structure.SetMountsUnstatedSD)
	case m.Kind == structure.Unstated:
		f.fill(field, said.Textf("half way between rigid feet and rubber of {2.5 mm}"), "judgement: either is common", "mounts", key, structure.MountsUnstatedSD)
	case m.Kind != structure.Rigid && m.Frequency == 0:
		f.fill(field+" deflection", said.Textf("{%.1f mm}", structure.TypicalDeflection(m.Kind)*1e3), "judgement: usual of "+string(m.Kind)+" mounts", "mounts",
			key+" deflection", structure.DeflectionUnstatedSD)
	}
	if m.Kind != structure.Rigid && m.Frequency == 0 {
		m.Frequency = structure.DeflectionFrequency(structure.TypicalDeflection(m.Kind), structure.RubberStiffening)
	}
	if m.Stiffening = structure.Stiffening(m.Kind, thrust); m.Kind == structure.Double {
		m.Second = m.Frequency
	}
	m = f.onBox(m, mass)
	f.describe(m)
	return m
}

// onBox adds the mounts of the box round an engine: a second stage, or the first where the engine is
// bolted to the box.
func (f *Footing) onBox(m structure.Mount, mass float64) structure.Mount {
	box, ok := f.layout.Enclosure(f.engine.Enclosure)
	if !ok || box.Mounts.Kind == structure.Rigid || box.Mounts == (Mounts{}) {
		return m
	}
	second := box.Mounts.NaturalFrequency(mass)
	if second == 0 {
		second = structure.DeflectionFrequency(structure.TypicalDeflection(box.Mounts.Kind), structure.RubberStiffening)
	}
	if m.Kind == structure.Rigid {
		return structure.Mount{Kind: structure.Rubber, Frequency: second, Stiffening: structure.Stiffening(structure.Soft, false)}
	}
	m.Second = second
	return m
}

func (f *Footing) describe(m structure.Mount) {
	switch m.Kind {
	case structure.Rigid:
		f.text = "rigid feet"
		return
	case structure.Unstated:
		f.text = "not stated, half way between rigid feet and rubber"
	default:
		f.text = fmt.Sprintf("%s, natural frequency %.1f Hz", m.Kind, m.Frequency)
	}
	f.mountSD = structure.MountSD(m.Frequency)
}

// bridgesOf fills in what leads past the mounts.
func (f *Footing) bridgesOf(x *Exhaust, k structure.Kind) structure.Bridges {
	e, b := f.engine, f.engine.Bridges
	var taken []string
	unstated := structure.Bridges{}
	take := func(part string, at, mark *string, value string) {
		if *at == "" {
			*at, *mark = value, value
			taken = append(taken, part+" "+value)
		}
	}
	if e.Generator != nil && b.Shaft == "" {
		b.Shaft = structure.None
	}
	take("shaft", &b.Shaft, &unstated.Shaft, "rigid")
	take("exhaust", &b.Exhaust, &unstated.Exhaust, exhaustBridge(x))
	take("pipes", &b.Pipes, &unstated.Pipes, "hose")
	if len(taken) == 0 || k == structure.Rigid || k == structure.Unstated {
		return b // rigid feet need no bridge; mounts not stated cover what bridges them
	}
	sd := spectrum.Fill(structure.BridgesUnstatedSD[0] * unstated.Share() / b.Share())
	f.fill("engines."+e.Name+".bridges", strings.Join(taken, ", "), "judgement: by the exhaust line and common practice", "bridges", "bridges/"+e.Name, sd)
	return b
}

// exhaustBridge is how an exhaust line hangs on the engine: a hose where it is wet, a bellows where it holds one.
func exhaustBridge(x *Exhaust) string {
	switch {
	case x.Line.Wet():
		return "hose"
	case x.Line.HasBellows():
		return "bellows"
	}
	return "rigid"
}

// bedOf fills in what is not stated of a bed.
func bedOf(stated, usual structure.Bed) structure.Bed {
	for _, p := range [][2]*float64{{&usual.Depth, &stated.Depth}, {&usual.Width, &stated.Width}, {&usual.Cap, &stated.Cap}} {
		if *p[1] > 0 {
			*p[0] = *p[1]
		}
	}
	return usual
}

func sourceAssumption(field, value, why string, sd spectrum.Bands) source.Assumption {
	most := 0.0
	for _, v := range sd {
		most = math.Max(most, v)
	}
	return source.Assumption{Field: field, Value: value, Source: why, PlusMinusDB: most}
}
