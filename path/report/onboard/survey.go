package onboard

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"hushwake/path"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/study/survey"
)

// Survey is what to measure and what to expect.
type Survey struct {
	Readings   []Planned  `json:"readings"`
	Acceptance []Expected `json:"acceptance"`
	Recordings []ToRecord `json:"recordings"`
}

// ToRecord is a recording worth making, and the line of the boat file that holds it.
type ToRecord struct {
	File    string `json:"file"`
	What    string `json:"what"`
	Where   string `json:"where"`
	Reading string `json:"reading"`
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

	TodayDBA form.Number `json:"today_dba"` // as read before, else by the model
	ModelDBA form.Number `json:"today_model_dba"`
	CantTell string      `json:"cant_tell"` // "" where the test tells
}

// Surveyed is a plan of readings on a boat.
type Surveyed struct {
	*report.Comparison
	present string
	plan    survey.Plan
}

// NewSurveyed plans the readings with the layout that is on board now.
func NewSurveyed(w *report.Comparison, present *path.Layout) (*Surveyed, error) {
	plan, err := survey.Make(w.Model, w.Predictions, w.Known.Draws, survey.Options{
		Present: present.Name, Listener: w.Seat(), Doors: present.Doors(), Predict: w.Known.Predictor(), Readings: w.Known.Readings()})
	plan.Acceptance = slices.DeleteFunc(plan.Acceptance, func(x survey.Expected) bool {
		i := slices.IndexFunc(w.Predictions, func(p path.Prediction) bool { return p.Layout.Name == x.Layout })
		// nobody can say what it will read, or nobody should fit it, or nothing is fitted
		return w.Asked(i) || w.Predictions[i].Refused || x.Layout == present.Name || opened(present, w.Predictions[i].Layout)
	})
	return &Surveyed{w, present.Name, plan}, err
}

// opened says whether a layout is another one with nothing but doors, windows or hatches further open.
func opened(shut, l *path.Layout) bool {
	if len(l.Partitions) != len(shut.Partitions) {
		return false
	}
	as, any := *l, false
	as.Name, as.Base, as.Price, as.Partitions = shut.Name, shut.Base, shut.Price, slices.Clone(l.Partitions)
	for i := range as.Partitions {
		if p := &as.Partitions[i]; p.OpenArea > shut.Partitions[i].OpenArea {
			p.OpenArea, any = shut.Partitions[i].OpenArea, true
		}
	}
	return any && reflect.DeepEqual(&as, shut)
}

// Document is the readings in their order and what to expect.
func (s *Surveyed) Document() any {
	return Survey{
		Readings: form.Each(s.plan.Readings, func(r survey.Planned) Planned {
			return Planned{r.Order, r.What, r.Where, r.How, form.Num(r.Before), form.Num(r.After), r.Unit}
		}),
		Acceptance: form.Each(s.plan.Acceptance, func(e survey.Expected) Expected {
			return Expected{e.Layout, e.Listener, form.Level(e.Level), form.Level(e.Low), form.Level(e.High), form.NumOr(e.Today, 1), form.NumOr(e.Model, 1), e.CantTell}
		}),
		Recordings: form.Each(s.plan.Recordings, func(r survey.ToRecord) ToRecord { return ToRecord(r) }),
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
		"standard deviation of the level at %s without and with that reading, as the root mean square over all layouts that are not refused: "+
		"that of one layout alone may lie above or below.", s.present, p.Listener)
	t.Blank()
	telling, others := form.NewTable(">", "what", "where", ">without", ">with"), form.NewTable(">", "what", "where")
	for _, r := range p.Readings {
		place := []string{strconv.Itoa(r.Order), u.Local(r.What), u.Local(r.Where)}
		if before, after := deviation(r.Before, r), deviation(r.After, r); before != after {
			telling.Add(append(place, before, after)...)
		} else {
			others.Add(place...)
		}
	}
	t.Table(telling)
	if len(others.Rows) > 0 {
		t.Line("\nThese narrow it by less than the columns show; what they tell apart stands below:\n")
		t.Table(others)
	}
	t.Line("\nHow:")
	said := map[string]bool{}
	for _, r := range p.Readings {
		if r.How == "" || said[r.How] {
			continue
		}
		said[r.How] = true
		t.Say(fmt.Sprintf("%3d ", r.Order), "%s", u.Local(r.How))
	}
	s.sayRecordings(t)
	s.sayAcceptance(t)
	return t
}

// deviation is one of a reading, as it is printed.
func deviation(sd float64, r survey.Planned) string { return fmt.Sprintf("%.1f %s", sd, r.Unit) }

// sayRecordings says what to record, with the lines for the boat file.
func (s *Surveyed) sayRecordings(t *form.Text) {
	if len(s.plan.Recordings) == 0 {
		return
	}
	t.Line("\nRecordings, and their lines under readings: of the boat file:\n")
	for _, r := range s.plan.Recordings {
		t.Say("  - ", "%s", strings.TrimPrefix(form.Name(r.Reading), "- ")) // what is wrapped stays in its entry
	}
	t.Say("", "%s", survey.HowRecord)
}

// sayAcceptance says what each layout that may be fitted should read, and where that can't be told from before.
func (s *Surveyed) sayAcceptance(t *form.Text) {
	if len(s.plan.Acceptance) == 0 {
		t.Line("\nNo layout of the file can be fitted that has firm figures: nothing to expect after fitting.")
		return
	}
	t.Line("\nAfter fitting, the same meter at the same duty should read, dB(A):\n")
	expected := form.NewTable("layout", "listener", ">expected", ">eight cases of ten", ">before, read", ">before, model", "told?")
	var better []string
	blurred := false
	for _, e := range s.plan.Acceptance {
		read, mark := "-", ""
		if e.Today != nil && *e.Today != *e.Model {
			read = form.Decibel(*e.Today)
		}
		if e.CantTell != "" {
			mark, blurred = "can't tell", true
			if e.Better != "" {
				better = append(better, fmt.Sprintf("for %s, %s", form.Quote(e.Layout), e.Better))
			}
		}
		model := "-"
		if e.Model != nil {
			model = form.Decibel(*e.Model)
		}
		expected.Add(e.Layout, e.Listener, form.Decibel(e.Level), form.BandText(e.Low, e.High), read, model, mark)
	}
	t.Table(expected)
	if !blurred {
		return
	}
	text := "Can't tell: the level of before lies in the band after, so that one reading tells nothing of the change; measure both on one day with one instrument, or ask for a larger change."
	if better = form.Unique(better); len(better) > 0 {
		text += " Or measure elsewhere: " + strings.Join(better, "; ") + "."
	}
	t.Say("", "%s", text)
}
