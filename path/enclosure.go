package path

import (
	"fmt"

	"hushwake/path/room"
	"hushwake/silencer"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// Boxed is an enclosure worked out for the engine it stands round.
type Boxed struct {
	Engine string
	Sound  room.Performance
	Air    room.Air
}

// Box works out the enclosure of an engine; ok is false when it stands in none.
func Box(b *Boat, l *Layout, e *Engine, src source.Result) (Boxed, bool, error) {
	enc, ok := l.enclosure(e.Enclosure)
	if !ok {
		return Boxed{}, false, nil
	}
	box, err := soundBox(b, enc, src.FiringFrequency)
	if err != nil {
		return Boxed{}, true, err
	}
	out := Boxed{Engine: e.Name}
	body := src.Casing.Bands
	if src.Alternator != nil {
		body = spectrum.SumBands(body, src.Alternator.Bands)
	}
	if out.Sound, err = room.Enclose(box, body); err != nil {
		return out, true, fmt.Errorf("enclosure %s: %w", enc.Name, err)
	}
	if out.Air, err = room.Ventilate(ventilation(b, enc, e, src, box.Openings)); err != nil {
		return out, true, fmt.Errorf("enclosure %s: %w", enc.Name, err)
	}
	return out, true, nil
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

// ventilation is the enclosure's air side.
func ventilation(b *Boat, enc *Enclosure, e *Engine, src source.Result, openings []room.Opening) room.Ventilation {
	air := src.EngineFlow - src.FuelFlow
	v := room.Ventilation{
		Openings: openings, OwnAirPipe: enc.OwnAirPipe, Outside: b.Air.Temperature, Pressure: b.Air.Pressure,
		Height: enc.Size[2] * 0.8,
		Heat: room.Heat{Stated: enc.Heat, Fuel: src.FuelFlow * e.HeatingValue(), Shaft: src.Duty.Power,
			Combustion: air * 287.05 * b.Air.Temperature / b.Air.Pressure},
	}
	if g := e.Generator; g != nil {
		v.Heat.Generator, v.Heat.GeneratorPower, v.Heat.WaterCooled = true, g.Power, g.WaterCooled
	}
	if enc.Fan != nil {
		v.Fan = &room.Fan{Flow: enc.Fan.Flow, Pressure: enc.Fan.Pressure}
	}
	return v
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
