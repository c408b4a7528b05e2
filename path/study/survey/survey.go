// Package survey plans readings on board: which of them narrows the answer most, how each is taken, and what to expect
// after fitting.
package survey

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// Plan is a measuring plan.
type Plan struct {
	Listener   string
	Readings   []Planned
	Recordings []ToRecord
	Acceptance []Expected
	Notes      []string // what could not be planned, and why
}

// Make ranks the readings that can be taken on the present layout by how much each narrows the
// answer: the root mean square deviation of the level at the listener over all layouts that are not
// refused, and for a manometer that of the back pressure. The deviation after a reading is that of
// the linear-Gaussian update and needs no value of the reading.
func Make(m *draws.Model, predictions []path.Prediction, e *draws.Ensemble, o Options) (Plan, error) {
	at, b := 0, e.Belief(m)
	for i, name := range m.Names() {
		if name == o.Present {
			at = i
		}
	}
	if o.Present != "" && m.Layouts[at].Name != o.Present {
		return Plan{}, fmt.Errorf("no layout %q in the file\nhint: name one of: %s", o.Present, strings.Join(m.Names(), "; "))
	}
	if len(m.Layouts[at].Listeners) == 0 {
		return Plan{}, fmt.Errorf("layout %q has no listener\nhint: a survey needs one", m.Layouts[at].Name)
	}
	o.Present = m.Layouts[at].Name
	o.Readings = slices.Clone(o.Readings)
	for i, r := range o.Readings {
		o.Readings[i] = readings.PlainDuty(m, r)
	}
	if o.Listener == "" {
		o.Listener = m.Layouts[at].Listeners[0].Name
	}
	if _, h := m.Find(m.Layouts[at].Name, o.Listener); h < 0 {
		return Plan{}, fmt.Errorf("no listener %q in the file", o.Listener)
	}
	if o.SD == 0 {
		o.SD = readings.PhoneSD
	}
	all, notes := candidates(m, predictions[at], at, b, o)
	plan := Plan{Listener: o.Listener, Readings: ranked(m, o.lacking(all), b, o), Notes: notes}
	plan.Recordings = recordings(predictions[at], m.Layouts[at], o)
	plan.Acceptance = Acceptance(m, m.Run(e), e, Before{Layout: m.Layouts[at].Name, Readings: o.Readings, Meter: o.SD})
	return plan, nil
}

// lacking leaves out what the file's readings hold: the same place, weighting, duty and doors.
func (o Options) lacking(all []candidate) (kept []candidate) {
	for _, c := range all {
		if !slices.ContainsFunc(o.Readings, func(r path.Reading) bool { return o.same(r, c.as) }) {
			kept = append(kept, c)
		}
	}
	return kept
}

func (o Options) same(r, as path.Reading) bool {
	if r.Strike || r.Layout != o.Present || as.Listener+as.Engine == "" {
		return false
	}
	sound := as.Level != nil && (r.Level != nil || r.Bands != nil) && r.Listener == as.Listener && cmp.Or(r.Weighting, "A") == as.Weighting
	gauge := as.BackPress != nil && r.BackPress != nil && (r.Engine == as.Engine || r.Engine == "")
	duty := r.RunPower == as.RunPower && r.RunSpeed == as.RunSpeed
	return (sound || gauge) && duty && slices.Equal(r.Open, as.Open)
}

// candidates lists what can be measured on the present layout.
func candidates(m *draws.Model, p path.Prediction, at int, b draws.Belief, o Options) (all []candidate, notes []string) {
	for _, h := range m.Layouts[at].Listeners {
		all = append(all, seat(m, h, b, o.SD, spectrum.A, "dB(A)"), seat(m, h, b, o.SD, spectrum.C, "dB(C)"))
	}
	for i := range p.Exhausts {
		all = append(all, atOutlet(m, p, i, b, o.SD)...)
		all = append(all, atEngine(m, p, i, b, o.SD)...)
		all = append(all, manometer(m, at, i))
	}
	all = append(all, structureReadings(m, p, b, o)...)
	if o.Predict == nil {
		return all, nil
	}
	more, notes := otherStates(m, p, b, o)
	// Predictions of other states may have brought terms of their own.
	for i := range all {
		all[i].g = append(all[i].g, make([]float64, len(m.Terms)-len(all[i].g))...)
	}
	for i := range more {
		more[i].g = append(more[i].g, make([]float64, len(m.Terms)-len(more[i].g))...)
	}
	return append(all, more...), notes
}

