package parts

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"hushwake/path/recording"
	"hushwake/path/recording/meter"
	"hushwake/path/recording/order"
	"hushwake/path/report/form"
	"hushwake/source/spectrum"
)

// Listen is what was found in recordings. Levels are in dB re 20 uPa where a meter's reading was stated, else re full scale, a
// mean square of 1 (a sine that just fills it reads -3 dB).
type Listen struct {
	Calibrated  bool             `json:"calibrated"`
	BandsHz     []form.Number    `json:"bands_hz"`
	ThirdsHz    []form.Number    `json:"thirds_hz"`
	Files       []Recorded       `json:"files"`
	Differences []RecordedChange `json:"differences"`
	Predicted   *RecordedBeside  `json:"predicted"` // null without a boat, a listener and a meter's reading
	Hints       []string         `json:"hints"`
}

// Recorded is one recording.
type Recorded struct {
	Name       string          `json:"name"`
	Seconds    form.Number     `json:"seconds"`
	Rate       int             `json:"sample_rate_hz"`
	Warnings   []string        `json:"warnings"`
	Speed      form.Number     `json:"speed_rpm"` // null: not known
	Slowest    form.Number     `json:"speed_low_rpm"`
	Fastest    form.Number     `json:"speed_high_rpm"`
	Firing     form.Number     `json:"firing_frequency_hz"`
	Candidates []Candidate     `json:"candidates"`
	LevelDBA   form.Number     `json:"level_dba"` // null without a meter's reading
	LevelDBC   form.Number     `json:"level_dbc"`
	Bands      []form.Number   `json:"bands_db"`
	Thirds     []form.Number   `json:"thirds_db"`
	Orders     []RecordedOrder `json:"orders"`
	Broadband  []form.Number   `json:"broadband_db"` // each null without a speed
	Tone       *Tone           `json:"tone"`         // of its own spectrum, whoever makes it; null: none stands out
}

// Candidate is a speed that may be.
type Candidate struct {
	Speed     form.Number `json:"speed_rpm"`
	Firing    form.Number `json:"firing_frequency_hz"`
	Cylinders int         `json:"cylinders"`
	TwoStroke bool        `json:"two_stroke"`
}

// RecordedOrder is one line.
type RecordedOrder struct {
	Order     form.Number `json:"order"`
	Frequency form.Number `json:"frequency_hz"`
	Level     form.Number `json:"level_db"`
	Over      form.Number `json:"over_broadband_db"`
	Label     string      `json:"label"` // firing, shaft, propeller blades; "" another order of the engine
}

// RecordedChange is one recording less another.
type RecordedChange struct {
	From     string        `json:"from"`
	To       string        `json:"to"`
	Bands    []form.Number `json:"bands_db"`
	DBA      form.Number   `json:"dba"`
	Orders   []OrderChange `json:"orders"`
	Warnings []string      `json:"warnings"`
}

// OrderChange is by how much a line differs.
type OrderChange struct {
	Order      form.Number `json:"order"`
	Difference form.Number `json:"difference_db"`
}

// RecordedBeside is what the file's boat is predicted to sound like there.
type RecordedBeside struct {
	Layout   string      `json:"layout"`
	Listener string      `json:"listener"`
	LevelDBA form.Number `json:"level_dba"`
	LowDBA   form.Number `json:"low_dba"`
	HighDBA  form.Number `json:"high_dba"`
	Text     string      `json:"text"`
}

// Heard are recordings taken apart.
type Heard struct {
	all         []*recording.Recording
	differences []recording.Difference
	offset      float64 // dB from full scale to 20 uPa; NaN = not known
	beside      *RecordedBeside
}

// Metered is what a meter showed beside the first recording.
type Metered struct {
	Level float64
	C     bool // weighted so, else A
}

// NewHeard takes recordings of one phone and setting apart. One reading of a meter beside the first sets the scale of all.
func NewHeard(all []*recording.Recording, m *Metered) (*Heard, error) {
	h := &Heard{all: all, offset: math.NaN()}
	for i, r := range all[1:] {
		for _, from := range all[:i+1] {
			h.differences = append(h.differences, recording.Against(from, r))
		}
	}
	if m == nil {
		return h, nil
	}
	if all[0].Clipped {
		return nil, errors.New("the first recording is clipped: a meter's reading sets no scale\nhint: record again with less gain")
	}
	if h.offset = m.Level - all[0].A; m.C {
		h.offset = m.Level - all[0].C
	}
	return h, nil
}

// Beside sets the predicted level, with its band of eight cases of ten, beside the first recording. All are in dB(A).
func (h *Heard) Beside(layout, listener string, level, low, high float64) {
	if math.IsNaN(h.offset) {
		return
	}
	read, verdict := h.all[0].A+h.offset, "inside"
	if read < low || read > high {
		verdict = "outside"
	}
	h.beside = &RecordedBeside{layout, listener, form.Level(level), form.Level(low), form.Level(high),
		fmt.Sprintf("%s, %s: predicted %s dB(A), eight cases of ten %s; the recording with %.1f dB(A) lies %s.", form.Quote(layout), listener, form.Decibel(level), form.BandText(low, high), read, verdict)}
}

