package main

import (
	"errors"
	"io"
	"slices"

	"github.com/spf13/pflag"

	"hushwake/charts"
	"hushwake/path/boatfile"
	"hushwake/path/report/proof"
	"hushwake/path/study/record"
)

// errFarOff ends a strict run in which a row lies far outside; its text is already printed.
var errFarOff = &exitError{statusOverLimit, errors.New("a measured row lies far outside its band")}

type measuredOptions struct {
	*common
	options       record.Options
	report        string
	strict, force bool
}

func (o *measuredOptions) flags(f *pflag.FlagSet) {
	f.StringVar(&o.report, "report", "", "write the record as a page, predicted against measured")
	f.BoolVar(&o.force, "force", false, "replace an existing page")
	f.BoolVar(&o.strict, "strict", false, "exit with status 1 when a row lies far outside its band")
	f.Uint64Var(&o.options.Seed, "seed", 0, "seed of the samples and draws (0: the usual)")
	f.IntVar(&o.options.Samples, "samples", record.DefaultSamples, "samples of the assumed inputs, each a full prediction")
}

func (o *measuredOptions) run(files []string) error {
	if o.options.Samples < 1 || o.options.Samples > maxSamples {
		return badInput("--samples %d: between 1 and %d are possible\nhint: leave it out for %d", o.options.Samples, maxSamples, record.DefaultSamples)
	}
	r, err := o.predict(files)
	if err != nil {
		return err
	}
	m := proof.MeasuredRun{Report: r}
	var wrote error
	if o.report != "" {
		wrote = o.writePage(o.report, o.force, func(f io.Writer) error { return charts.WriteRecord(f, m.Page()) })
	}
	if err := errors.Join(wrote, o.print(m)); err != nil {
		return err
	}
	if o.strict && len(r.Far()) > 0 {
		return errFarOff
	}
	return nil
}

// maxSamples keeps a run below an hour.
const maxSamples = 1000

func (o *measuredOptions) predict(files []string) (r record.Report, err error) {
	var cases []*boatfile.Case
	switch {
	case len(files) == 0:
		cases, err = record.BuiltIn()
	case slices.Equal(files, []string{boatfile.Dash}):
		cases, err = record.Read(boatfile.StandardInput, o.in)
	default:
		cases, err = record.Load(files...)
	}
	if err != nil {
		return r, err
	}
	if r, err = record.Run(cases, o.options); err != nil {
		return r, err
	}
	return r, nil
}
