package path

import (
	"fmt"
	"hash/fnv"
	"math"

	"hushwake/path/room"
	"hushwake/path/structure"
	"hushwake/silencer/safety"
	"hushwake/source"
)

// What the air in a box may reach, and what a stopped engine begins with.
const (
	casingLimit  = 273.15 + 60  // K where neither engine nor alternator takes the air of the box: hoses, cables, electronics (judgement)
	waterStopped = 273.15 + 90  // K of an engine cooled by water as it stops, by its thermostat (judgement)
	airStopped   = 273.15 + 120 // K of one cooled by air (judgement)
)

// boxing is an enclosure with all that bears on its air.
type boxing struct {
	boat   *Boat
	layout *Layout
	enc    *Enclosure
	box    room.Box
	all    []occupant // of the layout
}

// breathe works out the air of a box at rated and at running, its fan, and how it cools once it stops.
func (out *Boxed) breathe(x boxing) (err error) {
	if out.rated, out.assumed, err = x.ventilation(true); err != nil {
		return err
	}
	if out.running, _, err = x.ventilation(false); err != nil {
		return err
	}
	if err := out.ventilate(room.Correction{Heat: 1, Flow: 1, Rise: 1}); err != nil {
		return err
	}
	if fan := out.running.Fan; fan != nil {
		f := &BoxFan{At: x.fanAt(), stated: fan.SoundPower > 0}
		f.Power, f.sd = fan.Sound(out.Running.Flow)
		out.Fan = f
	}
	out.body = x.body()
	return nil
}

func (out *Boxed) ventilate(c room.Correction) (err error) {
	if out.Air, err = out.rated.Corrected(c); err != nil {
		return err
	}
	if out.Running, err = out.running.Corrected(c); err != nil {
		return err
	}
	out.Air.Beside(out.Running)
	out.Air.Warnings = append(out.Air.Warnings, out.assumed...)
	return nil
}

// fanAt is the opening that the fan stands in: the first outlet, else the first inlet; -1 = none.
func (x boxing) fanAt() int {
	at := -1
	for i, o := range x.enc.Openings {
		if o.Role == "outlet" {
			return i
		}
		if o.Role == "inlet" && at < 0 {
			at = i
		}
	}
	return at
}

// body is the warm mass of all engines in the box as they stop.
func (x boxing) body() (b room.Body) {
	for _, o := range x.all {
		if o.Enclosure == x.enc.Name {
			mass := o.weighs()
			b.Mass, b.Area, b.Temperature = b.Mass+mass, b.Area+structure.CasingArea(mass), math.Max(b.Temperature, waterStopped)
			if o.AirCooled {
				b.Temperature = airStopped
			}
		}
	}
	return b
}

// ventilation is the enclosure's air side at rated or running, with what was assumed for its walls.
func (x boxing) ventilation(rated bool) (room.Ventilation, []string, error) {
	b, enc := x.boat, x.enc
	lined := enc.BuildUp
	if layer, ok := b.Materials.Lining(enc.Lining, enc.Thickness); ok {
		lined = append(lined[:len(lined):len(lined)], layer)
	}
	u, assumed := b.Materials.Transmittance(lined)
	v := room.Ventilation{
		Openings: append([]room.Opening(nil), x.box.Openings...), OwnAirPipe: enc.OwnAirPipe, Outside: b.Air.Temperature, Pressure: b.Air.Pressure,
		Height: x.height(), Walls: u * x.box.Area(), Heat: x.heat(rated),
		AirPipe: enc.AirPipe, HolesUnknown: enc.HolesUnknown,
	}
	if f := enc.Fan; f != nil && !f.Stopped {
		v.Fan = &f.Fan
	}
	var err error
	v.AllowedRise, v.AllowedWhy, err = x.allowed()
	x.surround(&v, rated)
	return v, assumed, err
}

// allowed is by how much the air in the box may be over the outside, K, and why.
func (x boxing) allowed() (rise float64, why string, err error) {
	limit, outside := x.enc.Limit, x.boat.Air.Temperature
	why = "as stated"
	if limit == 0 {
		if x.takesAir() {
			return room.DefaultRise, "engine or alternator takes the air of the box (common practice)", nil
		}
		limit, why = casingLimit, "neither engine nor alternator takes the air of the box: hoses, cables, electronics (judgement)"
	}
	if limit <= outside {
		return 0, "", fmt.Errorf("air in the box is to stay under %.0f °C, the air outside is at %.0f °C\nhint: raise its limit or lower weather air", limit-273.15, outside-273.15)
	}
	return limit - outside, why, nil
}