// Warnings are those of every recording, with its name, and of the differences.
func (h *Heard) Warnings() (out []string) {
	for _, r := range h.all {
		for _, w := range r.Warnings {
			out = append(out, r.Name+": "+w)
		}
	}
	for _, d := range h.differences {
		for _, w := range d.Warnings {
			out = append(out, fmt.Sprintf("%s less %s: %s", d.To.Name, d.From.Name, w))
		}
	}
	return out
}

// hints are what the orders may mean.
func (h *Heard) hints() (out []string) {
	for _, d := range h.differences {
		if recording.WeakCylinder(d.From, d.To) {
			out = append(out, fmt.Sprintf("One cylinder may be weak: in %s and in %s the orders between the firing orders stand out evenly. It is a hint, no verdict, and says nothing of which.", d.From.Name, d.To.Name))
		}
	}
	return out
}

// scaled is a level on the scale that is known; silence has none.
func (h *Heard) scaled(db float64) form.Number {
	if db <= spectrum.Silent || math.IsNaN(db) {
		return nil
	}
	if !math.IsNaN(h.offset) {
		db += h.offset
	}
	return form.Num(math.Round(db*1e3) / 1e3)
}

func (h *Heard) metered(db float64) form.Number {
	if math.IsNaN(h.offset) {
		return nil
	}
	return h.scaled(db)
}

// Document is everything found.
func (h *Heard) Document() any {
	d := Listen{Calibrated: !math.IsNaN(h.offset), BandsHz: form.BandsHz(), Files: form.Each(h.all, h.recorded), Predicted: h.beside, Hints: form.List(h.hints())}
	for i := range meter.Thirds {
		d.ThirdsHz = append(d.ThirdsHz, form.Num(math.Round(meter.Third(i)*10)/10))
	}
	d.Differences = form.Each(h.differences, func(x recording.Difference) RecordedChange {
		return RecordedChange{x.From.Name, x.To.Name, form.BandValues(x.Bands), form.Num(x.A),
			form.Each(x.Orders, func(s recording.Step) OrderChange { return OrderChange{form.Num(s.Order), form.Num(s.Difference)} }), form.List(x.Warnings)}
	})
	return d
}

func (h *Heard) recorded(r *recording.Recording) Recorded {
	out := Recorded{Name: r.Name, Seconds: form.Num(r.Seconds), Rate: r.Rate, Warnings: form.List(r.Warnings), LevelDBA: h.metered(r.A), LevelDBC: h.metered(r.C),
		Bands: form.Each(r.Bands[:], h.scaled), Thirds: form.Each(r.Thirds[:], h.scaled), Orders: []RecordedOrder{}, Broadband: make([]form.Number, spectrum.N), Tone: NewTone(r.Tone),
		Candidates: form.Each(r.Candidates, func(t order.Track) Candidate {
			return Candidate{form.Num(t.Middle()), form.Num(t.Kind.EngineFiring(t.Middle())), t.Kind.Cylinders, t.Kind.TwoStroke}
		})}
	if l := r.Lines; l != nil {
		out.Speed, out.Slowest, out.Fastest, out.Firing = form.Num(l.Speed), form.Num(l.Low), form.Num(l.High), form.Num(r.Kind.EngineFiring(l.Speed))
		out.Broadband = form.Each(l.Broadband[:], h.scaled)
		out.Orders = form.Each(l.Orders, func(l order.Line) RecordedOrder {
			return RecordedOrder{form.Num(l.Order), form.Num(l.Frequency), h.scaled(l.Level), form.Num(l.Over), labelOf(l)}
		})
	}
	return out
}

func labelOf(l order.Line) string {
	if l.Firing {
		return "firing"
	}
	return l.Label
}

// Sheet has a row for each level and difference.
func (h *Heard) Sheet() form.Sheet {
	out := form.Sheet{{"file", "what", "at", "db"}}
	d := h.Document().(Listen)
	rows := func(file, what string, at, values []form.Number) {
		for i, v := range values {
			out.Add(file, what, form.Field(at[i]), form.Field(v))
		}
	}
	for _, f := range d.Files {
		rows(f.Name, "octave", d.BandsHz, f.Bands)
		rows(f.Name, "third octave", d.ThirdsHz, f.Thirds)
		rows(f.Name, "broadband octave", d.BandsHz, f.Broadband)
		for _, o := range f.Orders {
			out.Add(f.Name, "order", form.Field(o.Order), form.Field(o.Level))
		}
	}
	for _, x := range d.Differences {
		name := x.To + " less " + x.From
		rows(name, "octave", d.BandsHz, x.Bands)
		out.Add(name, "A", "", strconv.FormatFloat(*x.DBA, 'g', 10, 64))
		for _, o := range x.Orders {
			out.Add(name, "order", form.Field(o.Order), form.Field(o.Difference))
		}
	}
	return out
}
