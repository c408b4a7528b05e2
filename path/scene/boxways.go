package scene

import (
	"fmt"
	"slices"
	"sort"

	"hushwake/path"
	"hushwake/path/room"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// BoxWays is what reaches a listener past a box and through it, ready to try boxes in its place. All that does not come
// from inside the box is taken as it is; the way from each of its mouths on does not change with their section.
type BoxWays struct {
	Rest []WayLevel // what no box stops, loudest first

	boat    *path.Boat
	layout  *path.Layout
	name    string
	results []path.ExhaustResult
	rest    spectrum.Bands // A-weighted
	inside  spectrum.Bands // sound power of all bodies in the box
	walls   spectrum.Bands // from power out of the walls to the listener, dB
	mouths  []spectrum.Bands
	bodies  map[string]bool // sources in the box
}

// WayLevel is what one way from one source leaves at a listener, dB(A).
type WayLevel struct {
	Source string
	Way    path.Way
	DBA    float64
}

// BoxTrial is a box tried at a listener.
type BoxTrial struct {
	DBA   float64    // at the listener, all ways together
	Ways  []WayLevel // of the box: walls, mouths, fan
	Boxed path.Boxed
}

// NewBoxWays works out the ways of a box to a listener of the session's boat, by its place among them; one session serves
// all layouts that are tried. middle moves a prediction to where readings leave it, and every way of the box moves as the
// same way of the box as it stands; nil = nothing was read.
func NewBoxWays(n *Session, l *path.Layout, enclosure string, ear int, middle func(path.Prediction) (path.Prediction, error)) (*BoxWays, error) {
	p, err := n.Predict(l, path.Full)
	if err != nil {
		return nil, err
	}
	w := &BoxWays{boat: n.boat, layout: l, name: enclosure, results: p.Exhausts, rest: spectrum.Fill(spectrum.Silent), inside: spectrum.Fill(spectrum.Silent)}
	i := slices.IndexFunc(p.Exhausts, func(r path.ExhaustResult) bool { return r.Box != nil && r.Box.Enclosure.Name == enclosure })
	if i < 0 {
		return nil, fmt.Errorf("layout %s: nothing runs in the enclosure %q", l.Name, enclosure)
	}
	box := p.Exhausts[i].Box
	moved := p
	if middle != nil {
		if moved, err = middle(p); err != nil {
			return nil, err
		}
	}
	w.split(&moved.Listeners[ear], box)
	if err := w.lead(n, &p.Exhausts[i], p.Listeners[ear].Listener); err != nil {
		return nil, err
	}
	w.follow(&p.Listeners[ear], &moved.Listeners[ear])
	return w, nil
}

// split parts what comes out of the box from the rest, and sums the bodies in it.
func (w *BoxWays) split(h *path.Heard, box *path.Boxed) {
	w.bodies = map[string]bool{"fan of " + w.name: true}
	for _, r := range w.results {
		if !slices.Contains(box.Engines, r.Engine) {
			continue
		}
		for _, part := range []struct {
			name  string
			bands *spectrum.Bands
		}{{"casing", &r.Source.Casing.Bands}, {"intake", bandsOf(r.Source.Intake)}, {"alternator", bandsOf(r.Source.Alternator)}} {
			if part.bands != nil && !(part.name == "intake" && r.PipedIn()) {
				w.bodies[bodyOf(r.Engine, part.name)] = true
				w.inside = spectrum.SumBands(w.inside, *part.bands)
			}
		}
	}
	w.Rest, w.rest = past(h, w.bodies)
}

// past is what reaches a listener from all but the bodies in a box, and from those through mounts and hull, loudest first.
func past(h *path.Heard, bodies map[string]bool) (ways []WayLevel, sum spectrum.Bands) {
	sum = spectrum.Fill(spectrum.Silent)
	at := map[WayLevel]int{}
	for _, r := range h.Routes {
		if bodies[r.Source] && r.Way != path.ByStructure && r.Way != path.ByIntake {
			continue
		}
		sum = spectrum.SumBands(sum, r.Weighted())
		key := WayLevel{Source: r.Source, Way: r.Way}
		if k, ok := at[key]; ok {
			ways[k].DBA = spectrum.Sum(ways[k].DBA, r.DBA())
			continue
		}
		at[key] = len(ways)
		key.DBA = r.DBA()
		ways = append(ways, key)
	}
	sort.SliceStable(ways, func(i, k int) bool { return ways[i].DBA > ways[k].DBA })
	return ways, sum
}

// PastBox is what no box in the place of an enclosure stops at a listener of a prediction, way by way, and all together.
func PastBox(p *path.Prediction, enclosure string, h *path.Heard) (ways []WayLevel, dBA float64) {
	i := slices.IndexFunc(p.Exhausts, func(r path.ExhaustResult) bool { return r.Box != nil && r.Box.Enclosure.Name == enclosure })
	if i < 0 {
		return nil, h.DBA()
	}
	w := &BoxWays{name: enclosure, results: p.Exhausts, inside: spectrum.Fill(spectrum.Silent)}
	w.split(h, p.Exhausts[i].Box)
	return w.Rest, w.RestDBA()
}

// PastWords says how far a box can help at a listener.
func PastWords(listener string, ways []WayLevel, dBA float64) string {
	at := ""
	if len(ways) > 0 {
		at = fmt.Sprintf("; the loudest way past it is %s, %s, %.0f dB(A)", ways[0].Source, ways[0].Way, ways[0].DBA)
	}
	return fmt.Sprintf("At \"%s\" no box brings less than %.0f dB(A): so much reaches it past the box%s.", listener, dBA, at)
}

// lead finds the ways from the walls and from each mouth to the listener.
func (w *BoxWays) lead(n *Session, r *path.ExhaustResult, ear path.Listener) error {
	k := n.keyOf(w.layout)
	s, err := n.take(k, w.layout)
	if err != nil {
		return err
	}
	defer n.put(k, s)
	e, at := s.engine(r.Engine), s.ear(ear)
	gain := func(em emitter) spectrum.Bands {
		sum := spectrum.Fill(spectrum.Silent)
		for _, t := range s.trails(&em, at) {
			sum = spectrum.SumBands(sum, em.bands.Plus(t.gain))
		}
		return sum.Minus(loud)
	}
	unit := newEmitter("box", "box", s.placeOf(e), e.At, path.Step{Bands: loud})
	unit.Site = s.engineSite(e)
	w.walls = gain(unit)
	for i, o := range r.Box.Enclosure.Openings {
		em := unit
		if o.Apart() {
			s.atMouth(&em, &o, r.Box.Mouth(i))
		}
		w.mouths = append(w.mouths, gain(em))
	}
	return nil
}

// follow moves the ways of the box as the readings move those of the box as it stands.
func (w *BoxWays) follow(reckoned, moved *path.Heard) {
	level := func(h *path.Heard, way path.Way) float64 {
		sum := spectrum.Silent
		for _, r := range h.Routes {
			if w.bodies[r.Source] && r.Way == way {
				sum = spectrum.Sum(sum, r.DBA())
			}
		}
		return sum
	}
	shift := func(way path.Way) (float64, bool) {
		was := level(reckoned, way)
		return level(moved, way) - was, was > spectrum.Silent/2
	}
	air, walls := shift(path.ByAir)
	mouth, mouths := shift(path.ByBoxOpening)
	if !walls {
		air = mouth
	}
	if !mouths {
		mouth = air
	}
	w.walls = w.walls.Shift(air)
	for i := range w.mouths {
		w.mouths[i] = w.mouths[i].Shift(mouth)
	}
}

func bandsOf(p *source.Part) *spectrum.Bands {
	if p == nil {
		return nil
	}
	return &p.Bands
}

// loud is a sound power at which no way is left out for being faint, dB.
var loud = spectrum.Fill(150)

// Enclosure is the box as it stands.
func (w *BoxWays) Enclosure() path.Enclosure {
	enc, _ := w.layout.Enclosure(w.name)
	return *enc
}

// RestDBA is what no box stops, all together.
func (w *BoxWays) RestDBA() float64 { return w.rest.Total() }

// Try puts another box in its place. Its openings must be those of the box as it stands, in their order, but for area and
// duct; further ones end where the box stands.
func (w *BoxWays) Try(enc path.Enclosure) (t BoxTrial, err error) {
	l := *w.layout
	l.Enclosures = []path.Enclosure{enc}
	if t.Boxed, err = path.NewBoxed(w.boat, &l, &l.Enclosures[0], w.results, room.Assess); err != nil {
		return t, fmt.Errorf("enclosure %s: %w", enc.Name, err)
	}
	out := t.Boxed.Sound.Out
	add := func(source string, way path.Way, bands spectrum.Bands) {
		if v := bands.DBA(); v > spectrum.Silent/2 {
			t.Ways = append(t.Ways, WayLevel{source, way, v})
		}
	}
	t.DBA = w.rest.Total()
	through := func(source string, power spectrum.Bands) {
		add(source, path.ByAir, power.Plus(spectrum.Levels(out.Walls)).Plus(w.walls))
		for i, o := range enc.Openings {
			if o.Apart() {
				add(source, path.ByBoxOpening, power.Plus(spectrum.Levels(out.Mouths[i])).Plus(w.mouth(i)))
			}
		}
	}
	through("casing", w.inside)
	if f := t.Boxed.Fan; f != nil {
		through("fan", f.Power)
		if f.At >= 0 {
			add("fan", path.ByBoxOpening, f.Power.Minus(enc.Openings[f.At].DuctLoss()).Plus(w.mouth(f.At)))
		}
	}
	for _, way := range t.Ways {
		t.DBA = spectrum.Sum(t.DBA, way.DBA)
	}
	return t, nil
}

// mouth is the way from an opening on; one that the box does not have yet ends where the box stands.
func (w *BoxWays) mouth(i int) spectrum.Bands {
	if i < len(w.mouths) {
		return w.mouths[i]
	}
	return w.walls
}
