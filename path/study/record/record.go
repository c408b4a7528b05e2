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

// Options of a run; zero means the usual.
type Options struct {
	Samples, Draws int
	Seed           uint64
}

// Row is one measured figure beside its prediction, dB.
type Row struct {
	boatfile.CaseRow
	Case                 *boatfile.Case
	Predicted, LowP, Top float64 // median, 10th and 90th percentile over inputs and terms
	Deviation            float64 // predicted less measured; of a limit, by how much the median breaks it
	Inside, Far          bool
	Octaves              []Octave // where octaves were measured
}

// Octave is one octave of a row, shown and not counted.
type Octave struct {
	Hertz                          float64
	Measured, Predicted, LowP, Top float64
	Inside                         bool
}

// Counted tells whether the row is evidence: none that ever set a constant is.
func (r *Row) Counted() bool { return r.SetsConstant == "" }

// Limit tells whether the row is a limit and no reading.
func (r *Row) Limit() bool { return r.Low == nil || r.High == nil }

// Measured is the reading, the middle of a range, or the limit.
func (r *Row) Measured() float64 {
	switch {
	case r.Low == nil:
		return *r.High
	case r.High == nil:
		return *r.Low
	}
	return (*r.Low + *r.High) / 2
}

// Report is the outcome of a run.
type Report struct {
	Options Options
	Rows    []Row
	Groups  []Sum // of the counted rows, in the order of boatfile.CaseGroups
	All     Sum   // of all counted rows
	Set     Sum   // of the rows that set a constant, which prove nothing
}

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
