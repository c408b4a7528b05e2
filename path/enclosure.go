package path

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path/room"
	"hushwake/silencer"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// Boxed is an enclosure worked out for all engines that run in it.
type Boxed struct {
	Engines []string // in the order of the layout
	Sound   room.Performance
	Air     room.Air
}

// Names are the engines in words.
func (b Boxed) Names() string { return strings.Join(b.Engines, " and ") }

// Occupant is a running engine with its result.
type Occupant struct {
	Engine *Engine
	Source source.Result
}

// Boxes works out each enclosure of a layout with what runs in it; one that holds nothing is left out.
func Boxes(b *Boat, l *Layout, running []Occupant) (out []Boxed, err error) {
	for i := range l.Enclosures {
		var in []Occupant
		for _, o := range running {
			if o.Engine.Enclosure == l.Enclosures[i].Name {
				in = append(in, o)
			}
		}
		if len(in) == 0 {
			continue
		}
		x, err := boxed(b, &l.Enclosures[i], in)
		if err != nil {
			return nil, err
		}
		out = append(out, x)
	}
	return out, nil
}

// boxed is one enclosure: one loss for the sound of all in it, one air path for their heat and draw.
func boxed(b *Boat, enc *Enclosure, in []Occupant) (out Boxed, err error) {
	var bodies []spectrum.Bands
	firing := in[0].Source.FiringFrequency
	for _, o := range in {
		out.Engines = append(out.Engines, o.Engine.Name)
		firing = math.Min(firing, o.Source.FiringFrequency)
		bodies = append(bodies, o.Source.Casing.Bands)
		if o.Source.Alternator != nil {
			bodies = append(bodies, o.Source.Alternator.Bands)
		}
	}
	box, err := soundBox(b, enc, firing)
	if err != nil {
		return out, err
	}
	if out.Sound, err = room.Enclose(box, spectrum.SumBands(bodies...)); err != nil {
		return out, fmt.Errorf("enclosure %s: %w", enc.Name, err)
	}
	v, assumed := ventilation(b, enc, in, box)
	if out.Air, err = room.Ventilate(v); err != nil {
		return out, fmt.Errorf("enclosure %s: %w", enc.Name, err)
	}
	out.Air.Warnings = append(out.Air.Warnings, assumed...)
	return out, nil
}

// box gives every exhaust the enclosure that its engine stands in.
func (p *Prediction) box(b *Boat) error {
	var running []Occupant
	for _, r := range p.Exhausts {
		e, _ := p.Layout.Engine(r.Engine)
		running = append(running, Occupant{e, r.Source})
	}
	boxes, err := Boxes(b, p.Layout, running)
	for i := range p.Exhausts {
		for k := range boxes {
			if slices.Contains(boxes[k].Engines, p.Exhausts[i].Engine) {
				p.Exhausts[i].Box = &boxes[k]
			}
		}
	}
	return err
}

// soundBox is the enclosure as the room package takes it.
func soundBox(b *Boat, enc *Enclosure, firing float64) (room.Box, error) {
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
			return room.Box{}, fmt.Errorf("enclosure %s: no absorption is known for the lining %q\nhint: nearest is %q",
				enc.Name, enc.Lining, b.Materials.Nearest(enc.Lining))
		}
		alpha, _, _, _ = b.Materials.AbsorptionOf("hard", 0)
	}
	box := room.Box{Name: enc.Name, Size: enc.Size, Loss: walls.Bands, Mass: walls.SurfaceMass,
		Alpha: alpha, Lined: enc.Lining, Firing: firing}
	for _, o := range enc.Openings {
		box.Openings = append(box.Openings, opening(o))
	}
	if heavier, ok := doubledMat(enc); ok {
		loss := b.Materials.TransmissionLoss(heavier).Bands
		box.DoubledMat = &loss
	}
	return box, nil
}

func opening(o Opening) room.Opening {
	out := room.Opening{Role: o.Role, Area: o.Area}
	if d := o.Duct; d != nil {
		out.Duct = &room.Duct{Length: d.Length, Width: d.Size[0], Height: d.Size[1], Lining: d.Lining,
			Thickness: d.Thickness, Bends: d.Bends}
	}
	return out
}

// ventilation is the enclosure's air side, with what was assumed for its walls. A stated heat is that of all in it.
func ventilation(b *Boat, enc *Enclosure, in []Occupant, box room.Box) (room.Ventilation, []string) {
	lined := enc.BuildUp
	if layer, ok := b.Materials.Lining(enc.Lining, enc.Thickness); ok {
		lined = append(lined[:len(lined):len(lined)], layer)
	}
	u, assumed := b.Materials.Transmittance(lined)
	v := room.Ventilation{
		Openings: box.Openings, OwnAirPipe: enc.OwnAirPipe, Outside: b.Air.Temperature, Pressure: b.Air.Pressure,
		Height: enc.Size[2] * 0.8, Walls: u * box.Area(),
	}
	for i, o := range in {
		h := heatOf(b, o)
		if enc.Heat > 0 {
			h = room.Heat{Combustion: h.Combustion}
			if i == 0 {
				h.Stated = enc.Heat
			}
		}
		v.Heat = append(v.Heat, h)
	}
	if enc.Fan != nil {
		v.Fan = &room.Fan{Flow: enc.Fan.Flow, Pressure: enc.Fan.Pressure}
	}
	return v, assumed
}

// heatOf is what one engine gives to the air round it and draws from it.
func heatOf(b *Boat, o Occupant) room.Heat {
	e, src := o.Engine, o.Source
	air := src.EngineFlow - src.FuelFlow
	h := room.Heat{Fuel: src.FuelFlow * e.HeatingValue(), Shaft: src.Duty.Power,
		Combustion: air * 287.05 * b.Air.Temperature / b.Air.Pressure}
	if g := e.Generator; g != nil {
		h.Generator, h.GeneratorPower, h.WaterCooled = true, g.Power, g.WaterCooled
	}
	return h
}

// enclosureStep is what the box round an engine takes off; nil when it stands in none.
func (s *scene) enclosureStep(r *ExhaustResult) *Step {
	if r.Box == nil {
		return nil
	}
	p := r.Box.Sound
	return &Step{Name: "enclosure " + p.Name, Formula: p.Formula, Source: p.Source, Mark: p.Mark,
		Bands: spectrum.Bands{}.Minus(p.Loss),
		Uncertain: []Uncertain{{Term: "panel", Key: "enclosure/" + p.Name, SD: p.SD,
			Source: "judgement: small boxes as built measure " + fmt.Sprintf("%.0f to %.0f dB(A)", p.Measured[0], p.Measured[1])}}}
}

// boxFindings says what a box does to the engine in it.
func boxFindings(p *Prediction) []silencer.Finding {
	var out []silencer.Finding
	for _, r := range p.Exhausts {
		if r.Box == nil {
			continue
		}
		for _, v := range r.Box.Air.Verdicts {
			if v.Code == "ok" {
				continue
			}
			out = append(out, silencer.Finding{Code: "BOX-" + upper(v.Code), Severity: "warning", Element: r.Box.Sound.Name,
				Text: v.Text, Action: "give the box the inlet, outlet or fan that the enclosure report lists",
				Source: r.Box.Air.Source})
		}
		if s := r.Box.Air.FanStopped; s != nil {
			out = append(out, silencer.Finding{Code: "FAN-STOPPED", Severity: "caution", Element: r.Box.Sound.Name,
				Text: s.Text, Action: "let a temperature switch stop the engine or sound an alarm when the fan fails",
				Source: "common practice, no source"})
		}
	}
	return out
}
