package main

import (
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/source"
	"hushwake/source/spectrum"
)

type sourceDoc struct {
	BandsHz []number    `json:"bands_hz"`
	Engines []engineDoc `json:"engines"`
}

type engineDoc struct {
	Name        string          `json:"name"`
	PowerKW     number          `json:"power_kw"`
	SpeedRPM    number          `json:"speed_rpm"`
	Firing      number          `json:"firing_frequency_hz"`
	Exhaust     []number        `json:"exhaust_bands_db"`
	ExhaustDBA  number          `json:"exhaust_dba"`
	Casing      []number        `json:"casing_bands_db"`
	CasingDBA   number          `json:"casing_dba"`
	Intake      []number        `json:"intake_bands_db"` // null: inside the casing value
	Alternator  []number        `json:"alternator_bands_db"`
	Flow        number          `json:"exhaust_flow_kg_s"`
	Temperature number          `json:"exhaust_temperature_c"`
	Orders      []orderDoc      `json:"orders"`
	Assumptions []assumptionDoc `json:"assumptions"`
	Warnings    []string        `json:"warnings"`
}

type orderDoc struct {
	Order     number `json:"order"`
	Frequency number `json:"frequency_hz"`
	Level     number `json:"level_db"`
}

func newSource(c *common) *cobra.Command {
	return &cobra.Command{
		Use:   "source FILE",
		Short: "Each engine: firing frequency, orders, exhaust and casing sound power, exhaust flow and temperature",
		Args:  fileArgument,
		RunE:  func(_ *cobra.Command, args []string) error { return runSource(c, args[0]) },
	}
}

// runningEngine is an engine with its result at the running duty.
type runningEngine struct {
	engine *path.Engine
	result source.Result
}

// engines are the running engines of the first layout, or of the file where there is none.
func engines(b *path.Boat) ([]runningEngine, error) {
	if len(b.Layouts) == 0 || len(b.Layouts[0].Engines) == 0 {
		return nil, badInput("%s holds no engines\nhint: add an engines section; 'hushwake start dry-stack' shows one", b.File)
	}
	var out []runningEngine
	for i := range b.Layouts[0].Engines {
		e := &b.Layouts[0].Engines[i]
		if e.Stopped {
			continue
		}
		duty, _ := e.RunningDuty()
		r, err := e.Engine.At(duty)
		if err != nil {
			return nil, badInput("engine %s: %w", e.Name, err)
		}
		out = append(out, runningEngine{e, r})
	}
	return out, nil
}

func runSource(c *common, file string) error {
	b, err := c.load(file)
	if err != nil {
		return err
	}
	all, err := engines(b)
	if err != nil {
		return err
	}
	for _, e := range all {
		for _, t := range e.result.Warnings {
			c.remark("warning: %s", c.local(t))
		}
	}
	switch c.format {
	case "json":
		return printJSON(c.out, newSourceDoc(all))
	case "csv":
		return sourceCSV(c, all)
	}
	for i, e := range all {
		if i > 0 {
			fmt.Fprintln(c.out)
		}
		c.printEngine(e)
	}
	return nil
}

func newSourceDoc(all []runningEngine) sourceDoc {
	d := sourceDoc{BandsHz: bandsHz(), Engines: []engineDoc{}}
	for _, e := range all {
		r := e.result
		doc := engineDoc{
			Name: e.engine.Name, PowerKW: num(r.Duty.Power / 1e3), SpeedRPM: num(r.Duty.Speed), Firing: num(r.FiringFrequency),
			Exhaust: bandLevels(r.Exhaust.Bands), ExhaustDBA: level(r.ExhaustDBA()),
			Casing: bandLevels(r.Casing.Bands), CasingDBA: level(r.Casing.Bands.DBA()),
			Intake: partLevels(r.Intake), Alternator: partLevels(r.Alternator),
			Flow: num(r.PipeFlow), Temperature: celsius(r.Temperature), Orders: []orderDoc{}, Warnings: list(r.Warnings),
			Assumptions: []assumptionDoc{},
		}
		for _, o := range r.Orders {
			doc.Orders = append(doc.Orders, orderDoc{num(o.Order), num(o.Frequency), level(o.Level)})
		}
		for _, a := range r.Assumptions {
			doc.Assumptions = append(doc.Assumptions, assumptionDoc{a.Field, a.Value, a.Source, num(a.PlusMinusDB)})
		}
		d.Engines = append(d.Engines, doc)
	}
	return d
}

