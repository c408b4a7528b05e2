package study

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"gonum.org/v1/gonum/mat"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// Planned is one reading worth taking, with what it would do to the answer.
type Planned struct {
	Order            int
	What, Where, How string
	Unit             string  // of the deviations: dB, or % of the back pressure
	Before, After    float64 // one standard deviation of the answer without and with the reading
}

// Expected is the band in which a reading after fitting should fall, instrument included, dB(A).
type Expected struct {
	Layout, Listener string
	Level, Low, High float64
}

// Plan is a measuring plan.
type Plan struct {
	Listener   string
	Readings   []Planned
	Acceptance []Expected
	Notes      []string // what could not be planned, and why
}

// SurveyOptions say how the boat stands now and what can be done on it.
type SurveyOptions struct {
	Present  string    // the layout now on board; "" = the first
	Listener string    // whose level is the answer; "" = the first
	Doors    []string  // what can be opened
	Predict  Predictor // nil: no reading at another duty or with doors open is planned
	SD       float64   // dB of the meter at hand; 0 = a phone
}

// candidate is a reading that could be taken: gradient over the terms and its own error.
type candidate struct {
	Planned
	g            []float64
	bias, repeat float64
	pressure     bool
	door         bool    // one of the readings with something open
	level        float64 // dB the model expects
}

// Survey ranks the readings that can be taken on the present layout by how much each narrows the
// answer: the root mean square deviation of the level at the listener over all layouts that are not
// refused, and for a manometer that of the back pressure. The deviation after a reading is that of
// the linear-Gaussian update and needs no value of the reading.
func (m *Model) Survey(predictions []path.Prediction, b Belief, o SurveyOptions) (Plan, error) {
	at := 0
	for i, name := range m.Layouts() {
		if name == o.Present {
			at = i
		}
	}
	if o.Present != "" && m.layouts[at].name != o.Present {
		return Plan{}, fmt.Errorf("no layout %q in the file\nhint: name one of: %s", o.Present, strings.Join(m.Layouts(), "; "))
	}
	if len(m.layouts[at].heard) == 0 {
		return Plan{}, fmt.Errorf("layout %q has no listener\nhint: a survey needs one", m.layouts[at].name)
	}
	if o.Listener == "" {
		o.Listener = m.layouts[at].heard[0].listener
	}
	if _, h := m.find(m.layouts[at].name, o.Listener); h < 0 {
		return Plan{}, fmt.Errorf("no listener %q in the file", o.Listener)
	}
	if o.SD == 0 {
		o.SD = phoneSD
	}
	all, notes := m.candidates(predictions[at], at, b, o)
	plan := Plan{Listener: o.Listener, Readings: m.ranked(all, b, o), Notes: notes}
	var err error
	plan.Acceptance, err = m.Acceptance(b, o.SD, Draws{})
	return plan, err
}

// ranked works out what each candidate does and puts the strongest first, after the reading with
// the engine off that all others need.
func (m *Model) ranked(all []candidate, b Belief, o SurveyOptions) []Planned {
	sound, pressure := m.answers(b, o.Listener)
	for i := range all {
		c := &all[i]
		answers := sound
		if c.Unit = "dB"; c.pressure {
			answers, c.Unit = pressure, "%"
		}
		c.Before, c.After = b.narrowed(answers, c.g, math.Hypot(c.bias, c.repeat))
		if c.pressure {
			c.Before, c.After = 100*c.Before, 100*c.After
		}
	}
	all = b.telling(all, sound, o.Listener)
	sort.SliceStable(all, func(i, j int) bool { return left(all[i]) < left(all[j]) })
	plan := []Planned{quiet(sound, b)}
	for _, c := range all {
		if left(c) < worthwhile {
			plan = append(plan, c.Planned)
		}
	}
	for i := range plan {
		plan[i].Order = i + 1
	}
	return plan
}

// worthwhile is the part of the deviation under which a reading that narrows it is listed.
const worthwhile = 0.9995

