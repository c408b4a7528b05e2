package report

import (
	"fmt"
	"sort"
	"strconv"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// Source is what each engine gives off.
type Source struct {
	BandsHz []Number `json:"bands_hz"`
	Engines []Engine `json:"engines"`
}

// Engine is one engine at its running duty.
type Engine struct {
	Name        string       `json:"name"`
	PowerKW     Number       `json:"power_kw"`
	SpeedRPM    Number       `json:"speed_rpm"`
	Firing      Number       `json:"firing_frequency_hz"`
	Exhaust     []Number     `json:"exhaust_bands_db"`
	ExhaustDBA  Number       `json:"exhaust_dba"`
	Casing      []Number     `json:"casing_bands_db"`
	CasingDBA   Number       `json:"casing_dba"`
	Intake      []Number     `json:"intake_bands_db"` // null: inside the casing value
	Alternator  []Number     `json:"alternator_bands_db"`
	Flow        Number       `json:"exhaust_flow_kg_s"`
	Temperature Number       `json:"exhaust_temperature_c"`
	Orders      []Order      `json:"orders"`
	Assumptions []Assumption `json:"assumptions"`
	Warnings    []string     `json:"warnings"`
}

// Order is one order of an engine.
type Order struct {
	Order     Number `json:"order"`
	Frequency Number `json:"frequency_hz"`
	Level     Number `json:"level_db"`
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
func (all Sources) Warnings(u Units) (out []string) {
	for _, e := range all {
		out = append(out, u.localAll(e.result.Warnings)...)
	}
	return out
}

// Document is levels, flow and every order of each engine.
func (all Sources) Document() any {
	return Source{BandsHz: bandsHz(), Engines: each(all, runningEngine.document)}
}

func (e runningEngine) document() Engine {
	r := e.result
	return Engine{
		Name: e.engine.Name, PowerKW: num(r.Duty.Power / 1e3), SpeedRPM: num(r.Duty.Speed), Firing: num(r.FiringFrequency),
		Exhaust: bandLevels(r.Exhaust.Bands), ExhaustDBA: level(r.ExhaustDBA()),
		Casing: bandLevels(r.Casing.Bands), CasingDBA: level(r.Casing.Bands.DBA()),
		Intake: partLevels(r.Intake), Alternator: partLevels(r.Alternator),
		Flow: num(r.PipeFlow), Temperature: celsius(r.Temperature), Warnings: list(r.Warnings),
		Orders:      each(r.Orders, func(o source.Order) Order { return Order{num(o.Order), num(o.Frequency), level(o.Level)} }),
		Assumptions: each(r.Assumptions, newAssumption),
	}
}

func newAssumption(a source.Assumption) Assumption {
	return Assumption{a.Field, a.Value, a.Source, num(a.PlusMinusDB)}
}

// Sheet has a row for each part and octave.
func (all Sources) Sheet() Sheet {
	out := Sheet{{"engine", "part", "band_hz", "level_db"}}
	for _, e := range all {
		for _, p := range sourceParts(e.result) {
			for i, v := range bandLevels(p.part.Bands) {
				out.add(e.engine.Name, p.name, fmt.Sprint(spectrum.Nominal[i]), field(v))
			}
		}
	}
	return out
}

// Text shows each engine with its strongest orders.
func (all Sources) Text(u Units) *Text {
	t := &Text{}
	for i, e := range all {
		if i > 0 {
			t.blank()
		}
		e.say(t, u)
	}
	return t
}

func (e runningEngine) say(t *Text, u Units) {
	r := e.result
	t.line("%s at %.0f rpm, %s: firing frequency %.1f Hz", e.engine.Name, r.Duty.Speed, u.show(r.Duty.Power, boatfile.Power), r.FiringFrequency)
	pipes := ""
	if r.Pipes > 1 {
		pipes = fmt.Sprintf(" in each of %d pipes", r.Pipes)
	}
	t.line("exhaust gas %s%s at %s\n", u.show(r.PipeFlow, boatfile.MassFlow), pipes, u.show(r.Temperature, boatfile.Temperature))
	bands := bandTable("sound power, dB re 1 pW")
	bands.column("dB(A)", true)
	t.table(bands)
	for _, p := range sourceParts(r) {
		bands.add(append(bandCells(p.name, p.part.Bands, 1), fmt.Sprintf("%.1f", p.dba))...)
		t.say("  ", "%s: %s; %s [%s], standard deviation %s", p.name, p.part.Formula, p.part.Source, p.part.Mark, deviationText(p.part.SD))
	}
	t.line("\nstrongest orders of the exhaust")
	orders := newTable(">order", ">frequency", ">level")
	for _, l := range strongest(r.Orders, 12) {
		orders.add(strconv.FormatFloat(l.Order, 'g', 4, 64), fmt.Sprintf("%.1f Hz", l.Frequency), fmt.Sprintf("%.1f dB", l.Level))
	}
	t.table(orders)
	if len(r.Assumptions) > 0 {
		t.line("\nfilled in by the program:")
	}
	for _, a := range r.Assumptions {
		t.say("  ", "%s", u.local(assumptionText(a)))
	}
}

// partLevels are the bands of a part that an engine may lack.
func partLevels(p *source.Part) []Number {
	if p == nil {
		return nil
	}
	return bandLevels(p.Bands)
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
	all := []namedPart{{"exhaust", r.Exhaust, r.ExhaustDBA()}, {"casing", r.Casing, r.Casing.Bands.DBA()}}
	if r.Intake != nil {
		all = append(all, namedPart{"intake", *r.Intake, r.Intake.Bands.DBA()})
	}
	if r.Alternator != nil {
		all = append(all, namedPart{"alternator", *r.Alternator, r.Alternator.Bands.DBA()})
	}
	return all
}

// strongest gives the n strongest orders, in order of frequency.
func strongest(orders []source.Order, n int) []source.Order {
	if len(orders) <= n {
		return orders
	}
	levels := make([]float64, 0, len(orders))
	for _, o := range orders {
		levels = append(levels, o.Level)
	}
	sort.Float64s(levels)
	limit := levels[len(levels)-n]
	var out []source.Order
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
	Field     string `json:"field"`
	Value     string `json:"value"`
	Source    string `json:"source"`
	PlusMinus Number `json:"plus_minus_db"`
}
