package parts

import (
	"context"
	"strings"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/study/choice"
	"hushwake/path/study/readings"
)

// Choice is what to put into the slots of a layout.
type Choice struct {
	Layout     string                 `json:"layout"`
	Listener   string                 `json:"listener"`
	Budget     map[string]form.Number `json:"budget"`
	Tried      int                    `json:"tried"`
	Pruned     int                    `json:"pruned"`
	Reasons    map[string]int         `json:"pruned_for"`
	Exhaustive bool                   `json:"exhaustive"`
	Cancelled  bool                   `json:"cancelled"`
	Best       *Chose                 `json:"best"`
	Front      []Chose                `json:"front"`
	Notes      []string               `json:"notes"`

	slots    []path.Slot
	left     []string // sizes that do not go together
	currency string
	result   *choice.Result
}

// Chose is one choice of the front.
type Chose struct {
	Choice    map[string]string `json:"choice"` // by slot
	LevelDBA  form.Number       `json:"level_dba"`
	LowDBA    form.Number       `json:"low_dba"`
	HighDBA   form.Number       `json:"high_dba"`
	BandDBA   form.Number       `json:"level_over_band_dba"` // kept to in eight of ten of the speeds and temperatures
	OthersDBA form.Number       `json:"others_dba"`          // of it what the lines do not change
	Pressure  form.Number       `json:"rated_back_pressure_kpa"`
	LengthM   form.Number       `json:"length_m"`
	Price     form.Number       `json:"price"`        // null = a part of it has none
	Stated    form.Number       `json:"price_stated"` // of the price what is stated
	Names     []string          `json:"names"`
	Text      string            `json:"text"`
	EqualTo   []int             `json:"equal_to"` // places in the front, from 0
	Questions []string          `json:"questions"`
	Place     int               `json:"place"`           // by the full prediction, from 1
	Searched  int               `json:"place_in_search"` // by the score of the search
}

// NewChoice searches the slots of a layout; the end of ctx leaves the best so far.
func NewChoice(ctx context.Context, k *readings.Known, l *path.Layout, listener int, o choice.Options) (*Choice, error) {
	if e := engineOf(l); e != nil && o.Budget.Pressure == nil {
		o.Budget.Pressure = e.Limit
	}
	r, err := choice.Choose(ctx, k, l, listener, o)
	if err != nil {
		return nil, err
	}
	return newChoice(r, &Choice{Layout: l.Name, Listener: k.Boat.Listeners[listener].Name, Budget: budgetOf(o.Budget),
		slots: l.Slots.Slots, left: l.Slots.Left, currency: k.Boat.Currency}), nil
}

// newChoice puts a result into words.
func newChoice(r *choice.Result, d *Choice) *Choice {
	d.Tried, d.Pruned, d.Reasons, d.Exhaustive, d.Cancelled, d.Front, d.result = r.Tried, r.Pruned, r.Reasons, r.Exhaustive, r.Cancelled, []Chose{}, r
	for i := range r.Front {
		d.Front = append(d.Front, d.chose(&r.Front[i]))
	}
	for i := range d.Front {
		d.Front[i].Text = d.explain(i, form.Units{})
		if r.Best == &r.Front[i] {
			d.Best = &d.Front[i]
		}
	}
	d.Notes = form.List(d.notes())
	return d
}

// engineOf is the engine whose line alone is left open; nil where several are.
func engineOf(l *path.Layout) *path.Engine {
	if l.Slots == nil || len(l.Slots.Engines()) != 1 {
		return nil
	}
	e, _ := l.Engine(l.Slots.Engines()[0])
	return e
}

func (d *Choice) chose(p *choice.Point) Chose {
	c := Chose{Choice: map[string]string{}, LevelDBA: form.Level(p.Level), LowDBA: form.Level(p.Low), HighDBA: form.Level(p.High), BandDBA: form.Level(p.OverBand), OthersDBA: form.Level(p.Others),
		Pressure: form.Kilopascal(p.Pressure), LengthM: form.Num(p.Length), Price: form.NumOr(p.Price, 1), Stated: form.Num(p.Stated), Names: form.List(p.Names), EqualTo: form.List(p.Equal),
		Questions: form.List(p.Questions), Place: p.Place, Searched: p.Searched}
	if len(p.Questions) > 0 {
		c.LevelDBA = nil
	}
	for i, k := range p.Choice {
		c.Choice[d.slots[i].Name] = d.slots[i].Options[k].Text
	}
	return c
}

// words is a choice in the order of the slots.
func (d *Choice) words(c *Chose) string {
	var all []string
	for _, s := range d.slots {
		all = append(all, s.Name+": "+c.Choice[s.Name])
	}
	return strings.Join(all, "; ")
}

// Document is the choices themselves.
func (d *Choice) Document() any { return d }

// Sheet has a row for each choice of the front, and names the one that is taken.
func (d *Choice) Sheet() form.Sheet {
	head := []string{"choice", "level_dba", "low_dba", "high_dba", "level_over_band_dba", "rated_back_pressure_kpa", "length_m", "price"}
	for _, s := range d.slots {
		head = append(head, s.Name)
	}
	out := form.Sheet{head}
	for i := range d.Front {
		c, name := &d.Front[i], "front"
		if c == d.Best {
			name = "taken"
		}
		cells := []string{name, form.Field(c.LevelDBA), form.Field(c.LowDBA), form.Field(c.HighDBA), form.Field(c.BandDBA), form.Field(c.Pressure), form.Field(c.LengthM), form.Field(c.Price)}
		for _, s := range d.slots {
			cells = append(cells, c.Choice[s.Name])
		}
		out.Add(cells...)
	}
	return out
}