// left is the part of the deviation that a reading leaves.
func left(c candidate) float64 {
	if c.Before == 0 {
		return 1
	}
	return c.After / c.Before
}

// telling drops readings with a door open that say no more than the same seat with all shut: those
// that, taken after it, narrow the answer by less than a fiftieth more than repeating it would. Of
// those that narrow it, the one that changes the level most stays in any case: opening it tells the ways of the sound apart.
func (b Belief) telling(all []candidate, answers [][]float64, listener string) []candidate {
	shut := -1
	for i, c := range all {
		if !c.door && c.Where == listener && strings.HasPrefix(c.What, "dB(A)") && shut < 0 {
			shut = i
		}
	}
	if shut < 0 {
		return all
	}
	known := b.after(all[shut].g, math.Hypot(all[shut].bias, all[shut].repeat))
	_, again := known.narrowed(answers, all[shut].g, all[shut].repeat)
	loudest, change := -1, -1.0
	more := make([]float64, len(all))
	for i, c := range all {
		_, after := known.narrowed(answers, c.g, c.repeat)
		if more[i] = 1; again > 0 {
			more[i] = after / again
		}
		if d := math.Abs(c.level - all[shut].level); c.door && d > change && left(c) < worthwhile {
			loudest, change = i, d
		}
	}
	var kept []candidate
	for i, c := range all {
		if !c.door || i == loudest || more[i] < 0.98 {
			kept = append(kept, c)
		}
	}
	return kept
}

// after is the belief once a reading with gradient g and error sd is known: C - C g g'C/(g'Cg + sd^2).
func (b Belief) after(g []float64, sd float64) Belief {
	n := len(g)
	if n == 0 { // nothing runs: there is nothing to learn
		return b
	}
	cg := make([]float64, n)
	for k := range cg {
		cg[k] = b.row(k, g)
	}
	den := b.variance(g) + sd*sd
	out := Belief{Mean: b.Mean, Cov: mat.NewSymDense(n, nil)}
	for i := range n {
		for j := i; j < n; j++ {
			out.Cov.SetSym(i, j, b.cov(i, j)-cg[i]*cg[j]/den)
		}
	}
	return out
}

// answers are the gradients of what is to be known: the levels at the listener, and the rated back
// pressures, of all layouts that may be chosen.
func (m *Model) answers(b Belief, listener string) (sound, pressure [][]float64) {
	n := len(m.Terms)
	for pass := 0; pass < 2 && len(sound) == 0; pass++ { // all refused: then all count
		for _, l := range m.layouts {
			if l.refused && pass == 0 {
				continue
			}
			for _, h := range l.heard {
				if h.listener == listener {
					sound = append(sound, h.gradient(b.Mean, spectrum.A, n))
				}
			}
			for _, p := range l.pressures {
				pressure = append(pressure, p.gradient(n))
			}
		}
	}
	return sound, pressure
}

func (p *pressureModel) gradient(n int) []float64 {
	g := make([]float64, n)
	for i, k := range p.keys {
		g[k] += p.sd[i]
	}
	return g
}

// narrowed gives the root mean square deviation of the answers before and after a reading with
// gradient g and error sd: var = a'Ca - (a'Cg)^2/(g'Cg + sd^2).
func (b Belief) narrowed(answers [][]float64, g []float64, sd float64) (before, after float64) {
	if len(answers) == 0 {
		return 0, 0
	}
	den := b.variance(g) + sd*sd
	for _, a := range answers {
		v, c := b.variance(a), 0.0
		for k, gk := range g {
			if gk != 0 {
				c += gk * b.row(k, a)
			}
		}
		before += v
		after += math.Max(v-c*c/den, 0)
	}
	n := float64(len(answers))
	return math.Sqrt(before / n), math.Sqrt(after / n)
}

