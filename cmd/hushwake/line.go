package main

import (
	"encoding/csv"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/silencer"
)

type lineDoc struct {
	Layout       string       `json:"layout"`
	Engine       string       `json:"engine"`
	Elements     []elementDoc `json:"elements"`
	BackPressure number       `json:"back_pressure_kpa"`
	Curve        curveDoc     `json:"curve"`
	Method       string       `json:"method"`
	Warnings     []string     `json:"warnings"`
}

type curveDoc struct {
	Frequency []number `json:"frequency_hz"`
	TL        []number `json:"transmission_loss_db"`
	IL        []number `json:"insertion_loss_db"`
	NR        []number `json:"noise_reduction_db"`
}

type lineOptions struct {
	*common
	layout, engine, from, to, step, friction string
}

func newLine(c *common) *cobra.Command {
	o := &lineOptions{common: c}
	cmd := &cobra.Command{
		Use:   "line FILE --layout L",
		Short: "One exhaust line alone: element table, transmission and insertion loss over frequency",
		Args:  fileArgument,
		RunE:  func(_ *cobra.Command, args []string) error { return o.run(args[0]) },
	}
	f := cmd.Flags()
	f.StringVar(&o.layout, "layout", "", "the layout, by name or 1-based place; default the first")
	f.StringVar(&o.engine, "engine", "", "the engine whose line it is; default the first")
	f.StringVar(&o.from, "from", "10 Hz", "first frequency")
	f.StringVar(&o.to, "to", "8000 Hz", "last frequency")
	f.StringVar(&o.step, "step", "5 Hz", "step between frequencies")
	f.StringVar(&o.friction, "friction", "colebrook", "colebrook, or handbook to compare with an installation handbook's sheet")
	return cmd
}

// fed is a line with what enters it.
type fed struct {
	line    *silencer.Line
	feed    silencer.Feed
	options silencer.Options
	engine  string
}

func (o *lineOptions) run(file string) error {
	if err := oneOf("--friction", o.friction, "colebrook", "handbook"); err != nil {
		return err
	}
	frequencies, err := o.frequencies()
	if err != nil {
		return err
	}
	b, err := o.load(file)
	if err != nil {
		return err
	}
	l, err := chooseLayout(b, o.layout)
	if err != nil {
		return err
	}
	x, err := feedOf(b, l, o.engine)
	if err != nil {
		return err
	}
	x.options.Friction = o.friction
	m, err := x.line.March(x.feed, x.options)
	if err != nil {
		return badInput("layout %s: %w", l.Name, err)
	}
	curve, err := x.line.Curve(x.feed, x.options, frequencies)
	if err != nil {
		return badInput("layout %s: %w", l.Name, err)
	}
	return o.print(l.Name, x, m, curve)
}

// feedOf finds a line of a layout and what its engine, or the bench, sends into it at the running duty.
func feedOf(b *path.Boat, l *path.Layout, engine string) (*fed, error) {
	if len(l.Exhausts) == 0 {
		return nil, badInput("layout %s has no exhaust line", l.Name)
	}
	x := &l.Exhausts[0]
	if engine != "" {
		var ok bool
		if x, ok = l.Exhaust(engine); !ok {
			names := make([]string, len(l.Exhausts))
			for i := range l.Exhausts {
				names[i] = l.Exhausts[i].Engine
			}
			return nil, unknown("exhaust of an engine", engine, names)
		}
	}
	if b.Bench != nil && x.Engine == "bench" {
		feed, options := path.BenchFeed(b.Bench)
		return &fed{&x.Line, feed, options, x.Engine}, nil
	}
	e, ok := l.Engine(x.Engine)
	if !ok {
		return nil, badInput("layout %s names an exhaust for %q, which is no engine of the file", l.Name, x.Engine)
	}
	feed, err := path.RunningFeed(b, e)
	if err != nil {
		return nil, badInput("%w", err)
	}
	return &fed{&x.Line, feed, silencer.Options{}, x.Engine}, nil
}

// maxPoints keeps a curve to what can be printed and read.
const maxPoints = 200000

