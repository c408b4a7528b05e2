package main

import (
	"context"
	"os/signal"
	"slices"
	"syscall"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/report/parts"
	"hushwake/path/study/choice"
	"hushwake/path/study/draws"
)

type slotOptions struct {
	*common
	layout, listener, budget string
	draws                    draws.Options
}

func newChoose(c *common) *cobra.Command {
	o := &slotOptions{common: c}
	cmd := &cobra.Command{
		Use:     "choose FILE --layout L",
		Short:   "What to put into the slots of a line: which elements, in which order and size",
		Example: "  hushwake choose boat.yaml --layout 'new line' --listener helm --budget back_pressure=5kPa,length=6m,diameter=300mm,price=2000",
		Args:    fileArgument,
		RunE:    func(cmd *cobra.Command, args []string) error { return o.run(cmd.Context(), args[0]) },
	}
	f := cmd.Flags()
	f.StringVar(&o.layout, "layout", "", "the layout, by name or 1-based place; default the first with slots")
	f.StringVar(&o.listener, "listener", "", "the listener to be made quiet; default the first")
	f.StringVar(&o.budget, "budget", "", "back_pressure=5kPa,length=6m,diameter=300mm,price=2000: of the whole layout, the diameter of its widest part; default: the stated back-pressure limit")
	drawFlags(f, &o.draws)
	return cmd
}

// run searches; an interrupt leaves the best so far.
func (o *slotOptions) run(ctx context.Context, file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	l, err := chooseLayout(b, o.layout)
	if err != nil {
		return err
	}
	if open := slices.IndexFunc(b.Layouts, func(l *path.Layout) bool { return l.Slots != nil }); o.layout == "" && open >= 0 {
		l = b.Layouts[open]
	}
	if l.Slots == nil {
		return choice.NoSlots(l)
	}
	at, err := listenerIndex(b, o.listener)
	if err != nil {
		return err
	}
	budget, err := parseBudget(o.budget)
	if err != nil {
		return err
	}
	ctx, stop := signal.NotifyContext(ctx, syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	known, err := o.know(b, o.draws)
	if err != nil {
		return err
	}
	d, err := parts.NewChoice(ctx, known, l, at, choice.Options{Limits: choice.Limits{Seed: o.draws.Seed, Progress: o.progress()}, Budget: budget})
	if err != nil {
		return err
	}
	return o.print(d)
}
