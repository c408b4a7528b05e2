package enquiry

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/room"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
)

// Shield is a request for quotes on a whole box round an engine, with its cut list.
type Shield struct {
	boat     *path.Boat
	layout   *path.Layout
	enc      path.Enclosure
	box      path.Boxed // after the readings
	listener int
	spread   draws.LevelSpread
	near     [2]float64 // dB(A) before the box at 1 m and at 7 m in the open
	through  float64    // dB(A) at the listener that comes out of the box
	past     []path.Route
}

// NewShield works out what a box has to do.
func NewShield(k *readings.Known, l *path.Layout, enclosure string, listener int) (*Shield, error) {
	w := &Shield{boat: k.Boat, layout: l, listener: listener}
	p := k.At(l.Name)
	var names []string
	for _, x := range p.Exhausts {
		if x.Box == nil {
			continue
		}
		if names = append(names, x.Box.Sound.Name); x.Box.Sound.Name == enclosure {
			w.box = *x.Box
		}
	}
	for _, x := range l.Enclosures {
		if x.Name == enclosure {
			w.enc = x
		}
	}
	if w.box.Engines == nil {
		return nil, form.Unknown("enclosure in use in layout "+l.Name, enclosure, form.Unique(names))
	}
	for _, s := range k.Spread().Layouts {
		if s.Name == l.Name {
			w.spread = s.Listeners[listener]
		}
	}
	w.near = w.inTheOpen(p)
	w.part(p.Listeners[listener])
	return w, nil
}

// inTheOpen is what the box leaves at 1 m and 7 m from its walls over hard ground, with nothing round it: half a sphere.
func (w *Shield) inTheOpen(p *path.Prediction) (at [2]float64) {
	sum := spectrum.Fill(spectrum.Silent)
	for _, x := range p.Exhausts {
		if !slices.Contains(w.box.Engines, x.Engine) {
			continue
		}
		sum = spectrum.SumBands(sum, x.Source.Casing.Bands)
		if a := x.Source.Alternator; a != nil {
			sum = spectrum.SumBands(sum, a.Bands)
		}
	}
	half := math.Sqrt(w.enc.Size[0]*w.enc.Size[1]) / 2
	for i, d := range []float64{1, 7} {
		at[i] = sum.Minus(w.box.Sound.Loss).DBA() - 10*math.Log10(2*math.Pi*math.Pow(d+half, 2))
	}
	return at
}

// part parts what comes out of the box to the listener from what reaches it past the box, loudest first.
func (w *Shield) part(h path.Heard) {
	w.through = spectrum.Silent
	for _, r := range h.Routes {
		if slices.Contains(w.box.Engines, r.Engine) && (r.Way == path.ByAir || r.Way == path.ByBoxOpening) {
			w.through = spectrum.Sum(w.through, r.DBA())
		} else {
			w.past = append(w.past, r)
		}
	}
}

// Markdown writes the request and the cut list.
func (w *Shield) Markdown(u form.Units) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	s := w.enc.Size
	length := u.OnRule
	line("# Request for a quotation: sound shield round %s\n", plainText(w.box.Names()))
	line("For: %s\n", plainText(w.boat.Text))
	line("Please answer every point; an answer \"as standard\" can't be compared with other offers.\n")
	line("## What stands in it\n\n| engine | rated | running |\n|---|---|---|")
	for _, name := range w.box.Engines {
		e, _ := w.layout.Engine(name)
		d, _ := e.RunningDuty()
		line("| %s | %s at %.0f rpm | %s at %.0f rpm |", plainText(name), u.Show(e.Rated.Power, quantity.Power), e.Rated.Speed, u.Show(d.Power, quantity.Power), d.Speed)
	}
	line("\nInside: %s x %s x %s, five faces on the bed; %s of walls.\n", length(s[0]), length(s[1]), length(s[2]), u.Show(w.walls(), quantity.Area))
	line("## What it has to do\n")
	line("- Insertion loss by air, by octave band (dB, at least):\n\n%s\n", bandsMarkdown(w.box.Sound.Loss))
	w.air(line, u)
	line("## Cut list\n\n| part | size | quantity |\n|---|---|---|")
	for _, c := range w.cuts(u) {
		line("| %s | %s | %s |", c[0], c[1], c[2])
	}
	line("\n## Test after fitting\n")
	for _, t := range w.tests(u) {
		line("- %s", t)
	}
	line("\nA box hides leaks and holds heat: carbon monoxide alarms in every sleeping space, a fire port and a temperature alarm; gas, fuel and electrical work needs a licensed person. " +
		"The engine maker's limits, local codes and class rules come before this paper, which is an estimate and no approval.")
	return b.String()
}