// takesAir tells whether an engine in the box breathes or cools itself with its air.
func (x boxing) takesAir() bool {
	for _, o := range x.all {
		if o.Enclosure == x.enc.Name && (!x.enc.OwnAirPipe || o.AirCooled || o.Generator != nil && !o.Generator.WaterCooled) {
			return true
		}
	}
	return false
}

// heat is what each engine in the box gives to its air. A stated heat is that of all at rated; at running it falls as
// what is reckoned does.
func (x boxing) heat(rated bool) (all []room.Heat) {
	full, now := 0.0, 0.0
	for _, o := range x.all {
		if o.Enclosure != x.enc.Name {
			continue
		}
		h := o.heat(x.boat, x.enc.Name, rated)
		at, _ := o.heat(x.boat, x.enc.Name, true).Load()
		is, _ := h.Load()
		full, now = full+at, now+is
		all = append(all, h)
	}
	if x.enc.Heat > 0 {
		for i := range all {
			all[i] = room.Heat{Combustion: all[i].Combustion}
		}
		all[0].Stated = x.enc.Heat * (now / full)
	}
	return all
}

// heat is what one engine gives to the air round it and draws from it, with the parts of its exhaust in a place.
func (o occupant) heat(b *Boat, place string, rated bool) room.Heat {
	s, march := o.Source, &o.Running
	if rated {
		s, march = o.RatedSource, &o.ExhaustResult.Rated
	}
	air := float64(s.EngineFlow - s.FuelFlow)
	h := room.Heat{Fuel: float64(s.FuelFlow) * o.HeatingValue(), Shaft: s.Duty.Power, AirCooled: o.AirCooled,
		Combustion: air * 287.05 * b.Air.Temperature / b.Air.Pressure, Exhaust: heatTo(o.Engine, march, s.Pipes)[place]}
	if g := o.Generator; g != nil {
		h.Generator, h.WaterCooled = true, g.WaterCooled
		if g.Power > 0 { // at part load the efficiency of rated (judgement)
			h.GeneratorPower = g.Power * s.Duty.Power / o.RatedSource.Duty.Power
		}
	}
	return h
}

// height is from where air comes into the box to where it leaves by its outlets, m.
func (x boxing) height() float64 {
	within := x.enc.Size[2] * 0.8 // from a low inlet to a high outlet
	bottom, known := 0.0, false
	for _, o := range x.all {
		if o.Enclosure == x.enc.Name && o.AtStated {
			bottom, known = o.At[2]-within/2, true
		}
	}
	sum, n := 0.0, 0.0
	for _, o := range x.enc.Openings {
		if o.Role == "outlet" && o.AtStated {
			sum, n = sum+o.At[2], n+1
		}
	}
	if n == 0 || !known {
		return within
	}
	if h := sum/n - bottom; h != 0 {
		return h
	}
	return -1e-9 // level mouths give no draught
}

// surround says which rooms the box breathes with, where a mouth is stated; else it is as if it stood in the open.
func (x boxing) surround(v *room.Ventilation, rated bool) {
	rooms := map[string]*room.Space{}
	at := func(name string) *room.Space {
		sp, ok := x.layout.Space(name)
		if !ok {
			return nil
		}
		if rooms[name] == nil {
			rooms[name] = x.airOf(sp, rated)
		}
		return rooms[name]
	}
	stands := ""
	for _, o := range x.all {
		if o.Enclosure == x.enc.Name {
			stands = o.In
		}
	}
	stated := false
	for _, o := range x.enc.Openings {
		stated = stated || o.To != ""
	}
	if !stated {
		return
	}
	v.In = at(stands)
	for i, o := range x.enc.Openings {
		if v.Openings[i].Mouth = v.In; o.To != "" {
			v.Openings[i].Mouth = at(o.To)
		}
	}
}

// airOf is a space as a body of air: what it passes to the open, and what is given off in it beside the box.
func (x boxing) airOf(sp *Space, rated bool) *room.Space {
	s := &room.Space{Name: sp.Name, Height: sp.Size[2] * 0.8}
	for i := range x.layout.Partitions {
		p := &x.layout.Partitions[i]
		far, ok := p.Other(sp.Name)
		if !ok {
			continue
		}
		s.Open += p.OpenArea
		if far == Outside {
			u, _ := x.boat.Materials.Transmittance(p.BuildUp)
			s.Walls += u * math.Max(0, p.Area-p.OpenArea)
		}
	}
	for _, o := range x.all {
		h := o.heat(x.boat, sp.Name, rated)
		if o.Enclosure == "" && o.In == sp.Name {
			w, _ := h.Load()
			s.Heat += w
		} else {
			s.Heat += h.Exhaust
		}
	}
	return s
}

