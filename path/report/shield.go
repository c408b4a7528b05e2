package report

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/report/form"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
)

// Shield is a request for quotes on a whole box round an engine, with its cut list.
type Shield struct {
	boat     *path.Boat
	layout   *path.Layout
	enc      path.Enclosure
	box      path.Boxed
	listener int
	spread   draws.LevelSpread
	near     [2]float64 // dB(A) before the box at 1 m and at 7 m in the open
}

// NewShield works out what a box has to do.
func NewShield(k *readings.Known, l *path.Layout, enclosure string, listener int) (*Shield, error) {
	w := &Shield{boat: k.Boat, layout: l, listener: listener}
	boxes, err := path.Boxes(k.Boat, l)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, b := range boxes {
		if names = append(names, b.Sound.Name); b.Sound.Name == enclosure {
			w.box = b
		}
	}
	for _, x := range l.Enclosures {
		if x.Name == enclosure {
			w.enc = x
		}
	}
	if w.box.Engines == nil {
		return nil, form.Unknown("enclosure in use in layout "+l.Name, enclosure, names)
	}
	for _, s := range k.Spread().Layouts {
		if s.Name == l.Name {
			w.spread = s.Listeners[listener]
		}
	}
	w.near, err = w.inTheOpen()
	return w, err
}

// inTheOpen is what the box leaves at 1 m and 7 m from its walls over hard ground, with nothing round it: half a sphere.
func (w *Shield) inTheOpen() (at [2]float64, err error) {
	sum := spectrum.Fill(spectrum.Silent)
	for _, name := range w.box.Engines {
		e, _ := w.layout.Engine(name)
		duty, _ := e.RunningDuty()
		r, err := e.Engine.At(duty)
		if err != nil {
			return at, err
		}
		sum = spectrum.SumBands(sum, r.Casing.Bands)
	}
	half := math.Sqrt(w.enc.Size[0]*w.enc.Size[1]) / 2
	for i, d := range []float64{1, 7} {
		at[i] = sum.Minus(w.box.Sound.Loss).DBA() - 10*math.Log10(2*math.Pi*math.Pow(d+half, 2))
	}
	return at, nil
}

// Markdown writes the request and the cut list.
func (w *Shield) Markdown(u form.Units) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	s := w.enc.Size
	length := func(m float64) string { return u.Show(m, boatfile.Length) }
	line("# Request for a quotation: sound shield round %s\n", plainText(w.box.Names()))
	line("For: %s\n", plainText(w.boat.Text))
	line("Please answer every point; an answer \"as standard\" can't be compared with other offers.\n")
	line("## What stands in it\n\n| engine | rated | running |\n|---|---|---|")
	for _, name := range w.box.Engines {
		e, _ := w.layout.Engine(name)
		d, _ := e.RunningDuty()
		line("| %s | %s at %.0f rpm | %s at %.0f rpm |", plainText(name), u.Show(e.Rated.Power, boatfile.Power), e.Rated.Speed, u.Show(d.Power, boatfile.Power), d.Speed)
	}
	line("\nInside: %s x %s x %s, five faces on the bed; %s of walls.\n", length(s[0]), length(s[1]), length(s[2]), u.Show(w.walls(), boatfile.Area))
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
	line("- Air: %s in at rated, of which %s is burnt; %s of heat to carry off; the air in the box at most %s (%s).", u.Show(a.Needed, boatfile.VolumeFlow), u.Show(a.CombustionAir, boatfile.VolumeFlow),
		u.Show(a.Heat, boatfile.Power), u.Show(a.Outside+a.AllowedRise, boatfile.Temperature), plainText(a.AllowedWhy))
	for _, v := range a.Verdicts {
		if v.Code != "ok" {
			line("- As drawn it is **%s**: %s", v.Code, plainText(u.Local(strings.TrimPrefix(v.Text, v.Code+": "))))
		}
	}
	line("- State the loss of your panels and of your ducts by octave with the test they come from, the fan's curve and its sound power, and what of this list your price holds.\n")
}

