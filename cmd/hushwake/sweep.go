package main

import (
	"context"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report"
	"hushwake/path/report/parts"
	"hushwake/path/study/draws"
	"hushwake/path/study/sweep"
)

type sweepOptions struct {
	*common
	layouts        []string
	from, to, step string
	failOverLimit  bool
	draws          draws.Options // taken for the sake of scripts; a sweep draws nothing
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
	f.StringVar(&o.from, "from", "", "first speed, e.g. '900 rpm'; default 40 % of rated, sets go over load at theirs unless a speed is given")
	f.StringVar(&o.to, "to", "", "last speed; default rated")
	f.StringVar(&o.step, "step", "", "step, e.g. '50 rpm'; default 24 steps")
	f.BoolVar(&o.failOverLimit, "fail-over-limit", false, "exit with status 1 when a limit of the file is exceeded")
	drawFlags(f, &o.draws)
	return cmd
}

func (o *sweepOptions) run(ctx context.Context, file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	if len(b.Listeners) == 0 {
		return report.NoListeners(b)
	}
	layouts, err := chooseLayouts(b, o.layouts)
	if err != nil {
		return err
	}
	over, err := o.duties(b, layouts)
	if err != nil {
		return err
	}
	known, err := o.know(b, o.draws, layouts...)
	if err != nil {
		return err
	}
	seen := &watch{c: o.common, layouts: layouts, total: len(layouts) * len(over.At), seen: map[string][]string{}}
	swept, err := parts.NewSpeedSweep(ctx, known, layouts, over, seen.see)
	if err != nil {
		return err
	}
	o.warn(seen.warnings(b))
	if err := o.print(swept); err != nil {
		return err
	}
	if o.failOverLimit && swept.OverLimit() {
		return errOverLimit
	}
	return nil
}

// duties are the loads of sets unless speeds are asked for, else speeds.
func (o *sweepOptions) duties(b *path.Boat, layouts []*path.Layout) (parts.Duties, error) {
	rated := sweep.RatedSpeed(layouts)
	if rated == 0 {
		return parts.Duties{}, badInput("%s has no running engine to sweep", b.File)
	}
	if o.from+o.to+o.step == "" && sweep.OverLoad(layouts) {
		return parts.Loads, nil
	}
	speeds, err := o.speeds(rated)
	return parts.Duties{At: speeds}, err
}

// speeds are those between the flags, rpm.
func (o *sweepOptions) speeds(rated float64) ([]float64, error) {
	v := [3]float64{0.4 * rated, rated, 0}
	for i, f := range []struct{ flag, text string }{{"--from", o.from}, {"--to", o.to}, {"--step", o.step}} {
		if f.text == "" {
			continue
		}
		q, err := quantity.Parse(f.text, quantity.RotationalSpeed)
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