// lineTerms are the causes that a reading at the outlet sees; what lies between outlet and ear is left out.
var lineTerms = map[string]bool{"source level": true, "order pattern": true, "source impedance": true, "element model": true, "wet line": true, "hose wall": true,
	"perforate": true, "flow noise": true, "quote": true, "flow": true, "temperature": true}

// atOutlet is a reading 1 m from the outlet, out of the jet.
func atOutlet(m *draws.Model, p path.Prediction, i int, b draws.Belief, sd float64) []candidate {
	x := p.Exhausts[i]
	for _, h := range p.Listeners {
		for _, r := range h.Routes {
			if r.Engine == x.Engine && r.Way == path.ByOutlet {
				c := nearSource(m, p, r, x.OutletPower.Shift(-11), b, math.Hypot(sd, 2), lineTerms) // 11 dB: 10 lg 4 pi at 1 m
				c.What, c.Where, c.How = "dB(A) at the running duty, loaded", "outlet of "+x.Engine, howOutlet
				return []candidate{c}
			}
		}
	}
	return nil
}

// atEngine is a reading 1 m from the engine, cover or box open and shut.
func atEngine(m *draws.Model, p path.Prediction, i int, b draws.Belief, sd float64) []candidate {
	x := p.Exhausts[i]
	for _, h := range p.Listeners {
		for _, r := range h.Routes {
			if r.Engine == x.Engine && r.Source == x.Engine+" casing" {
				c := nearSource(m, p, r, x.Source.Casing.Bands.Shift(-8), b, math.Hypot(sd, 3), lineTerms) // a near field among hard walls
				c.What, c.Where, c.How = "dB(A) at the running duty, cover or box open, then shut", said.Textf("{1 m} from ")+x.Engine, howCover
				return []candidate{c}
			}
		}
	}
	return nil
}

func manometer(m *draws.Model, at, i int) candidate {
	p := m.Layouts[at].Exhausts[i]
	bias, repeat := readings.SplitError(readings.ManometerSD)
	c := candidate{bias: bias, repeat: repeat, pressure: true, g: p.Gradient(len(m.Terms))}
	c.What, c.Where, c.How = "back pressure at rated speed and full load", "exhaust of "+p.Engine, howManometer
	c.as = path.Reading{Engine: p.Engine, BackPress: &c.level}
	return c
}

// neutralLoad lists the shares of the running power that an engine out of gear may be reckoned at;
// the first that its model can serve is taken (a tenth by common practice).
var neutralLoad = []float64{0.1, 0.15, 0.2, 0.3}

// otherStates are readings with a door open, and at the running speed without load. A state that
// can't be predicted is left out and noted.
func otherStates(m *draws.Model, p path.Prediction, b draws.Belief, o Options) (all []candidate, notes []string) {
	for _, door := range o.Doors {
		c, err := otherState(m, p, b, o, path.Reading{Open: []string{door}}, "dB(A) at the running duty, loaded, open: "+door, howDoor)
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
			what, how := fmt.Sprintf("dB(A) at %.0f rpm, %s in neutral or without load", d.Speed, x.Engine), howNeutral
			if e, ok := p.Layout.Engine(x.Engine); ok && e.LoadLaw() == source.ConstantSpeed {
				what, how = fmt.Sprintf("dB(A) with %s idle at its %.0f rpm, every consumer off", x.Engine, d.Speed), howUnloaded
			}
			c, err := otherState(m, p, b, o, r, what, how)
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

func otherState(m *draws.Model, p path.Prediction, b draws.Belief, o Options, r path.Reading, what, how string) ([]candidate, error) {
	r.Listener, r.Layout = o.Listener, p.Layout.Name
	q, err := o.Predict(r.Layout, r)
	if err != nil {
		return nil, fmt.Errorf("planning %q: %w", what, err)
	}
	if q.Layout == nil {
		q.Layout = p.Layout
	}
	l, err := m.LayoutOf(&q)
	if err != nil {
		return nil, err
	}
	for _, h := range l.Listeners {
		if h.Name == o.Listener {
			c := seat(m, h, b, o.SD, spectrum.A, "dB(A)")
			c.What, c.How = what, how
			c.as.Open, c.as.RunSpeed, c.as.RunPower = r.Open, r.RunSpeed, r.RunPower
			return []candidate{c}, nil
		}
	}
	return nil, nil
}