// cuts lists all parts of the shield with their quantities.
func (w *Shield) cuts(u form.Units) [][3]string {
	s, name := w.enc.Size, plainText(w.enc.Name)
	length := func(m float64) string { return u.Show(m, boatfile.Length) }
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
		add("lining, faced against oil", length(w.enc.Thickness)+" "+plainText(w.enc.Lining), squareMetres(w.walls()))
	}
	out = append(out, w.airCuts(u)...)
	seal := w.seal()
	add("seal of the lid or door, closed-cell rubber", fmt.Sprintf("%s, pressed to half its height", length(0.012)), fmt.Sprintf("%.1f m", seal))
	add("sealant and grommets for cables, hoses and pipes", "each hole gas-tight", "as found")
	for _, e := range w.box.Engines {
		add("mounts under "+plainText(e), mountsText(w.engine(e).Mounts, u), fmt.Sprint(max(w.engine(e).Mounts.Count, 4)))
	}
	add("thermostat of the fan with its own sensor", fmt.Sprintf("on at %s", u.Show(w.box.Air.Outside+w.box.Air.AllowedRise*0.7, boatfile.Temperature)), "1")
	add("alarm or stop for air too hot, and for a fan that stands", fmt.Sprintf("at %s", u.Show(w.box.Air.Outside+w.box.Air.AllowedRise*1.1, boatfile.Temperature)), "1")
	add("fire port for the nozzle of an extinguisher, closed by a flap", length(0.025), "1")
	return out
}

// airCuts are ducts, holes and fan.
func (w *Shield) airCuts(u form.Units) (out [][3]string) {
	length := func(m float64) string { return u.Show(m, boatfile.Length) }
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
			out = append(out, [3]string{o.Role + " with guard" + to, u.Show(o.Area, boatfile.Area) + " clear", "1"})
			continue
		}
		lining := "bare"
		if d.Thickness > 0 {
			lining = length(d.Thickness) + " " + plainText(d.Lining)
		}
		out = append(out, [3]string{o.Role + " duct" + to, fmt.Sprintf("%s x %s clear, %s", length(d.Size[0]), length(d.Size[1]), lining), fmt.Sprintf("%s, bends: %d", length(d.Length), d.Bends)})
	}
	if f := w.box.Air.Fan; f != nil {
		out = append(out, [3]string{"fan, ignition-protected where petrol is near", fmt.Sprintf("%s at %s where it works here", u.Show(f.Flow, boatfile.VolumeFlow), u.Draught(f.Pressure)), "1"})
	}
	return out
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
		return "not stated: soft, 5 mm under the engine's weight, with hoses and exhaust flexible"
	case m.Deflection > 0:
		return fmt.Sprintf("%s, %s under its weight", m.Kind, u.Show(m.Deflection, boatfile.Length))
	}
	return string(m.Kind)
}

// tests are what the shield is held to: at 1 m and 7 m by its own sound, and where people are.
func (w *Shield) tests(u form.Units) []string {
	meter := math.Hypot((w.spread.High-w.spread.Low)/2, 2)
	a := w.box.Air
	return []string{
		fmt.Sprintf("1 m from each face of the box, on hard ground in the open or in the boat with its lid open and shut: the drop of the level is at least %.0f dB(A), or the octaves above within 3 dB. In the open we expect %.0f dB(A) there.", w.box.Sound.DBA, w.near[0]),
		fmt.Sprintf("7 m from it in the open, the distance that sets are sold by: we expect %.0f dB(A) of its own sound, without the exhaust.", w.near[1]),
		fmt.Sprintf("At %s, same meter, seat, load, doors and weather before and after: we expect %.0f dB(A), within %.0f dB of it.", plainText(w.boat.Listeners[w.listener].Name), w.spread.Level, meter),
		fmt.Sprintf("One hour at rated: the air in the box at most %s with %s outside; after stopping the lid stays shut until it may be touched.", u.Show(a.Outside+a.AllowedRise, boatfile.Temperature), u.Show(a.Outside, boatfile.Temperature)),
		"Levels in cabins are told as the standards of comfort tell them: equivalent A-weighted level over 30 s or more in whole decibels, at the running duty, doors shut (ISO 2923, from memory); a comfort class is its surveyor's to give, not the maker's.",
	}
}