func (o *lineOptions) frequencies() ([]float64, error) {
	var v [3]float64
	for i, f := range []struct{ flag, text string }{{"--from", o.from}, {"--to", o.to}, {"--step", o.step}} {
		x, err := boatfile.ParseQuantity(f.text, boatfile.Frequency)
		if err != nil {
			return nil, badInput("%s %q: %w", f.flag, f.text, err)
		}
		v[i] = x.Value
	}
	from, to, step := v[0], v[1], v[2]
	switch {
	case from <= 0 || to < from || step <= 0:
		return nil, badInput("--from %s --to %s --step %s make no list of frequencies\nhint: 0 < from <= to, step > 0", o.from, o.to, o.step)
	case (to-from)/step > maxPoints:
		return nil, badInput("--step %s makes more than %d points\nhint: take a larger step", o.step, maxPoints)
	}
	n := int(math.Floor((to-from)/step+1e-9)) + 1
	out := make([]float64, n)
	for i := range out {
		out[i] = from + float64(i)*step
	}
	return out, nil
}

func (o *lineOptions) print(layout string, x *fed, m silencer.Marched, curve silencer.Curve) error {
	warnings := unique(append(append([]string{}, m.Warnings...), curve.Warnings...))
	for _, t := range warnings {
		o.remark("warning: %s", o.local(t))
	}
	switch o.format {
	case "json":
		return printJSON(o.out, lineDoc{Layout: layout, Engine: x.engine, Elements: elementDocs(m),
			BackPressure: kilopascal(m.BackPressure), Method: curve.Method, Warnings: warnings,
			Curve: curveDoc{numbers(curve.Frequency), numbers(curve.TransmissionLoss), numbers(curve.InsertionLoss), numbers(curve.NoiseReduction)}})
	case "csv":
		return lineCSV(o.common, curve)
	}
	paragraph(o.out, "", fmt.Sprintf("%s, line of %s at its running duty", quote(layout), x.engine))
	fmt.Fprintln(o.out)
	o.elementTable(m).print(o.out)
	fmt.Fprintf(o.out, "\nback pressure %s, outlet %s at %s\n\n", o.show(m.BackPressure, boatfile.Pressure),
		o.show(m.OutletTemperature, boatfile.Temperature), o.show(m.OutletVelocity, boatfile.Speed))
	fmt.Fprintf(o.out, "Loss over frequency, dB, method %s (json or csv give every point):\n\n", curve.Method)
	curveTable(curve, 24).print(o.out)
	return nil
}

func (c *common) elementTable(m silencer.Marched) *table {
	t := &table{head: []string{"element", "kind", "loss", "gas", "wall", "skin", "heat", "velocity", "growth"},
		right: []bool{false, false, true, true, true, true, true, true, true}}
	for _, r := range m.Rows {
		wall, skin, heat := "", "", "" // a step or a mouth has no wall
		if r.Length > 0 {
			wall, skin = c.show(r.WallTemperature, boatfile.Temperature), c.show(r.SkinTemperature, boatfile.Temperature)
			heat = c.show(r.HeatLoss, boatfile.Power)
		}
		t.add(r.Name, r.Kind, c.show(r.PressureLoss, boatfile.Pressure), c.show(r.GasTemperature, boatfile.Temperature),
			wall, skin, heat, c.show(r.Velocity, boatfile.Speed), c.show(r.Growth, boatfile.Length))
	}
	return t
}

// curveTable shows about n points spread evenly over the octaves.
func curveTable(c silencer.Curve, n int) *table {
	t := &table{head: []string{"Hz", "transmission loss", "insertion loss"}, right: []bool{true, true, true}}
	last := len(c.Frequency) - 1
	ratio := math.Pow(c.Frequency[last]/c.Frequency[0], 1/float64(n))
	next := c.Frequency[0]
	for i, f := range c.Frequency {
		if f < next*(1-1e-12) && i != last {
			continue
		}
		for next <= f && ratio > 1 {
			next *= ratio
		}
		t.add(fmt.Sprintf("%.0f", f), lossText(c.TransmissionLoss[i]), lossText(c.InsertionLoss[i]))
	}
	return t
}

func lossText(v float64) string {
	if math.IsNaN(v) {
		return "none"
	}
	return fmt.Sprintf("%.1f", v)
}

func lineCSV(c *common, curve silencer.Curve) error {
	w := csv.NewWriter(c.out)
	w.Write([]string{"frequency_hz", "transmission_loss_db", "insertion_loss_db"})
	for i, f := range curve.Frequency {
		w.Write([]string{field(num(f)), field(num(curve.TransmissionLoss[i])), field(num(curve.InsertionLoss[i]))})
	}
	w.Flush()
	return writeError(w.Error())
}

func unique(texts []string) []string {
	seen := map[string]bool{}
	out := []string{}
	for _, t := range texts {
		if !seen[t] {
			seen[t] = true
			out = append(out, t)
		}
	}
	return out
}
