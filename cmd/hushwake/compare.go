package main

import (
	"errors"
	"io"

	"github.com/spf13/cobra"

	"hushwake/charts"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/report/listen"
	"hushwake/path/report/pictures"
)

type compareOptions struct {
	*common
	selection
	reportFile    string
	soundDir      string
	live          bool
	force         bool
	failOverLimit bool
}

func newCompare(c *common) *cobra.Command {
	o := &compareOptions{common: c}
	cmd := fileCommand("compare FILE", "Every layout at every listener, back pressure against its limit, ranking and trade-off", o.run)
	f := cmd.Flags()
	f.StringArrayVar(&o.layouts, "layout", nil, "only this layout (may be repeated)")
	f.StringArrayVar(&o.listeners, "listener", nil, "only this listener (may be repeated); the first one orders the table")
	f.StringVar(&o.reportFile, "report", "", "also write the report page to this HTML file")
	f.StringVar(&o.soundDir, "sound", "", "also write each layout at each place as a WAV file into this folder, and into the report to be played there")
	f.BoolVar(&o.live, "live", false, "make the report a page one can change, offline, with hushwake inside")
	f.BoolVar(&o.force, "force", false, "replace an existing report, or existing sounds")
	f.BoolVar(&o.failOverLimit, "fail-over-limit", false, "exit with status 1 when a limit of the file is exceeded")
	drawFlags(f, &o.draws)
	return cmd
}

func (o *compareOptions) run(file string) error {
	if o.live {
		return o.withLivePage(file)
	}
	return o.compareFile(file)
}

func (o *compareOptions) compareFile(file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	if len(o.listeners) > 0 {
		o.listener = o.listeners[0]
	}
	o.page = o.reportFile != "" && !o.live
	w, err := o.compare(o.common, b)
	if err != nil {
		return err
	}
	answer := form.Answer(w)
	if o.full {
		o.warn(w.Warnings(o.inUnits()))
	} else {
		answer = o.brief(w)
	}
	if err := errors.Join(o.writeReport(w), o.writeSounds(w), o.print(answer)); err != nil {
		return err
	}
	if o.failOverLimit && w.OverLimit() {
		return errOverLimit
	}
	return nil
}

// brief warns in the lines that the screen has left for it.
func (c *common) brief(w *report.Comparison) report.Brief {
	b := report.Brief{Comparison: w}
	c.warnFirst(report.BriefWarned, b.Warnings(c.inUnits()))
	return b
}

// writeReport writes the page before anything is printed: who reads the text may leave at any time.
func (o *compareOptions) writeReport(w *report.Comparison) error {
	if o.reportFile == "" || o.live {
		return nil
	}
	data, err := w.Page(o.inUnits())
	if err == nil && o.soundDir != "" {
		data.Sounds, err = listen.ForPage(w)
	}
	if err != nil {
		return err
	}
	pictures.Of(w).AddTo(data, o.inUnits())
	return o.writePage(o.reportFile, o.force, func(f io.Writer) error { return charts.Write(f, data) })
}
