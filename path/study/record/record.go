// Package record predicts measured boats, engines and boxes without their readings, and says how far
// the predictions lie off: the record against which the whole program is judged.
package record

import (
	"errors"
	"fmt"

	"hushwake/path/boatfile"
	"hushwake/path/study/draws"
	"hushwake/source/cores"
)

// Usual numbers of a run: samples of the assumed inputs, each a full prediction, and draws of the
// model's terms beside each.
const (
	DefaultSamples = 24
	defaultDraws   = 200
)

// Run predicts every row of the cases. Equal options give equal figures on any number of cores.
func Run(cases []*boatfile.Case, o Options) (Report, error) {
	o = o.orUsual()
	rep := Report{Options: o}
	rows := make([][]Row, len(cases))
	errs := make([]error, len(cases))
	cores.Each(len(cases), func(i int) { rows[i], errs[i] = runCase(cases[i], o) })
	if err := errors.Join(errs...); err != nil {
		return rep, err
	}
	for _, rs := range rows {
		rep.Rows = append(rep.Rows, rs...)
	}
	rep.sum()
	return rep, nil
}

func (o Options) orUsual() Options {
	if o.Samples == 0 {
		o.Samples = DefaultSamples
	}
	if o.Draws == 0 {
		o.Draws = defaultDraws
	}
	if o.Seed == 0 {
		o.Seed = draws.DefaultSeed
	}
	return o
}

// runCase draws the inputs of a case and scores its rows.
func runCase(c *boatfile.Case, o Options) ([]Row, error) {
	n := o.Samples
	if len(c.Assumed) == 0 {
		n = 1 // all inputs are stated
	}
	probes := probesOf(c)
	inputs := hypercube(len(c.Assumed), n, o.Seed)
	number := draws.Options{N: n * o.Draws, Seed: o.Seed}
	levels := make([][]float64, len(probes))
	for k := range inputs {
		part, err := sample(c, probes, inputs[k], number, k*o.Draws, (k+1)*o.Draws)
		if err != nil {
			return nil, fmt.Errorf("case %s, sample %d: %w", c.ID, k+1, err)
		}
		for p := range levels {
			levels[p] = append(levels[p], part[p]...)
		}
	}
	return scoreRows(c, probes, levels), nil
}
