package main

import (
	"context"
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/parts"
	"hushwake/path/study/draws"
	"hushwake/path/study/sizing"
)

// runBox sizes an enclosure, or its ducts alone.
func (o *sizeOptions) runBox(ctx context.Context, file string) error {
	b, l, seat, err := o.seatOf(file, o.layout, o.listener)
	if err != nil {
		return err
	}
	budget, err := boxBudget(o.budget)
	if err != nil {
		return err
	}
	known, err := o.know(b, draws.Options{})
	if err != nil {
		return err
	}
	d, err := parts.NewBoxSize(ctx, known, l, o.enclosure, seat, budget, o.ducts)
	if err != nil {
		return err
	}
	return o.print(d)
}

// boxBudget reads level=45dBA,temperature=55C,mass=60kg,price=900.
func boxBudget(text string) (b sizing.BoxBudget, err error) {
	known := map[string]limit{"level": {quantity.LevelA, &b.Level}, "temperature": {quantity.Temperature, &b.Temperature},
		"mass": {quantity.Mass, &b.Mass}, "price": {quantity.Number, &b.Price}}
	return b, readBudget(text, known, "level=45dBA,temperature=55C,mass=60kg,price=900")
}

// limit is where a budget goes, and what it is measured in.
type limit struct {
	dim  quantity.Dim
	into **float64
}

// readBudget reads name=value pairs.
func readBudget(text string, known map[string]limit, example string) error {
	for _, part := range strings.Split(text, ",") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		name, value, ok := strings.Cut(part, "=")
		name = strings.TrimSpace(name)
		budget, found := known[name]
		if !ok || !found {
			return badInput("--budget %q: no such budget\nhint: %s", part, example)
		}
		v, err := budgetValue(value, budget.dim)
		if err != nil {
			return badInput("--budget %s: %w", name, err)
		}
		if !(v > 0) {
			return badInput("--budget %s: %s is no budget\nhint: it must be more than zero", name, strings.TrimSpace(value))
		}
		*budget.into = &v
	}
	return nil
}
