package main

import (
	"math"

	"github.com/spf13/cobra"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/parts"
)

type lineOptions struct {
	*common
	layout, engine, from, to, step, friction string
}

func newLine(c *common) *cobra.Command {
	o := &lineOptions{common: c}
	cmd := fileCommand("line FILE --layout L", "One exhaust line alone: element table, transmission and insertion loss over frequency", o.run)
	f := cmd.Flags()
	f.StringVar(&o.layout, "layout", "", "the layout, by name or 1-based place; default the first")
	f.StringVar(&o.engine, "engine", "", "the engine whose line it is; default the first")
	f.StringVar(&o.from, "from", "10 Hz", "first frequency")
	f.StringVar(&o.to, "to", "8000 Hz", "last frequency")
	f.StringVar(&o.step, "step", "5 Hz", "step between frequencies")
	f.StringVar(&o.friction, "friction", "colebrook", "colebrook, or handbook to compare with an installation handbook's sheet")
	return cmd
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
	fed, err := parts.FeedOf(b, l, o.engine)
	if err != nil {
		return err
	}
	fed.Options.Friction = o.friction
	a, err := parts.NewLineAlone(l.Name, fed, frequencies)
	if err != nil {
		return err
	}
	a.Full = o.full
	o.warn(a.Warnings(o.inUnits()))
	return o.print(a)
}

// maxPoints keeps a curve to what can be printed and read.
const maxPoints = 200000

func (o *lineOptions) frequencies() ([]float64, error) {
	var v [3]float64
	for i, f := range []struct{ flag, text string }{{"--from", o.from}, {"--to", o.to}, {"--step", o.step}} {
		x, err := quantity.Parse(f.text, quantity.Frequency)
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