func (w *Shield) walls() float64 {
	s := w.enc.Size
	return s[0]*s[1] + 2*s[2]*(s[0]+s[1])
}

// air is the clause on air and heat.
func (w *Shield) air(line func(string, ...any), u form.Units) {
	a := w.box.Air
	burnt := u.Show(a.CombustionAir, quantity.VolumeFlow) + " of it to burn"
	if w.enc.OwnAirPipe {
		burnt = u.Show(a.CombustionAir, quantity.VolumeFlow) + " to burn come by a pipe of their own"
	}
	line("- Air: at rated %s of heat are to be carried off, so that the air in the box is at most %s with %s outside (%s). That takes %s in from outdoors; %s. %s", u.Heat(a.Heat),
		u.Show(a.Outside+a.AllowedRise, quantity.Temperature), u.Show(a.Outside, quantity.Temperature), plainText(a.AllowedWhy), u.Show(a.Needed, quantity.VolumeFlow), burnt, w.passes(u))
	for _, v := range a.Verdicts {
		if v.Harms() {
			line("- As drawn it is **%s**: %s", v.Code, plainText(u.Local(strings.TrimPrefix(v.Text, v.Code+": "))))
		}
	}
	line("- State the loss of your panels and of your ducts by octave with the test they come from, the fan's curve and its sound power, and what of this list your price holds.\n")
}

// passes says what comes in as the box is drawn, beside what is needed.
func (w *Shield) passes(u form.Units) string {
	a := w.box.Air
	if a.Needed <= 0 {
		return "The walls carry the heat: no air has to pass."
	}
	way := fmt.Sprintf("As it is drawn, without a fan, %s pass: ", u.Show(a.Flow, quantity.VolumeFlow))
	if a.Fan != nil {
		way = fmt.Sprintf("The fan drawn gives %s at %s with the holes and ducts below: ", u.Show(a.Flow, quantity.VolumeFlow), u.Draught(a.Fan.Pressure))
	}
	if a.Flow < a.Needed {
		return way + fmt.Sprintf("%.0f %% less than is needed.", 100*(1-a.Flow/a.Needed))
	}
	way += fmt.Sprintf("%.0f %% over what is needed", 100*(a.Flow/a.Needed-1))
	if a.Inlet > a.Outside+0.5 {
		return way + fmt.Sprintf(", but it comes in at %s, not from outdoors.", u.Show(a.Inlet, quantity.Temperature))
	}
	return way + ", a margin for guards, filters and hot days."
}

