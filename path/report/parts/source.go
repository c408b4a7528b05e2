package parts

import (
	"fmt"
	"sort"
	"strconv"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// Source is what each engine gives off.
type Source struct {
	BandsHz []form.Number `json:"bands_hz"`
	Engines []Engine      `json:"engines"`
}

// Engine is one engine at its running duty.
type Engine struct {
	Name        string        `json:"name"`
	PowerKW     form.Number   `json:"power_kw"`
	SpeedRPM    form.Number   `json:"speed_rpm"`
	Firing      form.Number   `json:"firing_frequency_hz"`
	Exhaust     []form.Number `json:"exhaust_bands_db"`
	ExhaustDBA  form.Number   `json:"exhaust_dba"`
	Casing      []form.Number `json:"casing_bands_db"`
	CasingDBA   form.Number   `json:"casing_dba"`
	Intake      []form.Number `json:"intake_bands_db"` // null: inside the casing value
	Alternator  []form.Number `json:"alternator_bands_db"`
	Flow        form.Number   `json:"exhaust_flow_kg_s"`
	Temperature form.Number   `json:"exhaust_temperature_c"`
	Orders      []Order       `json:"orders"`
	Assumptions []Assumption  `json:"assumptions"`
	Warnings    []string      `json:"warnings"`
}

// Order is one order of an engine.
type Order struct {
	Order     form.Number `json:"order"`
	Frequency form.Number `json:"frequency_hz"`
	Level     form.Number `json:"level_db"`
}

// runningEngine is an engine with its result at the running duty.
type runningEngine struct {
	engine *path.Engine
	result source.Result
}

// Sources are the running engines of a file.
type Sources []runningEngine

// NewSources works the running engines of the first layout out.
func NewSources(b *path.Boat) (Sources, error) {
	if len(b.Layouts) == 0 || len(b.Layouts[0].Engines) == 0 {
		return nil, fmt.Errorf("%s holds no engines\nhint: add an engines section; 'hushwake start dry-stack' shows one", b.File)
	}
	var out Sources
	for i := range b.Layouts[0].Engines {
		e := &b.Layouts[0].Engines[i]
		if e.Stopped {
			continue
		}
		duty, _ := e.RunningDuty()
		r, err := e.Engine.At(duty)
		if err != nil {
			return nil, fmt.Errorf("engine %s: %w", e.Name, err)
		}
		out = append(out, runningEngine{e, r})
	}
	return out, nil
}

// Warnings are those of every engine.
func (all Sources) Warnings(u form.Units) (out []string) {
	for _, e := range all {
		out = append(out, u.LocalAll(e.result.Warnings)...)
	}
	return out
}

// Document is levels, flow and every order of each engine.
func (all Sources) Document() any {
	return Source{BandsHz: form.BandsHz(), Engines: form.Each(all, runningEngine.document)}
}

func (e runningEngine) document() Engine {
	r := e.result
	return Engine{
		Name: e.engine.Name, PowerKW: form.Num(r.Duty.Power / 1e3), SpeedRPM: form.Num(r.Duty.Speed), Firing: form.Num(float64(r.FiringFrequency)),
		Exhaust: form.BandLevels(r.Exhaust.Bands), ExhaustDBA: form.Level(r.ExhaustDBA()),
		Casing: form.BandLevels(r.Casing.Bands), CasingDBA: form.Level(r.Casing.Bands.DBA()),
		Intake: partLevels(r.Intake), Alternator: partLevels(r.Alternator),
		Flow: form.Num(float64(r.PipeFlow)), Temperature: form.Celsius(r.Temperature), Warnings: form.List(r.Warnings),
		Orders: form.Each(r.Orders, func(o source.PipeOrder) Order {
			return Order{form.Num(o.Order), form.Num(o.Frequency), form.Level(o.Level)}
		}),
		Assumptions: form.Each(r.Assumptions, NewAssumption),
	}
}

// NewAssumption is an assumption of the models.
func NewAssumption(a source.Assumption) Assumption {
	return Assumption{a.Field, a.Value, a.Source, form.Num(a.PlusMinusDB)}
}

// Sheet has a row for each part and octave.
func (all Sources) Sheet() form.Sheet {
	out := form.Sheet{{"engine", "part", "band_hz", "level_db"}}
	for _, e := range all {
		for _, p := range sourceParts(e.result) {
			for i, v := range form.BandLevels(p.part.Bands) {
				out.Add(e.engine.Name, p.name, fmt.Sprint(spectrum.Nominal[i]), form.Field(v))
			}
		}
	}
	return out
}

// Text shows each engine with its strongest orders.
func (all Sources) Text(u form.Units) *form.Text {
	t := &form.Text{}
	for i, e := range all {
		if i > 0 {
			t.Blank()
		}
		e.say(t, u)
	}
	return t
}

func (e runningEngine) say(t *form.Text, u form.Units) {
	r := e.result
	t.Line("%s at %.0f rpm, %s: firing frequency %.1f Hz", e.engine.Name, r.Duty.Speed, u.Show(r.Duty.Power, quantity.Power), r.FiringFrequency)
	pipes := ""
	if r.Pipes > 1 {
		pipes = fmt.Sprintf(" in each of %d pipes", r.Pipes)
	}
	t.Line("exhaust gas %s%s at %s\n", u.Show(float64(r.PipeFlow), quantity.MassFlow), pipes, u.Show(r.Temperature, quantity.Temperature))
	bands := form.BandTable("sound power, dB re 1 pW")
	bands.Column("dB(A)", true)
	t.Table(bands)
	for _, p := range sourceParts(r) {
		bands.Add(append(form.BandCells(p.name, p.part.Bands, 1), fmt.Sprintf("%.1f", p.dba))...)
		t.Say("  ", "%s: %s; %s [%s], standard deviation %s", p.name, p.part.Formula, p.part.Source, p.part.Mark, deviationText(p.part.SD))
	}
	t.Line("\nstrongest orders of the exhaust")
	orders := form.NewTable(">order", ">frequency", ">level")
	for _, l := range Strongest(r.Orders, 12) {
		orders.Add(strconv.FormatFloat(l.Order, 'g', 4, 64), fmt.Sprintf("%.1f Hz", l.Frequency), fmt.Sprintf("%.1f dB", l.Level))
	}
	t.Table(orders)
	if len(r.Assumptions) > 0 {
		t.Line("\nfilled in by the program:")
	}
	for _, a := range r.Assumptions {
		t.Say("  ", "%s", u.Local(assumptionText(a)))
	}
}

// partLevels are the bands of a part that an engine may lack.
func partLevels(p *source.Part) []form.Number {
	if p == nil {
		return nil
	}
	return form.BandLevels(p.Bands)
}

// deviationText is a standard deviation in words, by octave where octaves differ.
func deviationText(sd spectrum.Bands) string {
	if sd == spectrum.Fill(sd[0]) {
		return fmt.Sprintf("%.1f dB", sd[0])
	}
	return strings.Trim(fmt.Sprintf("%.1f", sd), "[]") + " dB by octave"
}

type namedPart struct {
	name string
	part source.Part
	dba  float64 // orders of the exhaust at their own frequency
}

func sourceParts(r source.Result) []namedPart {
	all := []namedPart{{"exhaust", r.Exhaust.Part, r.ExhaustDBA()}, {"casing", r.Casing, r.Casing.Bands.DBA()}}
	if r.Intake != nil {
		all = append(all, namedPart{"intake", *r.Intake, r.Intake.Bands.DBA()})
	}
	if r.Alternator != nil {
		all = append(all, namedPart{"alternator", *r.Alternator, r.Alternator.Bands.DBA()})
	}
	return all
}

// Strongest gives the n strongest orders, in order of frequency.
func Strongest(orders []source.PipeOrder, n int) []source.PipeOrder {
	if len(orders) <= n {
		return orders
	}
	levels := make([]float64, 0, len(orders))
	for _, o := range orders {
		levels = append(levels, o.Level)
	}
	sort.Float64s(levels)
	limit := levels[len(levels)-n]
	var out []source.PipeOrder
	for _, o := range orders {
		if o.Level >= limit && len(out) < n {
			out = append(out, o)
		}
	}
	return out
}

func assumptionText(a source.Assumption) string {
	text := fmt.Sprintf("%s: %s (%s)", a.Field, a.Value, a.Source)
	if a.PlusMinusDB > 0 {
		text += fmt.Sprintf(", adds ±%.1f dB", a.PlusMinusDB)
	}
	return text
}

// Assumption is a value that the program filled in.
type Assumption struct {
	Field     string      `json:"field"`
	Value     string      `json:"value"`
	Source    string      `json:"source"`
	PlusMinus form.Number `json:"plus_minus_db"`
}