// candidates lists what can be measured on the present layout.
func (m *Model) candidates(p path.Prediction, at int, b Belief, o SurveyOptions) (all []candidate, notes []string) {
	for _, h := range m.layouts[at].heard {
		all = append(all, m.seat(h, b, o.SD, spectrum.A, "dB(A)"), m.seat(h, b, o.SD, spectrum.C, "dB(C)"))
	}
	for i := range p.Exhausts {
		all = append(all, m.atOutlet(p, i, b, o.SD)...)
		all = append(all, m.atEngine(p, i, b, o.SD)...)
		all = append(all, m.manometer(at, i))
	}
	if o.Predict == nil {
		return all, nil
	}
	more, notes := m.otherStates(p, b, o)
	// Predictions of other states may have brought terms of their own.
	for i := range all {
		all[i].g = append(all[i].g, make([]float64, len(m.Terms)-len(all[i].g))...)
	}
	for i := range more {
		more[i].g = append(more[i].g, make([]float64, len(m.Terms)-len(more[i].g))...)
	}
	return append(all, more...), notes
}

func (m *Model) seat(h *heardModel, b Belief, sd float64, w spectrum.Bands, unit string) candidate {
	bias, repeat := split(sd)
	c := candidate{bias: bias, repeat: repeat, g: h.gradient(b.Mean, w, len(m.Terms)), level: h.level(b.Mean, w)}
	c.What, c.Where, c.How = unit+" at the running duty, loaded, doors and hatches shut", h.listener, howSeat
	if unit == "dB(C)" {
		c.What, c.How = unit+" at the running duty, loaded, doors shut", howC
	}
	return c
}

// lineTerms are the causes that a reading at the outlet sees; what lies between outlet and ear is left out.
var lineTerms = map[string]bool{"source level": true, "order pattern": true, "source impedance": true, "element model": true,
	"perforate": true, "flow noise": true, "quote": true, "flow": true, "temperature": true}

// atOutlet is a reading 1 m from the outlet, out of the jet.
func (m *Model) atOutlet(p path.Prediction, i int, b Belief, sd float64) []candidate {
	x := p.Exhausts[i]
	for _, h := range p.Listeners {
		for _, r := range h.Routes {
			if r.Engine == x.Engine && r.Way == path.ByOutlet {
				c := m.near(p, r, x.OutletPower.Shift(-11), b, math.Hypot(sd, 2)) // 11 dB: 10 lg 4 pi at 1 m
				c.What, c.Where, c.How = "dB(A) at the running duty, loaded", "outlet of "+x.Engine, howOutlet
				return []candidate{c}
			}
		}
	}
	return nil
}

// atEngine is a reading 1 m from the engine, cover or box open and shut.
func (m *Model) atEngine(p path.Prediction, i int, b Belief, sd float64) []candidate {
	x := p.Exhausts[i]
	for _, h := range p.Listeners {
		for _, r := range h.Routes {
			if r.Engine == x.Engine && r.Source == x.Engine+" casing" {
				c := m.near(p, r, x.Source.Casing.Bands.Shift(-8), b, math.Hypot(sd, 3)) // a near field among hard walls
				c.What, c.Where, c.How = "dB(A) at the running duty, cover or box open, then shut", "1 m from "+x.Engine, howCover
				return []candidate{c}
			}
		}
	}
	return nil
}

// near takes from a route only the causes that lie before its way to the ear.
func (m *Model) near(p path.Prediction, r path.Route, bands spectrum.Bands, b Belief, sd float64) candidate {
	out, at := &routeModel{bands: bands}, map[int]int{}
	for _, s := range r.Steps {
		for _, u := range s.Uncertain {
			if lineTerms[u.Term] && u.SD != (spectrum.Bands{}) {
				m.enter(out, at, p.Layout.Name, u)
			}
		}
	}
	bias, repeat := split(sd)
	h := &heardModel{routes: []*routeModel{out}}
	return candidate{bias: bias, repeat: repeat, g: h.gradient(b.Mean, spectrum.A, len(m.Terms))}
}

