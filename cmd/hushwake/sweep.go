package main

import (
	"context"
	"encoding/csv"
	"fmt"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
	"hushwake/path/study/sweep"
)

type sweepDoc struct {
	Layouts []sweptDoc `json:"layouts"`
}

type sweptDoc struct {
	Name   string     `json:"name"`
	Points []pointDoc `json:"points"`
	Booms  []boomDoc  `json:"booms"`
}

type pointDoc struct {
	Speed        number        `json:"speed_rpm"`
	Power        number        `json:"power_kw"`
	BackPressure number        `json:"back_pressure_kpa"`
	Listeners    []levelAtSeat `json:"listeners"`
}

type levelAtSeat struct {
	Name     string `json:"name"`
	LevelDBA number `json:"level_dba"`
}

type boomDoc struct {
	Speed     number `json:"speed_rpm"`
	Order     number `json:"order"`
	Frequency number `json:"frequency_hz"`
	Text      string `json:"text"`
	Listener  string `json:"listener"`
}

type sweepOptions struct {
	*common
	layouts        []string
	from, to, step string
	failOverLimit  bool
	draws          draws.Options
}

func newSweep(c *common) *cobra.Command {
	o := &sweepOptions{common: c}
	cmd := &cobra.Command{
		Use:   "sweep FILE",
		Short: "Level at each listener and back pressure over engine speed, or over the load of a set; booms with their cause",
		Args:  fileArgument,
		RunE:  func(cmd *cobra.Command, args []string) error { return o.run(cmd.Context(), args[0]) },
	}
	f := cmd.Flags()
	f.StringArrayVar(&o.layouts, "layout", nil, "only this layout (may be repeated)")
	f.StringVar(&o.from, "from", "", "first speed, e.g. '900 rpm'; default 40 % of rated; sets go over load at their speed unless a speed is given")
	f.StringVar(&o.to, "to", "", "last speed; default rated")
	f.StringVar(&o.step, "step", "", "step, e.g. '50 rpm'; default 24 steps")
	f.BoolVar(&o.failOverLimit, "fail-over-limit", false, "exit with status 1 when a limit of the file is exceeded")
	drawFlags(f, &o.draws)
	return cmd
}

func (o *sweepOptions) run(ctx context.Context, file string) error {
	if ctx == nil {
		ctx = context.Background()
	}
	b, err := o.load(file)
	if err != nil {
		return err
	}
	if len(b.Listeners) == 0 {
		return noListeners(b)
	}
	layouts, err := chooseLayouts(b, o.layouts)
	if err != nil {
		return err
	}
	speeds, err := o.speeds(b, layouts)
	if err != nil {
		return err
	}
	overLoad := o.from+o.to+o.step == "" && sweep.OverLoad(layouts)
	if overLoad {
		speeds = loads
	}
	seen := &watch{c: o.common, layouts: layouts, total: len(layouts) * len(speeds), warnings: map[string][]string{}}
	swept, err := sweepLayouts(ctx, b, layouts, speeds, overLoad, path.Full, seen.see)
	if err != nil {
		return err
	}
	seen.warn(b)
	if err := o.print(b, swept); err != nil {
		return err
	}
	if o.failOverLimit && sweptOver(b, layouts, swept) {
		return errOverLimit
	}
	return nil
}

func (o *sweepOptions) speeds(b *path.Boat, layouts []*path.Layout) ([]float64, error) {
	rated := sweep.RatedSpeed(layouts)
	if rated == 0 {
		return nil, badInput("%s has no running engine to sweep", b.File)
	}
	v := [3]float64{0.4 * rated, rated, 0}
	for i, f := range []struct{ flag, text string }{{"--from", o.from}, {"--to", o.to}, {"--step", o.step}} {
		if f.text == "" {
			continue
		}
		q, err := boatfile.ParseQuantity(f.text, boatfile.RotationalSpeed)
		if err != nil {
			return nil, badInput("%s %q: %w", f.flag, f.text, err)
		}
		v[i] = q.Value
	}
	from, to, step := v[0], v[1], v[2]
	if step == 0 {
		step = (to - from) / 24
	}
	if from <= 0 || to < from || step < 0 || to > rated*1.0001 {
		return nil, badInput("speeds from %.0f to %.0f rpm cannot be swept\nhint: 0 < from < to, and not above the rated %.0f rpm", from, to, rated)
	}
	if step == 0 || (to-from)/step > 1000 {
		if step > 0 || to > from {
			return nil, badInput("--step makes more than 1000 speeds\nhint: take a larger step")
		}
		return []float64{from}, nil
	}
	var out []float64
	for i := 0; ; i++ {
		n := from + float64(i)*step
		if n > to*(1+1e-9) {
			break
		}
		out = append(out, n)
	}
	return out, nil
}

// loads are the shares of rated power that sets are swept over.
var loads = []float64{0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1}

