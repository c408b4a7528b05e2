package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"hushwake/path/report/enquiry"
	"hushwake/path/report/form"
	"hushwake/path/study/draws"
)

// enquiryDocument is what scripts get.
type enquiryDocument struct {
	Markdown string `json:"markdown"`
}

type enquiryOptions struct {
	*common
	pick
	output, enclosure string
	force             bool
}

func newEnquiry(c *common) *cobra.Command {
	o := &enquiryOptions{common: c}
	cmd := fileCommand("enquiry FILE --layout L --element N | --enclosure NAME", "A like-for-like request for quotes, in Markdown, that a maker can answer and be held to", o.run)
	f := cmd.Flags()
	o.flags(f, "the element that is to be bought", "where the level is judged")
	f.StringVar(&o.enclosure, "enclosure", "", "a whole box in place of an element, with its cut list")
	f.StringVar(&o.output, "output", "", "write to this file instead of stdout")
	f.BoolVar(&o.force, "force", false, "replace an existing file")
	return cmd
}

func (o *enquiryOptions) run(file string) error {
	text, err := o.markdown(file)
	if err != nil {
		return err
	}
	if o.output != "" {
		return writeFile(o.output, []byte(form.Visible(text)), o.force)
	}
	if o.format == "json" {
		return printJSON(o.out, enquiryDocument{text})
	}
	_, err = fmt.Fprint(o.out, text)
	return writeError(err)
}

// markdown is the request for what was picked.
func (o *enquiryOptions) markdown(file string) (string, error) {
	if o.enclosure != "" {
		return o.shield(file)
	}
	p, err := o.pick.load(o.common, file)
	if err != nil {
		return "", err
	}
	known, err := o.know(p.boat, draws.Options{}, p.at.Layout)
	if err != nil {
		return "", err
	}
	w, err := enquiry.NewEnquiry(known, p.at, p.listener)
	if err != nil {
		return "", err
	}
	return w.Markdown(o.inUnits()), nil
}

// shield is the request for a whole box.
func (o *enquiryOptions) shield(file string) (string, error) {
	b, l, seat, err := o.seatOf(file, o.layout, o.listener)
	if err != nil {
		return "", err
	}
	known, err := o.know(b, draws.Options{})
	if err != nil {
		return "", err
	}
	w, err := enquiry.NewShield(known, l, o.enclosure, seat)
	if err != nil {
		return "", err
	}
	return w.Markdown(o.inUnits()), nil
}
