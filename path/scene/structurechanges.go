package scene

import (
	"fmt"
	"math"
	"slices"

	"hushwake/path"
	"hushwake/path/structure"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// Help is what one change would do to what an engine sends through mounts and hull to a seat, in dB;
// below zero is quieter.
type Help struct {
	Engine, Change     string
	Part               string // mounts | shaft | exhaust | hull | lining
	RouteDBA, RouteDBC float64
	SeatDBA, SeatDBC   float64
}

// StructureBorne is the route of one engine through mounts and hull to a seat, with what would help.
type StructureBorne struct {
	Engine string
	Level  spectrum.Bands
	Helps  []Help
	Text   string // the one sentence that decides
}

// change is one alteration: of a layout's engine and of the space heard in.
type change struct {
	part, text string
	fits       func(f *path.Footing, in *path.Space) bool
	do         func(e *path.Engine, in *path.Space)
}

// softDeflection is that of the soft mounts that are tried, m.
const softDeflection = 6e-3

// changes are the single alterations that are tried.
var changes = []change{
	{"mounts", "rigid feet, if that is what there is", func(f *path.Footing, _ *path.Space) bool { return f.Feet.Mount.Kind == structure.Unstated },
		func(e *path.Engine, _ *path.Space) {
			e.Mounts = path.Mounts{Kind: structure.Rigid, Count: e.Mounts.Count}
		}},
	{"mounts", said.Textf("rubber mounts ({2.5 mm})"), func(f *path.Footing, _ *path.Space) bool {
		return f.Feet.Mount.Kind == structure.Unstated || f.Feet.Mount.Kind == structure.Rigid
	}, func(e *path.Engine, _ *path.Space) {
		e.Mounts = path.Mounts{Kind: structure.Rubber, Deflection: 2.5e-3, Count: e.Mounts.Count}
	}},
	{"mounts", said.Textf("softer mounts ({6 mm})"), func(f *path.Footing, _ *path.Space) bool {
		m := f.Feet.Mount
		return m.Kind == structure.Unstated || m.Kind == structure.Rigid || m.Frequency > 1.1*structure.DeflectionFrequency(softDeflection, structure.RubberStiffening)
	}, func(e *path.Engine, _ *path.Space) {
		kind := e.Mounts.Kind
		if kind == structure.Unstated || kind == structure.Rigid {
			kind = structure.Soft
		}
		e.Mounts = path.Mounts{Kind: kind, Deflection: softDeflection, Count: e.Mounts.Count}
	}},
	{"shaft", "a flexible coupling", func(f *path.Footing, _ *path.Space) bool { return f.BridgedBy("shaft", "rigid") },
		func(e *path.Engine, _ *path.Space) { e.Bridges.Shaft = "flexible coupling" }},
	{"shaft", "a thrust bearing and jointed shaft", func(f *path.Footing, _ *path.Space) bool {
		return f.BridgedBy("shaft", "rigid") || f.BridgedBy("shaft", "flexible coupling")
	}, func(e *path.Engine, _ *path.Space) { e.Bridges.Shaft = "thrust bearing" }},
	{"exhaust", "bellows and soft hangers for the exhaust", func(f *path.Footing, _ *path.Space) bool { return f.BridgedBy("exhaust", "rigid") },
		func(e *path.Engine, _ *path.Space) { e.Bridges.Exhaust = "bellows" }},
	{"pipes", "hoses and looped cables", func(f *path.Footing, _ *path.Space) bool { return f.BridgedBy("pipes", "rigid") },
		func(e *path.Engine, _ *path.Space) { e.Bridges.Pipes = "hose" }},
	{"hull", "a damping layer on the plates here", func(f *path.Footing, in *path.Space) bool { return !in.Plating.Damped },
		func(_ *path.Engine, in *path.Space) { in.Plating.Damped = true }},
	{"lining", "a floating floor here", func(f *path.Footing, in *path.Space) bool {
		return in.Plating.Floating == "" || in.Plating.Floating == structure.NotFloating
	}, func(_ *path.Engine, in *path.Space) { in.Plating.Floating = structure.FloatFloor }},
	{"lining", "floating floor and walls here", func(f *path.Footing, in *path.Space) bool { return in.Plating.Floating != structure.FloatAll },
		func(_ *path.Engine, in *path.Space) { in.Plating.Floating = structure.FloatAll }},
}

// StructureAt works out what each running engine sends through mounts and hull to a listener, and what
// single changes would do. It is empty outdoors.
func StructureAt(b *path.Boat, p *path.Prediction, h *path.Heard) (out []StructureBorne, err error) {
	for i := range p.Exhausts {
		r := &p.Exhausts[i]
		now, f, ok, err := structureWith(b, p.Layout, r, h.Listener, nil)
		if err != nil {
			return nil, err
		}
		if !ok {
			continue
		}
		heard := now // the route as the seat hears it, which readings may have moved
		for _, way := range h.Routes {
			if way.Engine == r.Engine && way.Way == path.ByStructure {
				heard = way.Bands
			}
		}
		move := heard.Minus(now)
		now = heard
		s := StructureBorne{Engine: r.Engine, Level: now}
		in, _ := p.Layout.Space(h.Listener.In)
		for _, c := range changes {
			if !c.fits(f, in) {
				continue
			}
			then, _, _, err := structureWith(b, p.Layout, r, h.Listener, c.do)
			if err != nil {
				return nil, err
			}
			then = then.Plus(move)
			seat := exchanged(h.Bands, now, then)
			s.Helps = append(s.Helps, Help{Engine: r.Engine, Change: c.text, Part: c.part,
				RouteDBA: then.DBA() - now.DBA(), RouteDBC: then.DBC() - now.DBC(),
				SeatDBA: seat.DBA() - h.Bands.DBA(), SeatDBC: seat.DBC() - h.Bands.DBC()})
		}
		if s.Text = s.decides(f); s.Text != "" && s.seatGain() < unheard {
			s.Text += fmt.Sprintf("; nobody hears that at %s, where other ways are louder", h.Listener.Name)
		}
		out = append(out, s)
	}
	return out, nil
}

// structureWith is the level of the route with a change made to copies of engine and space.
func structureWith(b *path.Boat, l *path.Layout, r *path.ExhaustResult, ear path.Listener, do func(*path.Engine, *path.Space)) (spectrum.Bands, *path.Footing, bool, error) {
	with := *l
	with.Engines, with.Spaces = slices.Clone(l.Engines), slices.Clone(l.Spaces)
	e, _ := with.Engine(r.Engine)
	in, aboard := with.Space(ear.In)
	if !aboard {
		return spectrum.Bands{}, nil, false, nil
	}
	if do != nil {
		do(e, in)
	}
	s, err := newScene(b, &with)
	if err != nil {
		return spectrum.Bands{}, nil, false, err
	}
	x, _ := with.Exhaust(r.Engine)
	f, err := path.Foot(b, &with, e, x, r)
	if err != nil {
		return spectrum.Bands{}, nil, false, err
	}
	s.feet[casingOf(e.Name)] = f
	em := newEmitter(casingOf(e.Name), "casing", e.In, e.At, partStep("casing sound power", "casing level", e, r.Source.Casing, e.CasingLevel != nil))
	route, ok := s.structure(&em, ear)
	return route.Bands, f, ok, nil
}

// exchanged takes one route's energy out of a level and puts another's in.
func exchanged(all, was, is spectrum.Bands) spectrum.Bands {
	for i := range all {
		rest := math.Max(0, spectrum.Power(all[i])-spectrum.Power(was[i]))
		all[i] = spectrum.Level(rest + spectrum.Power(is[i]))
	}
	return all
}

// decides says in one sentence what rules the route, from what the changes bring.
func (s *StructureBorne) decides(f *path.Footing) string {
	if f.Feet.Mount.Kind == structure.Rigid {
		if rubber, ok := s.best("mounts"); ok {
			return fmt.Sprintf("the feet are bolted down: %s bring %s through mounts and hull", rubber.Change, dBA(rubber))
		}
		return ""
	}
	part := f.Feet.Bridges.Largest()
	mounts, soft := s.best("mounts")
	bridge, bridged := s.first(part)
	switch {
	case soft && bridged && bridge.RouteDBA < mounts.RouteDBA:
		return fmt.Sprintf("the %s bridges the mounts: %s bring %s, %s %s", part, mounts.Change, dBA(mounts), bridge.Change, dBA(bridge))
	case soft && bridged:
		return fmt.Sprintf("the mounts rule: %s bring %s, %s %s", mounts.Change, dBA(mounts), bridge.Change, dBA(bridge))
	case soft:
		return fmt.Sprintf("%s bring %s through mounts and hull, which little bridges", mounts.Change, dBA(mounts))
	case bridged:
		return fmt.Sprintf("the %s bridges the mounts: %s brings %s", part, bridge.Change, dBA(bridge))
	}
	return ""
}

// unheard is by how much a seat may fall before anybody hears it, dB(A) (common practice).
const unheard = 1.0

// seatGain is the most that one change takes off at the seat, dB(A).
func (s *StructureBorne) seatGain() (most float64) {
	for _, h := range s.Helps {
		most = math.Max(most, -h.SeatDBA)
	}
	return most
}

func dBA(h Help) string { return fmt.Sprintf("%.1f dB(A)", math.Max(0, -h.RouteDBA)) }

// best is the change to a part that brings most.
func (s *StructureBorne) best(part string) (best Help, ok bool) {
	for _, h := range s.Helps {
		if h.Part == part && (!ok || h.RouteDBA < best.RouteDBA) {
			best, ok = h, true
		}
	}
	return best, ok
}

// first is the first change to a part.
func (s *StructureBorne) first(part string) (Help, bool) {
	for _, h := range s.Helps {
		if h.Part == part {
			return h, true
		}
	}
	return Help{}, false
}