func (m *Model) manometer(at, i int) candidate {
	p := m.layouts[at].pressures[i]
	bias, repeat := split(manometerSD)
	c := candidate{bias: bias, repeat: repeat, pressure: true, g: p.gradient(len(m.Terms))}
	c.What, c.Where, c.How = "back pressure at rated speed and full load", "exhaust of "+p.engine, howManometer
	return c
}

// neutralLoad lists the shares of the running power that an engine out of gear may be reckoned at;
// the first that its model can serve is taken (a tenth by common practice).
var neutralLoad = []float64{0.1, 0.15, 0.2, 0.3}

// otherStates are readings with a door open, and at the running speed without load. A state that
// can't be predicted is left out and noted.
func (m *Model) otherStates(p path.Prediction, b Belief, o SurveyOptions) (all []candidate, notes []string) {
	for _, door := range o.Doors {
		c, err := m.state(p, b, o, path.Reading{Open: []string{door}}, "dB(A) at the running duty, loaded, open: "+door, howDoor)
		if err != nil {
			notes = append(notes, err.Error())
		}
		for i := range c {
			c[i].door = true
		}
		all = append(all, c...)
	}
	for _, x := range p.Exhausts {
		d := x.Source.Duty
		if d.Speed <= 0 || d.Power <= 0 {
			continue
		}
		var failed error
		for _, load := range neutralLoad {
			r := path.Reading{RunEngine: x.Engine, RunSpeed: d.Speed, RunPower: load * d.Power}
			c, err := m.state(p, b, o, r, fmt.Sprintf("dB(A) at %.0f rpm, %s in neutral or without load", d.Speed, x.Engine), howNeutral)
			if failed = err; err == nil {
				all = append(all, c...)
				break
			}
		}
		if failed != nil {
			notes = append(notes, failed.Error())
		}
	}
	return all, notes
}

func (m *Model) state(p path.Prediction, b Belief, o SurveyOptions, r path.Reading, what, how string) ([]candidate, error) {
	r.Listener, r.Layout = o.Listener, p.Layout.Name
	q, err := o.Predict(r.Layout, r)
	if err != nil {
		return nil, fmt.Errorf("planning %q: %w", what, err)
	}
	if q.Layout == nil {
		q.Layout = p.Layout
	}
	l, err := m.layout(&q)
	if err != nil {
		return nil, err
	}
	for _, h := range l.heard {
		if h.listener == o.Listener {
			c := m.seat(h, b, o.SD, spectrum.A, "dB(A)")
			c.What, c.How = what, how
			return []candidate{c}, nil
		}
	}
	return nil, nil
}

// Acceptance gives for each layout and listener the reading to expect after fitting: the level with
// the band of model and meter together (10th to 90th percentile, deviations added as squares).
func (m *Model) Acceptance(b Belief, meterSD float64, d Draws) ([]Expected, error) {
	s, err := m.MonteCarlo(b, d)
	if err != nil {
		return nil, err
	}
	var all []Expected
	for _, l := range s.Layouts {
		for _, h := range l.Listeners {
			all = append(all, Expected{l.Name, h.Listener, h.Level,
				h.Level - math.Hypot(h.Level-h.Low, z90*meterSD), h.Level + math.Hypot(h.High-h.Level, z90*meterSD)})
		}
	}
	return all, nil
}

// Narrowest is the reading of the plan that narrows the levels most; ok is false where none does.
func (p Plan) Narrowest() (Planned, bool) {
	for _, r := range p.Readings {
		if r.Unit == "dB" && r.After < r.Before {
			return r, true
		}
	}
	return Planned{}, false
}

// quiet is the reading with everything stopped: it narrows nothing itself.
func quiet(sound [][]float64, b Belief) Planned {
	v := 0.0
	for _, a := range sound {
		v += b.variance(a) / float64(len(sound))
	}
	return Planned{What: "background with all engines off", Where: "every seat below, same spots", How: howQuiet, Unit: "dB",
		Before: math.Sqrt(v), After: math.Sqrt(v)}
}
