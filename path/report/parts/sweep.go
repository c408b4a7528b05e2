package parts

import (
	"cmp"
	"context"
	"fmt"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/study/readings"
	"hushwake/path/study/sweep"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// Sweep is layouts over engine speed, or over the load of sets.
type Sweep struct {
	Layouts []Swept `json:"layouts"`
}

// Swept is one layout over engine speed.
type Swept struct {
	Name   string       `json:"name"`
	Points []SweepPoint `json:"points"`
	Booms  []Boom       `json:"booms"`

	Verdict string   `json:"verdict"` // "refused" or "ask first", levels and pressures null then; "" = neither
	Why     []string `json:"why"`     // what it is refused for, or what to ask
	Notes   []string `json:"notes"`   // how readings and what was stated at one duty reach the others
}

// SweepPoint is one speed.
type SweepPoint struct {
	Speed        form.Number `json:"speed_rpm"`
	Power        form.Number `json:"power_kw"`
	BackPressure form.Number `json:"back_pressure_kpa"`
	Listeners    []SeatLevel `json:"listeners"`
}

// SeatLevel is the level at one seat.
type SeatLevel struct {
	Name     string      `json:"name"`
	LevelDBA form.Number `json:"level_dba"`
}

// Boom is a speed at which the level stands out.
type Boom struct {
	Speed     form.Number `json:"speed_rpm"`
	Order     form.Number `json:"order"`
	Frequency form.Number `json:"frequency_hz"`
	Text      string      `json:"text"`
	Listener  string      `json:"listener"`
	From      form.Number `json:"from_rpm"` // to be avoided
	To        form.Number `json:"to_rpm"`
	Rise      form.Number `json:"rise_db"`
	Loss      form.Number `json:"loss_db"` // of the line at that frequency
	Around    form.Number `json:"loss_around_db"`
}

// SpeedSweep is layouts of a boat worked out over engine speed.
type SpeedSweep struct {
	boat    *path.Boat
	layouts []*path.Layout
	swept   []sweep.Swept
	ruled   []ruling // by layout
	used    int      // readings that count
}

// ruling is what keeps a layout from being judged by its levels.
type ruling struct {
	word string // "refused", "ask first"; "" = nothing
	why  []string
}

// rule tells whether a layout as it runs is refused, or has to be asked about first.
func rule(k *readings.Known, layout string) (r ruling) {
	p := k.At(layout)
	switch {
	case p == nil:
	case p.Refused:
		r.word = "refused"
		for _, f := range p.Findings {
			if f.Refuse {
				r.why = append(r.why, f.Text)
			}
		}
	case len(p.Questions) > 0:
		r.word, r.why = "ask first", p.Questions
	}
	r.why = form.Unique(r.why)
	return r
}

func (w *SpeedSweep) asked(i int) bool { return w.ruled[i].word == "ask first" }

// Duties are what layouts are swept over: speeds in rpm, or shares of rated power at the set speed.
type Duties struct {
	At       []float64
	OverLoad bool
}

// Of is a layout at one of them.
func (d Duties) Of(l *path.Layout, at float64) *path.Layout {
	if d.OverLoad {
		return sweep.AtLoad(l, at)
	}
	return sweep.AtSpeed(l, at)
}

// Foresee promises layouts at these duties, at the listeners of b; what it returns works them out.
func Foresee(k *readings.Known, all []readings.Point, over Duties) (work func()) {
	return k.Foresee(all, func(p readings.Point) (path.Prediction, error) { return over.central(k, p) })
}

// predict takes what was foreseen of a point, before the draws.
func (d Duties) predict(k *readings.Known, p readings.Point) (path.Prediction, error) {
	if promised := k.Foreseen(p); promised != nil {
		return promised()
	}
	return d.central(k, p)
}

func (d Duties) central(k *readings.Known, p readings.Point) (path.Prediction, error) {
	return k.Session().PredictFor(p.Boat, d.Of(p.Layout, p.At), path.Points)
}

// NewSpeedSweep predicts layouts over speed or load in full; see is told of every prediction, from several threads.
func NewSpeedSweep(ctx context.Context, k *readings.Known, layouts []*path.Layout, over Duties, see func(path.Prediction)) (*SpeedSweep, error) {
	swept, err := SweepLayouts(ctx, k, k.File, layouts, over, see)
	w := &SpeedSweep{boat: k.File, layouts: layouts, swept: swept, used: k.Used()}
	for _, l := range layouts {
		w.ruled = append(w.ruled, rule(k, l.Name))
	}
	return w, err
}

// Loads are the shares of rated power that sets are swept over.
var Loads = Duties{[]float64{0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1}, true}

// SweepLayouts predicts layouts over speed or load at the listeners of b.
func SweepLayouts(ctx context.Context, k *readings.Known, b *path.Boat, layouts []*path.Layout, over Duties,
	see func(path.Prediction)) ([]sweep.Swept, error) {
	byName := map[string]*path.Layout{}
	names := make([]string, len(layouts))
	for i, l := range layouts {
		names[i], byName[l.Name] = l.Name, l
	}
	predict := func(name string, rpm float64) (path.Prediction, error) {
		p, err := over.predict(k, readings.Point{Boat: b, Layout: byName[name], At: rpm})
		if err != nil {
			return p, err
		}
		if see != nil {
			see(p)
		}
		return k.Moved(p)
	}
	loss := func(name, engine string, rpm float64, hz []float64) ([]float64, error) {
		l := sweep.AtSpeed(byName[name], rpm)
		f, err := FeedOf(b, l, engine)
		if err != nil {
			return nil, err
		}
		c, err := f.Line.Curve(f.Feed, f.Options, hz)
		return c.InsertionLoss, err
	}
	if over.OverLoad {
		return sweep.RunLoads(ctx, names, over.At, predict)
	}
	all, err := sweep.Run(ctx, names, over.At, predict, loss)
	for i := range all {
		if sweep.OverLoad(layouts[i : i+1]) {
			all[i].Booms = nil // a set keeps its speed
		}
	}
	return all, err
}

// OverLimit says whether a stated limit is exceeded at any speed by a layout that can be judged.
func (w *SpeedSweep) OverLimit() bool {
	for i, s := range w.swept {
		if w.asked(i) {
			continue // nobody can say
		}
		for _, p := range s.Points {
			for j := range w.layouts[i].Engines {
				if l := w.layouts[i].Engines[j].Limit; l != nil && p.BackPressure > *l {
					return true
				}
			}
			for j, h := range p.Listeners {
				if l := w.boat.Listeners[j].Limit; l != nil && h.Level > *l {
					return true
				}
			}
		}
	}
	return false
}

func (w *SpeedSweep) notes(i int) []string {
	return SweepNotes(w.layouts[i], w.swept[i].OverLoad, w.used)
}

// SweepNotes say how readings, of which so many count, and what is stated of a layout's engines at one duty reach the others.
func SweepNotes(l *path.Layout, overLoad bool, used int) (all []string) {
	if used > 0 {
		all = append(all, fmt.Sprintf("Readings that count: %d; what they moved is taken to move every duty alike.", used))
	}
	swept := sweep.Engines(l)
	for _, e := range l.Engines {
		run, at := e.Running, ""
		if run.Power > 0 && run.Speed > 0 {
			at = said.Textf("{%.4g kW} at %.0f rpm", run.Power/1e3, run.Speed)
		}
		switch {
		case !swept[e.Name]:
			continue
		case at != "" && !overLoad && run != e.DutyAt(run.Speed):
			all = append(all, fmt.Sprintf("%s: the load law is bent to pass through the stated %s.", e.Name, at))
		}
		if e.ExhaustLevel != nil || e.CasingLevel != nil {
			all = append(all, fmt.Sprintf("%s: stated levels hold at %s, and are moved to other duties by load and speed.", e.Name, cmp.Or(at, "the running duty")))
		}
	}
	return all
}

// Document is every speed and boom of each layout.
func (w *SpeedSweep) Document() any {
	d := Sweep{form.Each(w.swept, newSwept)}
	for i := range d.Layouts {
		x := &d.Layouts[i]
		x.Verdict, x.Why, x.Notes = w.ruled[i].word, form.List(w.ruled[i].why), form.List(w.notes(i))
		if w.asked(i) {
			x.blank()
		}
	}
	return d
}

func newSwept(s sweep.Swept) Swept {
	return Swept{Name: s.Name, Booms: form.Each(s.Booms, newBoom), Points: form.Each(s.Points, func(p sweep.Point) SweepPoint {
		return SweepPoint{form.Num(p.Speed), form.Num(p.Power / 1e3), form.Kilopascal(p.BackPressure),
			form.Each(p.Listeners, func(l sweep.Level) SeatLevel { return SeatLevel{l.Name, form.Level(l.Level)} })}
	})}
}

// blank takes out the figures that nobody can give before the questions are answered.
func (x *Swept) blank() {
	x.Booms = []Boom{}
	for i := range x.Points {
		p := &x.Points[i]
		p.BackPressure = nil
		for j := range p.Listeners {
			p.Listeners[j].LevelDBA = nil
		}
	}
}

func newBoom(b sweep.Boom) Boom {
	d := Boom{Speed: form.Num(b.Speed), Text: b.Text, Listener: b.Listener, From: form.Num(b.From), To: form.Num(b.To), Rise: form.Num(b.Rise)}
	if b.Order > 0 {
		d.Order, d.Frequency, d.Loss, d.Around = form.Num(b.Order), form.Num(b.Frequency), form.Num(b.Loss), form.Num(b.Around)
	}
	return d
}

// Sheet has a row for each layout, speed and listener.
func (w *SpeedSweep) Sheet() form.Sheet {
	out := form.Sheet{{"layout", "speed_rpm", "power_kw", "back_pressure_kpa", "listener", "level_dba", "verdict"}}
	for _, s := range w.Document().(Sweep).Layouts {
		for _, p := range s.Points {
			for _, l := range p.Listeners {
				out.Add(s.Name, form.Field(p.Speed), form.Field(p.Power), form.Field(p.BackPressure), l.Name, form.Field(l.LevelDBA), s.Verdict)
			}
		}
	}
	return out
}

// Text shows each layout over speed, and its booms; of one to be asked about there is nothing firm to show.
func (w *SpeedSweep) Text(u form.Units) *form.Text {
	t := &form.Text{}
	t.Say("", "%s", w.boat.Text)
	for i, s := range w.swept {
		t.Blank()
		t.Say("", "%s", form.Name(s.Name))
		if r := w.ruled[i]; r.word != "" {
			t.Brief(2, strings.ToUpper(r.word)+": ", "%s", u.Local(strings.Join(r.why, " ")))
		}
		t.Blank()
		if w.asked(i) {
			t.Line("no firm figure at any speed before that is answered; 'compare' shows the span")
			continue
		}
		t.Table(w.speedTable(s, u))
		for _, boom := range s.Booms {
			t.Brief(1, "boom: ", "%s", boom.Text)
		}
		t.Line("%s", w.silent(i))
		for _, n := range w.notes(i) {
			t.Brief(2, "note: ", "%s", u.Local(n))
		}
	}
	return t
}

// silent says why no boom is named, or what moves one.
func (w *SpeedSweep) silent(i int) string {
	s := w.swept[i]
	switch {
	case s.OverLoad:
		return "a set at its set speed: swept over load; no order moves, so that nothing booms"
	case sweep.OverLoad(w.layouts[i : i+1]):
		return "a set keeps its speed: no boom is looked for"
	case len(s.Points) < sweep.BoomSpeeds:
		return fmt.Sprintf("booms are looked for among %d speeds or more: a smaller --step", sweep.BoomSpeeds)
	case len(s.Booms) == 0:
		return "no boom: nowhere does a level rise and fall again by 3 dB or more"
	}
	return "another length of pipe or chamber moves what a line hardly damps; another speed avoids it"
}

func (w *SpeedSweep) speedTable(s sweep.Swept, u form.Units) *form.Table {
	t := form.NewTable(">rpm", ">power", ">back pressure")
	for _, l := range w.boat.Listeners {
		t.Column(l.Name+"\ndB(A)", true)
	}
	for _, p := range s.Points {
		row := []string{fmt.Sprintf("%.0f", p.Speed), u.Show(p.Power, quantity.Power), u.Show(p.BackPressure, quantity.Pressure)}
		for _, l := range p.Listeners {
			row = append(row, fmt.Sprintf("%.1f", spectrum.Tenth(l.Level)))
		}
		t.Add(row...)
	}
	return t
}
