package report

import (
	"fmt"
	"slices"
	"strconv"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/study/survey"
)

// Survey is what to measure and what to expect.
type Survey struct {
	Readings   []Planned  `json:"readings"`
	Acceptance []Expected `json:"acceptance"`
}

// Planned is a reading worth taking.
type Planned struct {
	Order    int         `json:"order"`
	What     string      `json:"what"`
	Where    string      `json:"where"`
	How      string      `json:"how"`
	SDBefore form.Number `json:"sd_before"`
	SDAfter  form.Number `json:"sd_after"`
	Unit     string      `json:"unit"`
}

// Expected is what a meter should show after fitting.
type Expected struct {
	Layout   string      `json:"layout"`
	Listener string      `json:"listener"`
	LevelDBA form.Number `json:"level_dba"`
	LowDBA   form.Number `json:"low_dba"`
	HighDBA  form.Number `json:"high_dba"`

	TodayDBA form.Number `json:"today_dba"` // null on the layout of today
	CantTell string      `json:"cant_tell"` // "" where the test tells
}

// Surveyed is a plan of readings on a boat.
type Surveyed struct {
	*Comparison
	present string
	plan    survey.Plan
}

// NewSurveyed plans the readings with the layout that is on board now.
func NewSurveyed(w *Comparison, present *path.Layout) (*Surveyed, error) {
	plan, err := survey.Make(w.model, w.Predictions, w.Known.Draws, survey.Options{
		Present: present.Name, Listener: w.seat(), Doors: present.Doors(), Predict: w.Known.Predictor(), Readings: w.Known.Readings()})
	plan.Acceptance = slices.DeleteFunc(plan.Acceptance, func(x survey.Expected) bool {
		i := slices.IndexFunc(w.Predictions, func(p path.Prediction) bool { return p.Layout.Name == x.Layout })
		return w.Asked(i) // nobody can say what it will read
	})
	return &Surveyed{w, present.Name, plan}, err
}

// Document is the readings in their order and what to expect.
func (s *Surveyed) Document() any {
	return Survey{
		Readings: form.Each(s.plan.Readings, func(r survey.Planned) Planned {
			return Planned{r.Order, r.What, r.Where, r.How, form.Num(r.Before), form.Num(r.After), r.Unit}
		}),
		Acceptance: form.Each(s.plan.Acceptance, func(e survey.Expected) Expected {
			return Expected{e.Layout, e.Listener, form.Level(e.Level), form.Level(e.Low), form.Level(e.High), form.NumOr(e.Today, 1), e.CantTell}
		}),
	}
}

// Sheet has a row for each reading.
func (s *Surveyed) Sheet() form.Sheet {
	out := form.Sheet{{"order", "what", "where", "how", "sd_before", "sd_after", "unit"}}
	for _, r := range s.plan.Readings {
		out.Add(strconv.Itoa(r.Order), r.What, r.Where, r.How, form.Field(form.Num(r.Before)), form.Field(form.Num(r.After)), r.Unit)
	}
	return out
}

// Text says what to measure, how, and what to expect after fitting.
func (s *Surveyed) Text(u form.Units) *form.Text {
	t, p := &form.Text{}, s.plan
	t.Say("", "%s", s.Boat.Text)
	t.Blank()
	t.Say("", "What to measure now, with \"%s\" on board, the most telling reading first. The last two columns are one "+
		"standard deviation of the level at %s without and with that reading.", s.present, p.Listener)
	t.Blank()
	readings := form.NewTable(">", "what", "where", ">without", ">with")
	for _, r := range p.Readings {
		readings.Add(strconv.Itoa(r.Order), u.Local(r.What), u.Local(r.Where), fmt.Sprintf("%.1f %s", r.Before, r.Unit), fmt.Sprintf("%.1f %s", r.After, r.Unit))
	}
	t.Table(readings)
	t.Line("\nHow:")
	said := map[string]bool{}
	for _, r := range p.Readings {
		if r.How == "" || said[r.How] {
			continue
		}
		said[r.How] = true
		t.Say(fmt.Sprintf("%3d ", r.Order), "%s", u.Local(r.How))
	}
	t.Line("\nAfter fitting, the same meter at the same duty should read, dB(A):\n")
	expected := form.NewTable("layout", "listener", ">expected", ">eight cases of ten")
	for _, e := range p.Acceptance {
		expected.Add(e.Layout, e.Listener, form.Decibel(e.Level), form.BandText(e.Low, e.High))
	}
	t.Table(expected)
	for _, e := range p.Acceptance {
		if e.CantTell != "" {
			t.Say("  ", "%s at %s: %s.", form.Quote(e.Layout), e.Listener, e.CantTell)
		}
	}
	return t
}
