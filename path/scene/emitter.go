package scene

import (
	"fmt"
	"math"
	"slices"

	"hushwake/path"
	"hushwake/path/tones"
	"hushwake/silencer"
	"hushwake/silencer/wet"
	"hushwake/source"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// emitter is something that gives off sound power in one place.
type emitter struct {
	source    string // as named in routes
	engine    string // exact name
	way       path.Way
	how       string // first word of the route: "outlet", "pipe wall", "casing", ...
	place     string // the space it stands in, or Outside
	path.Site        // at, and how well that is known
	steps     []path.Step
	bands     spectrum.Bands // sum of the steps, dB re 1 pW

	wall  *wall      // the partition whose outer face it is; nil otherwise
	tones *tones.Set // nil where no orders are known
	entry []entry    // ways into rooms for an emitter in the open, once asked for

	// outlet only
	outlet bool
	bore   float64
	facing [3]float64
}

// placeKey is what doubts of the emitter's place share.
func (e *emitter) placeKey() string {
	if e.wall != nil {
		return e.wall.Label()
	}
	return e.engine
}

func newEmitter(source, how, place string, at path.Point, steps ...path.Step) emitter {
	e := emitter{source: source, how: how, place: place, Site: path.Site{At: at}, steps: steps}
	for _, s := range steps {
		e.bands = e.bands.Plus(s.Bands)
	}
	return e
}

// partStep turns a part of an engine's sound power into the first step of a chain. A duty that was filled in is a doubt of all parts
// alike, but of a level that was measured at it.
func partStep(name, term string, e *path.Engine, p source.Part, measured bool) path.Step {
	st := path.Step{
		Name: name, Cited: p.Cited, Bands: p.Bands, Terms: p.Terms,
		Uncertain: []path.Uncertain{{
			Term: "source level", Key: term + "/" + e.Name, SD: p.SD, Source: "judgement: handbook scatter",
		}},
	}
	if _, a := e.RunningDuty(); a != nil && a.PlusMinusDB > 0 && !measured {
		st.Uncertain = append(st.Uncertain, path.Uncertain{Term: "duty", Key: "duty/" + e.Name, SD: spectrum.Fill(a.PlusMinusDB), Source: "not stated in the file: " + a.Source})
	}
	return st
}

// emitters lists everything in the layout that gives off sound.
func emitters(s *scene, results []path.ExhaustResult) []emitter {
	var all []emitter
	for _, r := range results {
		e, _ := s.layout.Engine(r.Engine)
		x, _ := s.layout.Exhaust(r.Engine)
		all = append(all, outletEmitter(e, x, r))
		all = append(all, shellEmitters(s, e, x, r)...)
		all = append(all, bodyEmitters(s, e, r)...)
		if r.Box != nil {
			all = append(all, s.fanEmitters(&r)...)
		}
	}
	synchronise(all, results)
	return all
}

// otherPipes adds the pipes of the other banks: the source and the line are those of one pipe.
func otherPipes(r path.ExhaustResult) []path.Step {
	n := r.Source.Pipes
	if n < 2 {
		return nil
	}
	return []path.Step{{
		Name: "all pipes", Cited: published.By("10 lg of the number of pipes, each with a line alike beside it", "energy sum of equal sources", "derived"), Bands: spectrum.Fill(10 * math.Log10(float64(n))),
	}}
}

// outletEmitter is the end of the line: source level, loss of the line, floor of flow noise. The doubts of source
// and line act with their share of the energy beside the flow noise.
func outletEmitter(e *path.Engine, x *path.Exhaust, r path.ExhaustResult) emitter {
	source := partStep("exhaust sound power, unsilenced", "source level", e, r.Source.Exhaust, e.ExhaustLevel != nil)
	source.Uncertain = append(source.Uncertain, orderPattern(e.Name))
	after := r.Unsilenced.Minus(r.Acoustics.InsertionLoss)
	floor := path.Step{
		Name: "flow noise added at the outlet", Cited: r.Acoustics.Noise,
		Bands:     r.OutletPower.Minus(after),
		Uncertain: []path.Uncertain{flowNoise(e.Name, r)},
	}
	steps := []path.Step{source.Sharing(after.Minus(r.OutletPower)), lineStep(e, x, r).Sharing(after.Minus(r.OutletPower)), floor}
	steps = append(steps, otherPipes(r)...)
	steps = append(steps, underwater(x, r)...)
	at := path.Point(x.Line.Outlet.At)
	em := newEmitter(e.Name+" exhaust", "outlet", path.Outside, at, steps...)
	em.engine, em.way, em.outlet, em.facing, em.bore = e.Name, path.ByOutlet, true, x.Line.Outlet.Pointing, x.Line.Outlet.Bore
	broad := spectrum.SumBands(r.Source.Broadband.Minus(r.Acoustics.BroadbandLoss), r.Acoustics.SelfNoise)
	em.tones = tones.New(r.Source.Orders, r.Acoustics.LineLoss, broad, r.OutletPower)
	if em.bore == 0 {
		em.bore = r.Running.OutletBore
	}
	return em
}

func lineStep(e *path.Engine, x *path.Exhaust, r path.ExhaustResult) path.Step {
	a := r.Acoustics
	notes := a.Notes
	if x.Line.Wet() {
		notes = append(notes[:len(notes):len(notes)], path.WetUnproven.Text+" A reading with the engine running replaces most of it.")
	}
	if text := path.FlankingNote(r.AlongPipe); text != "" {
		notes = append(notes[:len(notes):len(notes)], text)
	}
	return path.Step{
		Name: "insertion loss of the line", Cited: a.Cited,
		Bands: spectrum.Bands{}.Minus(a.InsertionLoss), Notes: notes,
		Uncertain: append(lineUncertain(a),
			path.Uncertain{Term: "source impedance", Key: "source impedance/" + e.Name, SD: a.ImpedanceSD,
				Source: "spread between three source impedances"}, path.FlankingDoubt(e.Name, r.AlongPipe)),
	}
}

// underwater is what the water at the mouth takes, by its depth and the waves; nothing well above it.
func underwater(x *path.Exhaust, r path.ExhaustResult) []path.Step {
	o, m := x.Line.Outlet, r.Running
	mouth := wet.Mouth{Bore: m.OutletBore, Depth: -o.Height(), Waves: o.Waves, Gas: m.OutletVelocity * math.Pi / 4 * m.OutletBore * m.OutletBore,
		GasDensity: m.OutletGas.Density, Mach: m.OutletVelocity / m.OutletGas.SoundSpeed}
	if mouth.Waves == 0 {
		mouth.Waves = wet.UsualWaves
	}
	if mouth.Check() != nil {
		return nil
	}
	loss, sd, _ := mouth.Loss()
	if loss < 0.001 {
		return nil
	}
	return []path.Step{{
		Name:  "outlet at the water",
		Cited: published.By("-10 lg of the mean over the waves of (1 - h/d_b) 4 s/(1 + s)^2 (1 + M(1/s^2 - 1)/2)^-2 + h/d_b 10^-2, open share s, water h over the mouth, bubbles d_b = 1.295 (Q^2/g)^(1/5)", "Davidson and Schueler 1960 for the bubbles (from memory); 20 dB for a closed mouth: judgement, the plane gas-water step would give 29.8 dB", "judgement"), Bands: spectrum.Fill(-loss), Notes: []string{mouthWords(mouth)},
		Uncertain: []path.Uncertain{{Term: "wet line", Key: "outlet at the water", SD: spectrum.Fill(sd), Source: "judgement: 1.5 dB awash, 6 dB under water"}},
	}}
}

// mouthWords says how the water stands at an outlet and what that does.
func mouthWords(m wet.Mouth) string {
	top := m.Depth - m.Bore/2
	switch d := m.Bubble(); {
	case top <= 0:
		return "the water covers the mouth in part or with the waves: awash is no silencer"
	case d > top:
		return fmt.Sprintf("bubbles are %.2f m, deeper than the outlet lies: the sound gets out between them", d)
	default:
		return fmt.Sprintf("bubbles are %.2f m and close %.2f m under water: they hold the sound back, and make noise of their own", d, top)
	}
}

// shellEmitters are the walls of the line in the spaces they stand in.
func shellEmitters(s *scene, e *path.Engine, x *path.Exhaust, r path.ExhaustResult) []emitter {
	inside := tones.New(r.Source.Orders, nil, r.Source.Broadband, r.Source.Exhaust.Bands)
	out, from := make([]emitter, 0, len(r.Shells)), s.engineSite(e)
	for i, sh := range r.Shells {
		for _, place := range s.placesOf(r.Shells, i, e.In) {
			em := s.shellEmitter(e, &r, sh, place)
			em.At, em.Spread, em.tones = between(from.At, path.Point(x.Line.Outlet.At), i, len(r.Shells)), from.Spread, inside
			if r.Box != nil && place == r.Box.Enclosure.Name {
				out = append(out, s.boxedEmitters(em, r.Box)...)
				continue
			}
			out = append(out, em)
		}
	}
	return out
}

// placesOf are the spaces that a wall of a line is heard in: those along the line, and what lies between two of them, or by its place
// between the last and the open where the line ends, since it runs through one of these (judgement: in each with all its power).
func (s *scene) placesOf(shells []silencer.Shell, i int, engine string) []string {
	all := path.PlacesAlong(len(shells), func(k int) string { return shells[k].In }, i, engine)
	stated := slices.ContainsFunc(shells[i:], func(sh silencer.Shell) bool { return sh.In != "" })
	switch {
	case len(all) > 1:
		return append(all, s.betweenSpaces(all[0], all[1], false)...)
	case !stated && all[0] != path.Outside:
		return append(all, s.betweenSpaces(all[0], path.Outside, true)...)
	}
	return all
}

// betweenSpaces are the spaces that touch two others and that nobody sits in and no engine stands in: trunks and lockers; placed
// leaves out those of which nobody says where they lie.
func (s *scene) betweenSpaces(a, b string, placed bool) (out []string) {
	for i := range s.layout.Spaces {
		sp := &s.layout.Spaces[i]
		name := sp.Name
		lived := s.layout.HoldsEngine(name) || slices.ContainsFunc(s.boat.Listeners, func(l path.Listener) bool { return l.In == name })
		if !lived && name != a && name != b && (sp.Placed() || !placed) && s.layout.SharedArea(name, a) > 0 && s.layout.SharedArea(name, b) > 0 {
			out = append(out, name)
		}
	}
	return out
}

// shellEmitter is a wall of the line in a space.
func (s *scene) shellEmitter(e *path.Engine, r *path.ExhaustResult, sh silencer.Shell, place string) emitter {
	if r.Box != nil && place == r.Box.Enclosure.Name {
		place = e.In
	}
	if _, ok := s.layout.Space(place); !ok {
		place = path.Outside
	}
	step := partStep("sound power inside the pipe", "source level", e, r.Source.Exhaust, e.ExhaustLevel != nil)
	wall := path.Step{Name: "through the wall of " + sh.Element, Cited: sh.Saying("less what the line up to it takes off; " + sh.Formula),
		Bands:     sh.Bands.Minus(r.Unsilenced),
		Uncertain: []path.Uncertain{uncertain(sh.Doubt)}}
	if sh.In == "" {
		wall.Notes = []string{"where it runs is not stated: " + place + " is taken, by the engine and the parts before and after it that state theirs"}
	}
	em := newEmitter(e.Name+" exhaust", "wall of "+sh.Element, place, path.Point{}, append([]path.Step{step, wall}, otherPipes(*r)...)...)
	em.engine, em.way = e.Name, path.ByLineWall
	return em
}

// between places part i of n evenly on the way from a to b.
func between(a, b path.Point, i, n int) (p path.Point) {
	t := (float64(i) + 0.5) / float64(max(n, 1))
	for k := range p {
		p[k] = a[k] + t*(b[k]-a[k])
	}
	return p
}

// bodyEmitters are casing, intake and alternator, behind the engine's enclosure if it has one.
func bodyEmitters(s *scene, e *path.Engine, r path.ExhaustResult) []emitter {
	parts := []struct {
		how, term string
		part      *source.Part
	}{
		{"casing", "casing level", &r.Source.Casing},
		{"intake", "intake level", r.Source.Intake},
		{"alternator", "alternator level", r.Source.Alternator},
	}
	var out []emitter
	for _, p := range parts {
		if p.part == nil || p.how == "intake" && r.PipedIn() {
			continue
		}
		em := newEmitter(bodyOf(e.Name, p.how), p.how, s.placeOf(e), e.At, partStep(p.how+" sound power", p.term, e, *p.part, p.how == "casing" && e.CasingLevel != nil))
		em.engine, em.way, em.Site = e.Name, path.ByAir, s.engineSite(e)
		if r.Box != nil {
			out = append(out, s.boxedEmitters(em, r.Box)...)
			continue
		}
		out = append(out, em)
	}
	if r.PipedIn() || r.Box != nil && r.Box.Enclosure.AirUnknown {
		out = append(out, s.intakeEmitter(e, &r))
	}
	return out
}

// bodyOf names a part of an engine's body as a source; casingOf its casing.
func bodyOf(engine, part string) string { return engine + " " + part }

func casingOf(engine string) string { return bodyOf(engine, "casing") }
