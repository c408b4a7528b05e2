package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/recording"
	"hushwake/path/recording/order"
	"hushwake/path/report/parts"
	"hushwake/path/study/draws"
	"hushwake/source"
)

type listenOptions struct {
	*common
	boat, layout, engine, listener string
	speed, level                   string
	cylinders                      int
	twoStroke                      bool
}

func newListen(c *common) *cobra.Command {
	o := &listenOptions{common: c}
	cmd := &cobra.Command{
		Use:   "listen A.wav...",
		Short: "A recording taken apart: the engine's speed, levels by order and octave, and what recordings of one phone differ by",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return badInput("listen takes recordings, WAV or FLAC\nhint: hushwake listen before.wav after.wav --boat dry-stack.yaml; record 20 s, no automatic gain")
			}
			return nil
		},
	}
	f := cmd.Flags()
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		if err := o.fits(f.Changed); err != nil {
			return err
		}
		return o.run(args)
	}
	f.StringVar(&o.boat, "boat", "", "a boat file: cylinders, speed and propeller of the engine")
	cmd.MarkFlagFilename("boat", "yaml", "yml")
	f.StringVar(&o.layout, "layout", "", "the layout that was recorded, by name or 1-based place; default the first")
	f.StringVar(&o.engine, "engine", "", "the engine that was recorded; default the first that runs")
	f.StringVar(&o.listener, "listener", "", "the place that was recorded, for the prediction beside it")
	f.StringVar(&o.speed, "rpm", "", "the speed within 15 %; default that of the boat file")
	f.StringVar(&o.level, "level", "", "what a sound level meter showed at the place of the first recording, such as 84.5dBA")
	f.IntVar(&o.cylinders, "cylinders", 0, "number of cylinders, without a boat file")
	f.BoolVar(&o.twoStroke, "two-stroke", false, "with --cylinders: it fires every turn")
	return cmd
}

// fits refuses flags that would be of no use, given which were stated.
func (o *listenOptions) fits(stated func(string) bool) error {
	for _, name := range []string{"layout", "engine", "listener"} {
		if stated(name) && o.boat == "" {
			return badInput("--%s without --boat\nhint: --boat FILE names the boat file that it stands in", name)
		}
	}
	switch {
	case stated("listener") && o.level == "":
		return badInput("--listener without --level\nhint: a prediction can be set beside a recording only where a meter was read: --level 84.5dBA")
	case stated("cylinders") && (o.cylinders < 1 || o.cylinders > 24):
		return badInput("--cylinders %d\nhint: 1 to 24; leave it out where you don't know", o.cylinders)
	case o.boat != "" && (stated("cylinders") || o.twoStroke):
		return badInput("--cylinders and --two-stroke beside --boat\nhint: the boat file states the engine; change it there")
	case o.twoStroke && !stated("cylinders"):
		return badInput("--two-stroke without --cylinders\nhint: say how many cylinders it has")
	}
	return nil
}

func (o *listenOptions) run(files []string) error {
	hint, b, l, err := o.hint()
	if err != nil {
		return err
	}
	metered, err := o.metered()
	if err != nil {
		return err
	}
	var all []*recording.Recording
	for _, name := range files {
		r, err := recording.Open(name)
		if err != nil {
			return badInput("%s: %w", name, err)
		}
		r.Listen(hint)
		all = append(all, r)
	}
	h, err := parts.NewHeard(all, metered)
	if err != nil {
		return badInput("%w", err)
	}
	if b != nil && o.listener != "" {
		if err := o.beside(h, b, l); err != nil {
			return err
		}
	}
	o.warn(h.Warnings())
	return o.print(h)
}

// hint is what flags and boat file tell of the engine.
func (o *listenOptions) hint() (h recording.Hint, b *path.Boat, l *path.Layout, err error) {
	if o.speed != "" {
		if h.Speed, err = o.rpm(); err != nil {
			return h, nil, nil, err
		}
	}
	h.Kind = order.Engine{Cylinders: o.cylinders, TwoStroke: o.twoStroke}
	if o.boat == "" {
		return h, nil, nil, nil
	}
	if b, err = o.load(o.boat); err != nil {
		return h, nil, nil, err
	}
	if l, err = chooseLayout(b, o.layout); err != nil {
		return h, nil, nil, err
	}
	e, err := o.recorded(l)
	if err != nil {
		return h, nil, nil, err
	}
	h.Kind = order.Engine{Cylinders: e.Cylinders, TwoStroke: e.Stroke == source.TwoStroke}
	h.Driven = order.Driven{Blades: e.Propeller.Blades, Gear: e.Propeller.Gear}
	if duty, _ := e.RunningDuty(); h.Speed == 0 {
		h.Speed = duty.Speed
	}
	return h, b, l, nil
}

// rpm reads --rpm, a bare figure or one with its unit.
func (o *listenOptions) rpm() (float64, error) {
	var v float64
	if n, err := fmt.Sscanf(o.speed+" ", "%g ", &v); n == 1 && err == nil && fmt.Sprint(v) == o.speed {
		if v > 0 && !math.IsInf(v, 0) {
			return v, nil
		}
	}
	q, err := quantity.Parse(o.speed, quantity.RotationalSpeed)
	if err != nil {
		return 0, badInput("--rpm %q: %w\nhint: a speed such as 1700", o.speed, err)
	}
	if !(q.Value > 0) {
		return 0, badInput("--rpm %q\nhint: a speed over 0, such as 1700", o.speed)
	}
	return q.Value, nil
}

// recorded is the engine that was recorded.
func (o *listenOptions) recorded(l *path.Layout) (*path.Engine, error) {
	var names []string
	for i := range l.Engines {
		e := &l.Engines[i]
		if e.Name == o.engine || o.engine == "" && !e.Stopped {
			return e, nil
		}
		names = append(names, e.Name)
	}
	return nil, badInput("no engine %q that runs in layout %q\nhint: name one with --engine: %v", o.engine, l.Name, names)
}

// metered reads what a meter showed.
func (o *listenOptions) metered() (*parts.Metered, error) {
	if o.level == "" {
		return nil, nil
	}
	q, err := quantity.Parse(o.level, quantity.LevelA, quantity.LevelC)
	if err != nil {
		return nil, badInput("--level %q: %w", o.level, err)
	}
	if q.Value < 20 || q.Value > 150 {
		return nil, badInput("--level %q: 20 to 150 dB\nhint: what the meter showed, such as 84.5dBA", o.level)
	}
	return &parts.Metered{Level: q.Value, C: q.Dim == quantity.LevelC}, nil
}

// beside sets the prediction for the place beside the recording.
func (o *listenOptions) beside(h *parts.Heard, b *path.Boat, l *path.Layout) error {
	j, err := listenerIndex(b, o.listener)
	if err != nil {
		return err
	}
	known, err := o.know(b, draws.Options{}, l)
	if err != nil {
		return err
	}
	s := known.Model.SpreadOf(known.Sample).Layouts[0].Listeners[j]
	h.Beside(l.Name, b.Listeners[j].Name, s.Level, s.Low, s.High)
	return nil
}
