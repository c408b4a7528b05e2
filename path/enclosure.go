package path

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path/room"
	"hushwake/silencer/safety"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// Boxed is an enclosure worked out for all engines that run in it.
type Boxed struct {
	Engines []string // in the order of the layout
	Sound   room.Performance
	Air     room.Air // all at rated: what decides whether they live
	Running room.Air // at their running duties

	Enclosure      *Enclosure
	Fan            *BoxFan          // nil = none that runs
	rated, running room.Ventilation // as Air and Running have it
	assumed        []string         // of its walls
	body           room.Body
}

// Soak is how it cools once its engines and its fan have stopped.
func (b Boxed) Soak() (room.Soak, error) { return b.rated.CoolDown(b.body) }

// Names are the engines in words.
func (b Boxed) Names() string { return strings.Join(b.Engines, " and ") }

// BoxFan is what the fan of a box gives off to either side of it.
type BoxFan struct {
	Power, sd spectrum.Bands // dB re 1 pW
	At        int            // the opening it stands in; -1 = none
	stated    bool
}

// occupant is a running engine with its result.
type occupant struct {
	*Engine
	*ExhaustResult
}

// Boxes works out each enclosure of a layout with what runs in it; one that holds nothing is left out.
func Boxes(b *Boat, l *Layout) ([]Boxed, error) {
	var results []ExhaustResult
	for i := range l.Engines {
		e := &l.Engines[i]
		x, ok := l.Exhaust(e.Name)
		if e.Stopped || !ok || !l.boxed() {
			continue
		}
		r, err := Full.Sources(e)
		if err != nil {
			return nil, err
		}
		running, rated := Feeds(b, r)
		if r.Running, err = x.Line.March(running, Full.Options()); err == nil {
			r.Rated, err = x.Line.March(rated, Full.Options())
		}
		if err != nil {
			return nil, fmt.Errorf("exhaust of %s: %w", e.Name, err)
		}
		results = append(results, r)
	}
	return boxes(b, l, results)
}

// boxed tells whether any engine stands in a box.
func (l *Layout) boxed() bool {
	return slices.ContainsFunc(l.Engines, func(e Engine) bool { return e.Enclosure != "" && !e.Stopped })
}

func occupants(l *Layout, results []ExhaustResult) []occupant {
	all := make([]occupant, len(results))
	for i := range results {
		e, _ := l.Engine(results[i].Engine)
		all[i] = occupant{e, &results[i]}
	}
	return all
}

func boxes(b *Boat, l *Layout, results []ExhaustResult) (out []Boxed, err error) {
	all := occupants(l, results)
	for i := range l.Enclosures {
		enc := &l.Enclosures[i]
		if !slices.ContainsFunc(all, func(o occupant) bool { return o.Enclosure == enc.Name }) {
			continue
		}
		x, err := NewBoxed(b, l, enc, results, room.Enclose)
		if err != nil {
			return nil, fmt.Errorf("enclosure %s: %w", enc.Name, err)
		}
		out = append(out, x)
	}
	return out, nil
}

// NewBoxed is one enclosure: one loss for the sound of all in it, one air path for their heat and draw.
func NewBoxed(b *Boat, l *Layout, enc *Enclosure, results []ExhaustResult, enclose func(room.Box, spectrum.Bands) (room.Performance, error)) (out Boxed, err error) {
	all := occupants(l, results)
	out.Enclosure = enc
	var bodies []spectrum.Bands
	firing := source.EngineFiring(math.Inf(1))
	for _, o := range all {
		if o.Enclosure != enc.Name {
			continue
		}
		out.Engines = append(out.Engines, o.Name)
		firing = min(firing, o.Engine.EngineFiring(o.Source.Duty.Speed))
		bodies = append(bodies, o.Source.Casing.Bands)
		if o.Source.Alternator != nil {
			bodies = append(bodies, o.Source.Alternator.Bands)
		}
	}
	box, err := soundBox(b, enc, firing)
	if err != nil {
		return out, err
	}
	if out.Sound, err = enclose(box, spectrum.SumBands(bodies...)); err != nil {
		return out, err
	}
	return out, out.breathe(boxing{b, l, enc, box, all})
}

// Enclose gives every exhaust the enclosure that its engine stands in.
func (p *Prediction) Enclose(b *Boat) error {
	all, err := boxes(b, p.Layout, p.Exhausts)
	for i := range p.Exhausts {
		for k := range all {
			if slices.Contains(all[k].Engines, p.Exhausts[i].Engine) {
				p.Exhausts[i].Box = &all[k]
			}
		}
	}
	return err
}

