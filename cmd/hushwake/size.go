package main

import (
	"context"
	"fmt"
	"os/signal"
	"strconv"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/parts"
	"hushwake/path/study/draws"
	"hushwake/path/study/sizing"
)

type sizeOptions struct {
	*common
	pick
	budget, enclosure string
	ducts             bool
}

func newSize(c *common) *cobra.Command {
	o := &sizeOptions{common: c}
	cmd := &cobra.Command{
		Use:   "size FILE --layout L --element N | --enclosure NAME",
		Short: "Searches dimensions of an element, or what a box is made of, for the quietest listener inside a budget",
		Args:  fileArgument,
		RunE: func(cmd *cobra.Command, args []string) error {
			if o.enclosure != "" && o.element != "" {
				return badInput("--element and --enclosure: size one of them at a time\nhint: leave one of the two out")
			}
			if o.enclosure != "" {
				return o.runBox(cmd.Context(), args[0])
			}
			return o.run(cmd.Context(), args[0])
		},
	}
	f := cmd.Flags()
	o.flags(f, "the element", "the listener to be made quiet")
	f.StringVar(&o.budget, "budget", "", "back_pressure=5kPa,length=1.2m,diameter=400mm,price=2000; default: the stated back-pressure limit; for a box level=45dBA,temperature=55C,mass=60kg,price=900")
	f.StringVar(&o.enclosure, "enclosure", "", "a box in place of an element: its walls, lining, ducts, fan and mounts")
	f.BoolVar(&o.ducts, "ducts", false, "of the box its ducts alone")
	return cmd
}

// run searches; an interrupt leaves the best so far.
func (o *sizeOptions) run(ctx context.Context, file string) error {
	p, err := o.pick.load(o.common, file)
	if err != nil {
		return err
	}
	budget, err := parseBudget(o.budget)
	if err != nil {
		return err
	}
	ctx, stop := signal.NotifyContext(ctx, syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	known, err := o.know(p.boat, draws.Options{}, p.at.Layout)
	if err != nil {
		return err
	}
	d, err := parts.NewSize(ctx, known, p.at, p.listener, budget, o.progress())
	if err != nil {
		return err
	}
	return o.print(d)
}

// progress tells on stderr how far the search is, about every tenth of it.
func (c *common) progress() func(done, total int) {
	last := -1
	return func(done, total int) {
		if total <= 0 {
			return
		}
		if tenth := 10 * done / total; tenth != last {
			last = tenth
			c.remark("searching: %d of %d", done, total)
		}
	}
}

func parseBudget(text string) (b sizing.Budget, err error) {
	known := map[string]limit{"back_pressure": {quantity.Pressure, &b.Pressure}, "length": {quantity.Length, &b.Length},
		"diameter": {quantity.Length, &b.Diameter}, "price": {quantity.Number, &b.Price}}
	return b, readBudget(text, known, "back_pressure=5kPa,length=1.2m,diameter=400mm,price=2000")
}

func budgetValue(text string, dim quantity.Dim) (float64, error) {
	if dim == quantity.Number {
		v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
		if err != nil {
			return 0, fmt.Errorf("%q is not a number", text)
		}
		return v, nil
	}
	q, err := quantity.Parse(text, dim)
	return q.Value, err
}
