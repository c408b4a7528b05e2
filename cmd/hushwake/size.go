package main

import (
	"context"
	"fmt"
	"os/signal"
	"strconv"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"hushwake/path/boatfile"
	"hushwake/path/report/parts"
	"hushwake/path/study/draws"
	"hushwake/path/study/sizing"
)

type sizeOptions struct {
	*common
	pick
	budget string
}

func newSize(c *common) *cobra.Command {
	o := &sizeOptions{common: c}
	cmd := &cobra.Command{
		Use:   "size FILE --layout L --element N",
		Short: "Searches dimensions of an element for the quietest listener inside a budget",
		Example: "  hushwake size boat.yaml --layout 'two stages' --element 3 " +
			"--budget back_pressure=5kPa,length=1.2m,diameter=400mm,price=2000",
		Args: fileArgument,
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(cmd.Context(), args[0]) },
	}
	f := cmd.Flags()
	o.flags(f, "the element", "the listener to be made quiet")
	f.StringVar(&o.budget, "budget", "", "back_pressure=5kPa,length=1.2m,diameter=400mm,price=2000; default: the stated back-pressure limit")
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
	known, err := o.know(p.boat, draws.Options{})
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
func (o *sizeOptions) progress() func(done, total int) {
	last := -1
	return func(done, total int) {
		if total <= 0 {
			return
		}
		if tenth := 10 * done / total; tenth != last {
			last = tenth
			o.remark("searching: %d of %d", done, total)
		}
	}
}

func parseBudget(text string) (b sizing.Budget, err error) {
	budgets := map[string]struct {
		dim  boatfile.Dim
		into **float64
	}{"back_pressure": {boatfile.Pressure, &b.Pressure}, "length": {boatfile.Length, &b.Length},
		"diameter": {boatfile.Length, &b.Diameter}, "price": {boatfile.Number, &b.Price}}
	for _, part := range strings.Split(text, ",") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		name, value, ok := strings.Cut(part, "=")
		name = strings.TrimSpace(name)
		budget, known := budgets[name]
		if !ok || !known {
			return b, badInput("--budget %q: no such budget\nhint: back_pressure=5kPa,length=1.2m,diameter=400mm,price=2000", part)
		}
		v, err := budgetValue(value, budget.dim)
		if err != nil {
			return b, badInput("--budget %s: %w", name, err)
		}
		if !(v > 0) {
			return b, badInput("--budget %s: %s is no budget\nhint: it must be more than zero", name, strings.TrimSpace(value))
		}
		*budget.into = &v
	}
	return b, nil
}

func budgetValue(text string, dim boatfile.Dim) (float64, error) {
	if dim == boatfile.Number {
		v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
		if err != nil {
			return 0, fmt.Errorf("%q is not a number", text)
		}
		return v, nil
	}
	q, err := boatfile.ParseQuantity(text, dim)
	return q.Value, err
}