// Doubts of the air in a box, relative (judgement): a reckoned heat by the 6 to 10 % of the fuel's that the trade tells, one
// that is stated, and the flow by openings and fan.
const (
	reckonedHeatSD = 0.25
	statedHeatSD   = 0.10
	boxFlowSD      = 0.15
)

// Temperature is that of the air in the box at the running duty, K, with the doubts of its rise over the outside, before
// that is bent: heat in full, flow by the share of the heat that it carries off; a cause that warms is over 0.
func (b Boxed) Temperature() (kelvin float64, doubts []PressureTerm) {
	a := b.Running
	heat, key := reckonedHeatSD, "box heat/"+b.Enclosure.Name
	if b.Enclosure.Heat > 0 {
		heat, key = statedHeatSD, fmt.Sprintf("%s/%016x", key, math.Float64bits(b.Enclosure.Heat))
	}
	byAir := 1.0
	if a.Heat > 0 {
		byAir = math.Max(0, 1-a.Walls*a.Rise/a.Heat)
	}
	return a.Outside + a.Rise, []PressureTerm{
		{Term: "box heat", Key: key, SD: heat, Source: "judgement: 6 to 10 % of the fuel's heat is usual; 10 % where stated"},
		{Term: "box air", Key: b.airKey(), SD: boxFlowSD * byAir, Source: "judgement: losses of openings and ducts, fan as built in"},
	}
}

// airKey is shared by boxes with the same openings and fan: what one hole leaks says nothing of another, nor of a fan.
func (b Boxed) airKey() string {
	h := fnv.New64a()
	for _, o := range b.running.Openings {
		fmt.Fprint(h, o.Role, o.Area, o.Head(), ";")
	}
	if f := b.running.Fan; f != nil {
		fmt.Fprintf(h, "%+v", *f)
	}
	return fmt.Sprintf("box air/%s/%016x", b.Enclosure.Name, h.Sum64())
}

// SameAir tells whether two boxes have the same heat and flow, and so one temperature.
func (b Boxed) SameAir(o Boxed) bool {
	return b.Air.Rise == o.Air.Rise && b.Running.Rise == o.Running.Rise && b.Air.Heat == o.Air.Heat && b.Enclosure.Name == o.Enclosure.Name && b.airKey() == o.airKey()
}

// Moved is the box with its doubts moved: heat and air by so many deviations, the logarithm of its rise over the outside by
// so much in all. Its sound stays, that of its fan too.
func (b Boxed) Moved(heat, air, rise float64) (Boxed, error) {
	_, doubts := b.Temperature()
	err := b.ventilate(room.Correction{Heat: math.Exp(doubts[0].SD * heat), Flow: math.Exp(-boxFlowSD * air), Rise: math.Exp(rise)})
	return b, err
}

// MayReach is what the air in the box may reach, K, and whether that is stated in the file.
func (b Boxed) MayReach() (kelvin float64, stated bool) {
	return b.Air.Outside + b.Air.AllowedRise, b.Enclosure.Limit > 0
}

// petrolFinding refuses a box round a petrol engine that is not vented as the rules want it.
func petrolFinding(e *Engine, enc *Enclosure) (safety.Finding, bool) {
	in, out := false, false
	for _, o := range enc.Openings {
		in, out = in || o.Role == "inlet", out || o.Role == "outlet"
	}
	if f := enc.Fan; e.Fuel != source.Petrol || in && out && f != nil && !f.Stopped && f.IgnitionProof {
		return safety.Finding{}, false
	}
	return safety.Finding{Code: "BOX-PETROL", Severity: safety.Danger, Element: enc.Name, Refuse: true,
		Text:   fmt.Sprintf("A box round %s, a petrol engine, holds explosive vapour: it needs an inlet, an outlet low down and a powered fan protected against ignition, and everything electrical in it likewise.", e.Name),
		Action: "state 'fan: {..., ignition_protected: yes}' with an inlet and an outlet once they are there; run it before starting; or keep a petrol engine out of a box",
		Source: "33 CFR 183 subparts I and K (ignition protection, ventilation); ISO 11105 (ventilation of petrol engine compartments), ISO 8846 (ignition protection); ABYC H-2; from memory"}, true
}