// partLevels are the bands of a part that an engine may lack.
func partLevels(p *source.Part) []number {
	if p == nil {
		return nil
	}
	return bandLevels(p.Bands)
}

func (c *common) printEngine(e runningEngine) {
	r := e.result
	fmt.Fprintf(c.out, "%s at %.0f rpm, %s: firing frequency %.1f Hz\n", e.engine.Name, r.Duty.Speed,
		c.show(r.Duty.Power, boatfile.Power), r.FiringFrequency)
	pipes := ""
	if r.Pipes > 1 {
		pipes = fmt.Sprintf(" in each of %d pipes", r.Pipes)
	}
	fmt.Fprintf(c.out, "exhaust gas %s%s at %s\n\n", c.show(r.PipeFlow, boatfile.MassFlow), pipes, c.show(r.Temperature, boatfile.Temperature))
	t := bandTable("sound power, dB re 1 pW")
	t.head, t.right = append(t.head, "dB(A)"), append(t.right, true)
	for _, p := range sourceParts(r) {
		t.rows = append(t.rows, append(bandCells(p.name, p.part.Bands, 1), fmt.Sprintf("%.1f", p.dba)))
	}
	t.print(c.out)
	for _, p := range sourceParts(r) {
		paragraph(c.out, "  ", fmt.Sprintf("%s: %s; %s [%s], standard deviation %s", p.name, p.part.Formula, p.part.Source, p.part.Mark, deviationText(p.part.SD)))
	}
	fmt.Fprintln(c.out)
	o := table{head: []string{"order", "frequency", "level"}, right: []bool{true, true, true}}
	for _, l := range strongest(r.Orders, 12) {
		o.add(strconv.FormatFloat(l.Order, 'g', 4, 64), fmt.Sprintf("%.1f Hz", l.Frequency), fmt.Sprintf("%.1f dB", l.Level))
	}
	fmt.Fprintln(c.out, "strongest orders of the exhaust")
	o.print(c.out)
	c.printAssumptions(r.Assumptions)
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
	limit := spectrum.Silent
	levels := make([]float64, 0, len(orders))
	for _, o := range orders {
		levels = append(levels, o.Level)
	}
	sortDown(levels)
	limit = levels[n-1]
	var out []source.Order
	for _, o := range orders {
		if o.Level >= limit && len(out) < n {
			out = append(out, o)
		}
	}
	return out
}

func (c *common) printAssumptions(all []source.Assumption) {
	if len(all) == 0 {
		return
	}
	fmt.Fprintln(c.out, "\nfilled in by the program:")
	for _, a := range all {
		paragraph(c.out, "  ", c.local(assumptionText(a)))
	}
}

func assumptionText(a source.Assumption) string {
	text := fmt.Sprintf("%s: %s (%s)", a.Field, a.Value, a.Source)
	if a.PlusMinusDB > 0 {
		text += fmt.Sprintf(", adds ±%.1f dB", a.PlusMinusDB)
	}
	return text
}

func sourceCSV(c *common, all []runningEngine) error {
	w := csv.NewWriter(c.out)
	w.Write([]string{"engine", "part", "band_hz", "level_db"})
	for _, e := range all {
		for _, p := range sourceParts(e.result) {
			for i, v := range bandLevels(p.part.Bands) {
				w.Write([]string{e.engine.Name, p.name, fmt.Sprint(spectrum.Nominal[i]), field(v)})
			}
		}
	}
	w.Flush()
	return writeError(w.Error())
}
