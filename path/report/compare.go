package report

import (
	"strconv"

	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study/advice"
	"hushwake/path/study/passage"
)

// Compare is every layout at every listener. Keys are fixed; a value that does not exist is null.
type Compare struct {
	Version     string              `json:"version"`
	Boat        string              `json:"boat"`
	Units       string              `json:"units"`
	Seed        uint64              `json:"seed"`
	Draws       int                 `json:"draws"`
	BandsHz     []form.Number       `json:"bands_hz"`
	Layouts     []Layout            `json:"layouts"`
	Ranking     map[string][]Ranked `json:"ranking"`
	Tradeoff    []Tradeoff          `json:"tradeoff"`
	Assumptions []parts.Assumption  `json:"assumptions"`
	Warnings    []string            `json:"warnings"`

	ReadingsUsed int    `json:"readings_used"`
	Advice       Advice `json:"advice"`

	Floor []Floor `json:"floor"`
	Beats []Beat  `json:"beats"`
}

// Ranked is a layout's place at a listener.
type Ranked struct {
	Layout   string      `json:"layout"`
	LevelDBA form.Number `json:"level_dba"`
	Quietest form.Number `json:"probability_quietest"`
}

// Tradeoff is a layout's level at a listener beside its highest rated back pressure.
type Tradeoff struct {
	Layout            string      `json:"layout"`
	Listener          string      `json:"listener"`
	LevelDBA          form.Number `json:"level_dba"`
	RatedBackPressure form.Number `json:"rated_back_pressure_kpa"`
	OnFront           bool        `json:"on_front"`
}

// Document is the comparison with its ranking and trade-off.
func (w *Comparison) Document() any {
	d := Compare{
		Version: form.Version, Boat: w.Boat.Text, Units: "SI, as named in each key", Seed: w.Spread.Draws.Seed, Draws: w.Spread.Draws.N,
		ReadingsUsed: w.Known.Used(), Advice: w.adviceDoc(), BandsHz: form.BandsHz(), Layouts: w.Layouts(), Floor: form.Each(w.Floors(), NewFloor), Beats: form.Each(passage.Beats(w.Predictions), NewBeat), Ranking: map[string][]Ranked{},
		Tradeoff: []Tradeoff{}, Assumptions: w.assumptions(), Warnings: form.List(w.Warned()),
	}
	for j, l := range w.Boat.Listeners {
		for _, i := range w.Order(j) {
			if w.Asked(i) {
				continue // not ranked
			}
			s := w.Spread.Layouts[i].Listeners[j]
			d.Ranking[l.Name] = append(d.Ranking[l.Name], Ranked{w.Predictions[i].Layout.Name, form.Level(s.Level), form.Num(s.Quietest)})
		}
		for _, t := range w.fronts() {
			if t.Listener == l.Name {
				d.Tradeoff = append(d.Tradeoff, Tradeoff{t.Layout, t.Listener, w.tradedLevel(t), form.NumOr(t.RatedPressure, 1e-3), t.OnFront})
			}
		}
	}
	return d
}

// tradedLevel is that of a trade-off, null where the layout can't be judged.
func (w *Comparison) tradedLevel(t advice.Tradeoff) form.Number {
	for i, p := range w.Predictions {
		if p.Layout.Name == t.Layout && w.Asked(i) {
			return nil
		}
	}
	return form.Level(t.Level)
}

// Layouts are the layouts with what is known of them after the readings.
func (w *Comparison) Layouts() []Layout {
	out := LayoutsOf(w.Predictions, w.Spread)
	for i := range out {
		out[i].Verdict = w.Verdict(i)
		if w.Asked(i) {
			out[i].Questions = w.asks[i].questions
		}
		for j := range out[i].Listeners {
			e := w.ear(i, j)
			out[i].Listeners[j].Ear = &e
			if w.Known.Used() > 0 {
				out[i].Listeners[j].UncorrectedDBA = form.Level(w.Uncorrected().Layouts[i].Listeners[j].Level)
			}
		}
	}
	return out
}

// Sheet has a row per layout and listener.
func (w *Comparison) Sheet() form.Sheet {
	out := form.Sheet{{"layout", "listener", "level_dba", "low_dba", "high_dba", "rated_back_pressure_kpa", "limit_kpa", "refused", "price"}}
	for j, l := range w.Boat.Listeners {
		for _, i := range w.Order(j) {
			p, h := &w.Predictions[i], w.Spread.Layouts[i].Listeners[j]
			var bp, limit *float64
			if e := w.worstExhaust(i); e >= 0 {
				bp, limit = form.Num(w.Spread.Layouts[i].Exhausts[e].Rated/1e3), form.NumOr(p.Exhausts[e].Limit, 1e-3)
			}
			out.Add(p.Layout.Name, l.Name, form.Field(form.Level(h.Level)), form.Field(form.Level(h.Low)), form.Field(form.Level(h.High)),
				form.Field(bp), form.Field(limit), strconv.FormatBool(p.Refused), form.Field(p.Layout.Price))
		}
	}
	return out
}

// Floors are what no exhaust work takes out, by place.
func (w *Comparison) Floors() []passage.Floor {
	return passage.Floors(w.Predictions, advice.Unheard(w.sample.Levels))
}