// cuts lists all parts of the shield with their quantities.
func (w *Shield) cuts(u form.Units) [][3]string {
	s, name := w.enc.Size, plainText(w.enc.Name)
	length := u.OnRule
	var out [][3]string
	add := func(what, size, n string) { out = append(out, [3]string{what, size, n}) }
	for _, l := range w.enc.BuildUp {
		for _, p := range []struct {
			what string
			a, b float64
			n    int
		}{{"top", s[0], s[1], 1}, {"side", s[0], s[2], 2}, {"end", s[1], s[2], 2}} {
			add(fmt.Sprintf("%s panel, %s", name, p.what), fmt.Sprintf("%s, %s x %s inside", plainText(l.Text), length(p.a), length(p.b)), fmt.Sprint(p.n))
		}
	}
	if w.enc.Lining != "" {
		add("lining, faced against oil", length(w.enc.Thickness)+" "+plainText(w.enc.Lining), squareMetres(w.walls(), u))
	}
	out = append(out, w.airCuts(u)...)
	seal := w.seal()
	add("seal of the lid or door, closed-cell rubber", fmt.Sprintf("%s, pressed to half its height", length(0.012)), length(seal))
	add("gasket between the walls and the bed", length(0.012), length(2*(s[0]+s[1])))
	add("sealant and grommets for cables, hoses and pipes", "each hole gas-tight", "as found")
	for _, e := range w.box.Engines {
		add("mounts under "+plainText(e), mountsText(w.engine(e).Mounts, u), fmt.Sprint(max(w.engine(e).Mounts.Count, 4)))
	}
	alarm := "alarm or stop for air too hot"
	fan := w.box.Air.Fan != nil
	if fan {
		alarm += ", and for a fan that stands"
	}
	set := settings(w.box.Air)
	if fan {
		add("thermostat of the fan with its own sensor", fmt.Sprintf("on at %s, off at %s: the box works at %s with it", u.Show(set.on, quantity.Temperature), u.Show(set.off, quantity.Temperature), u.Show(set.normal, quantity.Temperature)), "1")
	}
	at := "at " + u.Show(set.alarm, quantity.Temperature)
	if set.alarm <= set.normal {
		at += fmt.Sprintf(", the limit: as drawn the box works at %s, it must be cooled better first", u.Show(set.normal, quantity.Temperature))
	}
	add(alarm, at, "1")
	add("fire port for the nozzle of an extinguisher, closed by a flap", length(0.025), "1")
	return out
}

// airCuts are ducts, holes and fan.
func (w *Shield) airCuts(u form.Units) (out [][3]string) {
	length := u.OnRule
	for _, o := range w.enc.Openings {
		if o.Role == "leak" {
			continue
		}
		to := ""
		if o.To != "" {
			to = ", to " + plainText(o.To)
		}
		d := o.Duct
		if d == nil {
			out = append(out, [3]string{o.Role + " with guard" + to, u.Show(o.Area, quantity.Area) + " clear", "1"})
			continue
		}
		lining := "bare"
		if d.Thickness > 0 {
			lining = length(d.Thickness) + " " + plainText(d.Lining)
		}
		out = append(out, [3]string{o.Role + " duct" + to, fmt.Sprintf("%s x %s clear, %s", length(d.Size[0]), length(d.Size[1]), lining), fmt.Sprintf("%s, bends: %d", length(d.Length), d.Bends)})
	}
	if p := w.enc.AirPipe; p != nil {
		out = append(out, [3]string{"air pipe of the engine, past the box", length(p.Bore) + " bore, smooth, oil-proof", fmt.Sprintf("%s, bends: %d", length(p.Length), p.Bends)})
	} else if w.enc.OwnAirPipe {
		out = append(out, [3]string{"air pipe of the engine, past the box", "as wide as the engine's own intake", "1"})
	}
	if f := w.box.Air.Fan; f != nil {
		out = append(out, [3]string{"fan, ignition-protected where petrol is near", fmt.Sprintf("%s at %s where it works here", u.Show(f.Flow, quantity.VolumeFlow), u.Draught(f.Pressure)), "1"})
	} else if a := w.box.Air; a.Flow < a.Needed {
		out = append(out, [3]string{"fan, ignition-protected where petrol is near", fmt.Sprintf("none is drawn; or holes that pass %s by draught", u.Show(a.Needed, quantity.VolumeFlow)), "by the maker"})
	}
	return out
}

// switches are the temperatures in K at which the fan of a box goes off and on, that of the box at rated, and that of the alarm.
type switches struct{ off, on, normal, alarm float64 }

