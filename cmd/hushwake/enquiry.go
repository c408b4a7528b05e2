package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"hushwake/path/report"
	"hushwake/path/study/draws"
)

type enquiryOptions struct {
	*common
	pick
	output string
	force  bool
}

func newEnquiry(c *common) *cobra.Command {
	o := &enquiryOptions{common: c}
	cmd := fileCommand("enquiry FILE --layout L --element N", "A like-for-like request for quotes, in Markdown, that a maker can answer and be held to", o.run)
	f := cmd.Flags()
	o.flags(f, "the element that is to be bought", "where the level is judged")
	f.StringVar(&o.output, "output", "", "write to this file instead of stdout")
	f.BoolVar(&o.force, "force", false, "replace an existing file")
	return cmd
}

func (o *enquiryOptions) run(file string) error {
	p, err := o.pick.load(o.common, file)
	if err != nil {
		return err
	}
	known, err := o.know(p.boat, draws.Options{})
	if err != nil {
		return err
	}
	w, err := report.NewEnquiry(known, p.at, p.listener)
	if err != nil {
		return err
	}
	text := w.Markdown(o.inUnits())
	if o.output != "" {
		return writeFile(o.output, []byte(text), o.force)
	}
	if o.format == "json" {
		return printJSON(o.out, map[string]string{"markdown": text})
	}
	_, err = fmt.Fprint(o.out, text)
	return writeError(err)
}