// sweepLayouts predicts layouts over speed in rpm, or over shares of rated power.
func sweepLayouts(ctx context.Context, b *path.Boat, layouts []*path.Layout, speeds []float64, overLoad bool, form path.Form,
	see func(path.Prediction)) ([]sweep.Swept, error) {
	byName := map[string]*path.Layout{}
	names := make([]string, len(layouts))
	for i, l := range layouts {
		names[i], byName[l.Name] = l.Name, l
	}
	predict := func(name string, rpm float64) (path.Prediction, error) {
		l := sweep.AtSpeed(byName[name], rpm)
		if overLoad {
			l = sweep.AtLoad(byName[name], rpm)
		}
		p, err := path.PredictIn(b, l, form)
		if err == nil && see != nil {
			see(p)
		}
		return p, err
	}
	loss := func(name, engine string, rpm float64, hz []float64) ([]float64, error) {
		l := sweep.AtSpeed(byName[name], rpm)
		f, err := feedOf(b, l, engine)
		if err != nil {
			return nil, err
		}
		c, err := f.line.Curve(f.feed, f.options, hz)
		return c.InsertionLoss, err
	}
	run := func() ([]sweep.Swept, error) { return sweep.Run(ctx, names, speeds, predict, loss) }
	if overLoad {
		run = func() ([]sweep.Swept, error) { return sweep.RunLoads(ctx, names, speeds, predict) }
	}
	swept, err := run()
	if err != nil {
		return nil, badInput("%w", err)
	}
	return swept, nil
}

func sweptOver(b *path.Boat, layouts []*path.Layout, swept []sweep.Swept) bool {
	for i, s := range swept {
		for _, p := range s.Points {
			for j := range layouts[i].Engines {
				if l := layouts[i].Engines[j].Limit; l != nil && p.BackPressure > *l {
					return true
				}
			}
			for j, h := range p.Listeners {
				if l := b.Listeners[j].Limit; l != nil && h.Level > *l {
					return true
				}
			}
		}
	}
	return false
}

func newSweepDoc(swept []sweep.Swept) sweepDoc {
	d := sweepDoc{Layouts: []sweptDoc{}}
	for _, s := range swept {
		doc := sweptDoc{Name: s.Name, Points: []pointDoc{}, Booms: []boomDoc{}}
		for _, p := range s.Points {
			pt := pointDoc{Speed: num(p.Speed), Power: num(p.Power / 1e3), BackPressure: kilopascal(p.BackPressure), Listeners: []levelAtSeat{}}
			for _, l := range p.Listeners {
				pt.Listeners = append(pt.Listeners, levelAtSeat{l.Name, level(l.Level)})
			}
			doc.Points = append(doc.Points, pt)
		}
		for _, b := range s.Booms {
			doc.Booms = append(doc.Booms, newBoomDoc(b))
		}
		d.Layouts = append(d.Layouts, doc)
	}
	return d
}

func newBoomDoc(b sweep.Boom) boomDoc {
	d := boomDoc{Speed: num(b.Speed), Text: b.Text, Listener: b.Listener}
	if b.Order > 0 {
		d.Order, d.Frequency = num(b.Order), num(b.Frequency)
	}
	return d
}

func (o *sweepOptions) print(b *path.Boat, swept []sweep.Swept) error {
	switch o.format {
	case "json":
		return printJSON(o.out, newSweepDoc(swept))
	case "csv":
		return sweepCSV(o.common, swept)
	}
	paragraph(o.out, "", b.Text)
	for _, s := range swept {
		fmt.Fprintln(o.out)
		paragraph(o.out, "", s.Name)
		fmt.Fprintln(o.out)
		t := table{head: []string{"rpm", "power", "back pressure"}, right: []bool{true, true, true}}
		for _, l := range b.Listeners {
			t.head, t.right = append(t.head, l.Name+"\ndB(A)"), append(t.right, true)
		}
		for _, p := range s.Points {
			row := []string{fmt.Sprintf("%.0f", p.Speed), o.show(p.Power, boatfile.Power), o.show(p.BackPressure, boatfile.Pressure)}
			for _, l := range p.Listeners {
				row = append(row, fmt.Sprintf("%.1f", l.Level))
			}
			t.add(row...)
		}
		t.print(o.out)
		for _, boom := range s.Booms {
			paragraph(o.out, "boom: ", boom.Text)
		}
		if s.OverLoad {
			fmt.Fprintln(o.out, "a set at its set speed: swept over load; no order moves, so that nothing booms")
		} else if len(s.Booms) == 0 {
			fmt.Fprintln(o.out, "no boom stands out at any seat")
		}
	}
	return nil
}

func sweepCSV(c *common, swept []sweep.Swept) error {
	w := csv.NewWriter(c.out)
	w.Write([]string{"layout", "speed_rpm", "power_kw", "back_pressure_kpa", "listener", "level_dba"})
	for _, s := range swept {
		for _, p := range s.Points {
			for _, l := range p.Listeners {
				w.Write([]string{s.Name, field(num(p.Speed)), field(num(p.Power / 1e3)), field(kilopascal(p.BackPressure)), l.Name, field(level(l.Level))})
			}
		}
	}
	w.Flush()
	return writeError(w.Error())
}
