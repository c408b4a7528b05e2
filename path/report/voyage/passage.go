package voyage

import (
	"hushwake/path"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/study/offers"
	"hushwake/path/study/passage"
	"hushwake/path/study/readings"
)

// Passages is days at sea with every layout.
type Passages struct {
	Passages []Passage      `json:"passages"`
	Floor    []report.Floor `json:"floor"`
	Beats    []report.Beat  `json:"beats"`
}

// Passage is one of them.
type Passage struct {
	Name    string          `json:"name"`
	Hours   form.Number     `json:"hours"`
	Days    form.Number     `json:"days"`
	Cycle   string          `json:"cycle"` // the test cycle that stands for its legs; "" where they are stated
	Layouts []PassageLayout `json:"layouts"`
}

// PassageLayout is a passage with one layout.
type PassageLayout struct {
	Name       string      `json:"name"`
	Verdict    string      `json:"verdict"` // of the comparison: ok | over limit | ask first | refused
	Places     []Exposed   `json:"places"`
	Watch      *Exposed    `json:"watch"` // null where no watches are stated or both places are one
	FuelLitres form.Number `json:"fuel_litres"`
	FuelPrice  form.Number `json:"fuel_price"`
	LitresYear form.Number `json:"fuel_litres_year"`
	PriceYear  form.Number `json:"fuel_price_year"`
	Cruising   []Cruising  `json:"cruising"`
	Legs       []PassedLeg `json:"legs"`
}

// Exposed is a day at a place, or of one who keeps watches.
type Exposed struct {
	Listener    string      `json:"listener"`
	ExposureDBA form.Number `json:"exposure_dba_8h"`
	LowDBA      form.Number `json:"low_dba"`
	HighDBA     form.Number `json:"high_dba"`
	MeanDBA     form.Number `json:"leq_24h_dba"`
}

// Cruising is the stated speed at which a mile brings least sound to a place.
type Cruising struct {
	Listener   string      `json:"listener"`
	Speed      form.Number `json:"speed_rpm"`
	OverGround form.Number `json:"over_ground_kn"`
	SavesDB    form.Number `json:"saves_db"`
	Litres     form.Number `json:"litres_per_mile"`
}

// PassedLeg is what runs on a leg.
type PassedLeg struct {
	Hours   form.Number  `json:"hours"` // of a day
	Engines []PassedDuty `json:"engines"`
}

// PassedDuty is an engine on a leg, with the lines of its shaft and propeller where they are stated.
type PassedDuty struct {
	Engine string      `json:"engine"`
	Speed  form.Number `json:"speed_rpm"`
	Power  form.Number `json:"power_kw"`
	Shaft  form.Number `json:"shaft_hz"`
	Blade  form.Number `json:"blade_hz"`
}

// Voyages is the passages of a boat worked out.
type Voyages struct {
	boat   *path.Boat
	judged *report.Comparison // of the same layouts, at the duty of the file
	all    []passage.Passage
	floors []passage.Floor
	beats  []passage.Beat
}

// NewVoyages works the passages of a file out for some of its layouts.
func NewVoyages(k *readings.Known, layouts []*path.Layout) (*Voyages, error) {
	all, err := passage.Run(k, layouts)
	if err != nil {
		return nil, err
	}
	judged, err := report.NewComparison(k.File, layouts, 0, k)
	if err != nil {
		return nil, err
	}
	w := &Voyages{k.File, judged, all, judged.Floors(), passage.Beats(judged.Predictions)}
	return w, w.spanAsked(k, layouts)
}

// spanAsked puts the span of what the sheets allow in place of the figures of a layout that has to be asked about first.
func (w *Voyages) spanAsked(k *readings.Known, layouts []*path.Layout) error {
	for i, l := range layouts {
		if !w.judged.Asked(i) {
			continue
		}
		best, worst := offers.BestAndWorst(l, k.File.Quotes)
		best.Name, worst.Name = l.Name+" at its best", l.Name+" at its worst"
		read, err := passage.Run(k, []*path.Layout{best, worst})
		if err != nil {
			return err
		}
		for n := range w.all {
			w.all[n].Layouts[i].Widen(read[n].Layouts...)
		}
	}
	return nil
}

// Document is every passage with every layout.
func (w *Voyages) Document() any {
	return Passages{form.Each(w.all, w.newPassage), form.Each(w.floors, report.NewFloor), form.Each(w.beats, report.NewBeat)}
}

func (w *Voyages) newPassage(p passage.Passage) Passage {
	out := Passage{Name: p.Name, Hours: form.Num(p.Hours), Days: form.Num(p.Days), Cycle: p.Cycle, Layouts: []PassageLayout{}}
	for i := range p.Layouts {
		out.Layouts = append(out.Layouts, w.newPassageLayout(p, i))
	}
	return out
}

func (w *Voyages) newPassageLayout(p passage.Passage, i int) PassageLayout {
	l := p.Layouts[i]
	out := PassageLayout{Name: l.Name, Verdict: w.judged.Verdict(i), Places: form.Each(l.Places, newExposed), FuelLitres: form.Num(l.Fuel * 1e3)}
	if l.Watch != nil {
		w := newExposed(l.Watch.Place)
		out.Watch = &w
	}
	if p.FuelPrice > 0 {
		out.FuelPrice = form.Num(l.Fuel * p.FuelPrice)
	}
	if p.Times > 0 {
		out.LitresYear, out.PriceYear = form.NumOr(out.FuelLitres, p.Times), form.NumOr(out.FuelPrice, p.Times)
	}
	out.Cruising = form.Each(l.Cruise, func(c passage.Cruised) Cruising {
		return Cruising{c.Place, form.Num(c.Speed), form.Num(c.Over / knot), form.Level(c.Saves), form.Num(c.Fuel * 1e3)}
	})
	out.Legs = form.Each(l.Legs, func(g passage.Leg) PassedLeg {
		return PassedLeg{form.Num(g.Hours), form.Each(g.Running, func(r passage.Running) PassedDuty {
			return PassedDuty{r.Engine, form.Num(r.Duty.Speed), form.Num(r.Duty.Power / 1e3), aboveZero(r.Shaft), aboveZero(r.Blade)}
		})}
	})
	return out
}

// knot is one in m/s.
const knot = 1852.0 / 3600

// aboveZero is a number that 0 stands for none of.
func aboveZero(v float64) form.Number {
	if v == 0 {
		return nil
	}
	return form.Num(v)
}

func newExposed(p passage.Place) Exposed {
	return Exposed{p.Name, form.Level(p.Exposure), form.Level(p.Low), form.Level(p.High), form.Level(p.MeanOfDay())}
}

// Sheet has a row for each passage, layout and place.
func (w *Voyages) Sheet() form.Sheet {
	out := form.Sheet{{"passage", "layout", "place", "exposure_dba_8h", "low_dba", "high_dba", "leq_24h_dba", "fuel_litres", "fuel_price", "verdict"}}
	for _, p := range w.all {
		for i, l := range p.Layouts {
			d := w.newPassageLayout(p, i)
			places := d.Places
			if d.Watch != nil {
				places = append(places, *d.Watch)
			}
			for _, e := range places {
				out.Add(p.Name, l.Name, e.Listener, form.Field(e.ExposureDBA), form.Field(e.LowDBA), form.Field(e.HighDBA), form.Field(e.MeanDBA), form.Field(d.FuelLitres), form.Field(d.FuelPrice), d.Verdict)
			}
		}
	}
	return out
}