// soundBox is the enclosure as the room package takes it.
func soundBox(b *Boat, enc *Enclosure, firing source.EngineFiring) (room.Box, error) {
	walls := b.Materials.TransmissionLoss(enc.BuildUp)
	lining := enc.Lining
	if lining == "" {
		lining = "hard"
		if n := len(enc.BuildUp); n > 0 {
			lining = enc.BuildUp[n-1].Material
		}
	}
	alpha, _, _, ok := b.Materials.AbsorptionOf(lining, enc.Thickness)
	if !ok {
		if enc.Lining != "" {
			return room.Box{}, fmt.Errorf("no absorption is known for the lining %q\nhint: nearest is %q",
				enc.Lining, b.Materials.Nearest(enc.Lining))
		}
		alpha, _, _, _ = b.Materials.AbsorptionOf("hard", 0)
	}
	box := room.Box{Name: enc.Name, Size: enc.Size, Loss: walls.Bands, Mass: walls.SurfaceMass,
		Alpha: alpha, Lined: enc.Lining, Firing: float64(firing), Gap: enc.Gap}
	for _, o := range enc.Openings {
		box.Openings = append(box.Openings, opening(o))
	}
	if d := enc.Door; d != nil {
		box.Openings = append(box.Openings, room.Opening{Role: "leak", Area: d.Seal * d.Gap})
	}
	if heavier, ok := doubledMat(enc); ok {
		loss := b.Materials.TransmissionLoss(heavier).Bands
		box.DoubledMat = &loss
	}
	return box, nil
}

func opening(o Opening) room.Opening {
	out := room.Opening{Role: o.Role, Area: o.Area, Apart: o.Apart()}
	if d := o.Duct; d != nil {
		out.Duct = &room.Duct{Length: d.Length, Width: d.Size[0], Height: d.Size[1], Lining: d.Lining,
			Thickness: d.Thickness, Bends: d.Bends, Measured: d.Measured}
	}
	return out
}

// Apart tells whether it is stated where its mouth lies: then its sound goes a way of its own.
func (o Opening) Apart() bool { return o.Role != "leak" && (o.To != "" || o.AtStated) }

// boxFindings says what a box does to the engine in it.
func boxFindings(p *Prediction) []safety.Finding {
	var out []safety.Finding
	for _, r := range p.Exhausts {
		if r.Box == nil {
			continue
		}
		for _, v := range r.Box.Air.Verdicts {
			if v.Code == "ok" {
				continue
			}
			severity, action := safety.Warning, "give the box the inlet, outlet or fan that the enclosure report lists"
			if !v.Harms() {
				severity, action = safety.Caution, "measure the holes of the box, and the air in it after an hour"
			}
			out = append(out, safety.Finding{Code: "BOX-" + upper(v.Code), Severity: severity, Element: r.Box.Sound.Name,
				Text: r.Box.Sound.Name + ", " + v.Text, Action: action, Source: r.Box.Air.Source})
		}
		if s := r.Box.Air.FanStopped; s != nil {
			out = append(out, safety.Finding{Code: "FAN-STOPPED", Severity: "caution", Element: r.Box.Sound.Name,
				Text: s.Text, Action: "let a temperature switch stop the engine or sound an alarm when the fan fails",
				Source: "common practice, no source"})
		}
		e, _ := p.Layout.Engine(r.Engine)
		if f, ok := petrolFinding(e, r.Box.Enclosure); ok {
			out = append(out, f)
		}
		out = append(out, peopleFindings(p.Listeners, r.Box.Enclosure)...)
	}
	return out
}

// peopleFindings warns of a box that blows the air round an engine to where people are.
func peopleFindings(people []Heard, enc *Enclosure) (out []safety.Finding) {
	for _, o := range enc.Openings {
		in := func(h Heard) bool { return o.To != Outside && h.Listener.In == o.To && !h.Listener.Probe }
		if o.Role == "outlet" && slices.ContainsFunc(people, in) {
			out = append(out, safety.Finding{Code: "BOX-TO-PEOPLE", Severity: safety.Danger, Element: enc.Name,
				Text:   fmt.Sprintf("An outlet of %s blows the air round the engine into %s, where people are: a weeping joint puts carbon monoxide there.", enc.Name, o.To),
				Action: "lead it outdoors, away from openings",
				Source: "common practice, no source"})
		}
	}
	return out
}

// PipedIn tells whether the engine breathes through a pipe past its box.
func (r *ExhaustResult) PipedIn() bool { return r.Box != nil && r.Box.Enclosure.OwnAirPipe }