// settings has the fan on half way from outside to where the box works with it, so that it does not hunt, off half way from there
// back, and the alarm half way from there to the limit; at the limit where the box works over it (judgement).
func settings(a room.Air) switches {
	limit := a.Outside + a.AllowedRise
	s := switches{normal: a.Outside + a.Rise, alarm: limit}
	cool := math.Min(a.Rise, a.AllowedRise)
	s.on, s.off = a.Outside+cool/2, a.Outside+cool/4
	if s.normal < limit {
		s.alarm = (s.normal + limit) / 2
	}
	return s
}

// seal is the length of the lid's seal: as stated, else round the top.
func (w *Shield) seal() float64 {
	if w.enc.Door != nil {
		return w.enc.Door.Seal
	}
	return 2 * (w.enc.Size[0] + w.enc.Size[1])
}

func (w *Shield) engine(name string) *path.Engine {
	e, _ := w.layout.Engine(name)
	return e
}

func mountsText(m path.Mounts, u form.Units) string {
	switch {
	case m.Kind == "" && m.Deflection == 0 && m.Frequency == 0 && m.Stiffness == 0:
		return "not stated: soft, " + u.OnRule(0.005) + " under the engine's weight, with hoses and exhaust flexible"
	case m.Deflection > 0:
		return fmt.Sprintf("%s, %s under its weight", m.Kind, u.OnRule(m.Deflection))
	}
	return string(m.Kind)
}

// tests are what the shield is held to: at 1 m and 7 m by its own sound, and where people are.
func (w *Shield) tests(u form.Units) []string {
	meter := math.Hypot((w.spread.High-w.spread.Low)/2, 2)
	a := w.box.Air
	seat := plainText(w.boat.Listeners[w.listener].Name)
	return []string{
		fmt.Sprintf("At the running duty, %s from each face of the box, on hard ground in the open or in the boat with its lid open and shut: the drop of the level is at least %.0f dB(A), or the octaves above within 3 dB. In the open we expect %.0f dB(A) there.", metresOff(1, u), spectrum.Whole(w.box.Sound.DBA), spectrum.Whole(w.near[0])),
		fmt.Sprintf("%s from it in the open, the distance that sets are sold by: we expect %.0f dB(A) of its own sound, without exhaust and air intake.", metresOff(7, u), spectrum.Whole(w.near[1])),
		fmt.Sprintf("At %s, same meter, seat, load, doors and weather before and after: we expect %.0f dB(A), within %.0f dB of it.%s", seat, spectrum.Whole(w.spread.Level), meter, w.others(seat)),
		fmt.Sprintf("One hour at rated: the air in the box at most %s with %s outside; after stopping the lid stays shut until it may be touched.", u.Show(a.Outside+a.AllowedRise, quantity.Temperature), u.Show(a.Outside, quantity.Temperature)),
		"Levels in cabins are told as the standards of comfort tell them: equivalent A-weighted level over 30 s or more in whole decibels, at the running duty, doors shut (ISO 2923, from memory); a comfort class is its surveyor's to give, not the maker's.",
	}
}

// others says what of the level at a seat is not the shield's.
func (w *Shield) others(seat string) string {
	if len(w.past) == 0 {
		return ""
	}
	sum := spectrum.Silent
	for _, r := range w.past {
		sum = spectrum.Sum(sum, r.DBA())
	}
	out := fmt.Sprintf(" Out of the box come %.0f dB(A) of it; %.0f dB(A) come to %s past the box, whoever builds it, the most by %s, %s.", spectrum.Whole(w.through), spectrum.Whole(sum), seat, plainText(w.past[0].Source), plainText(strings.ReplaceAll(w.past[0].Route, " > ", ", ")))
	if l := w.boat.Listeners[w.listener].Limit; l != nil && sum > *l {
		out += fmt.Sprintf(" The %.0f dB(A) wanted there are not the shield's to keep before that is quieter.", *l)
	}
	return out
}
