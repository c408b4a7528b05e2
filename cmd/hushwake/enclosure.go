package main

import (
	"slices"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
	"hushwake/path/study/draws"
)

type enclosureOptions struct {
	*common
	name, layout  string
	failOverLimit bool
}

func newEnclosure(c *common) *cobra.Command {
	o := &enclosureOptions{common: c}
	cmd := fileCommand("enclosure FILE", "A generator box: insertion loss, the air it needs, temperature rise, what an extra hole costs", o.run)
	cmd.Flags().StringVar(&o.name, "enclosure", "", "the enclosure; default the first in use")
	cmd.Flags().StringVar(&o.layout, "layout", "", "the layout whose box is shown; default the first")
	cmd.Flags().BoolVar(&o.failOverLimit, "fail-over-limit", false, "exit with status 1 when a limit of the file is exceeded")
	return cmd
}

func (o *enclosureOptions) run(file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	boxes, err := parts.UsedBoxes(b)
	if err != nil {
		return err
	}
	shown, err := o.choose(b, boxes)
	if err != nil {
		return err
	}
	known, err := o.know(b, draws.Options{})
	if err != nil {
		return err
	}
	all, err := parts.NewBoxes(known, shown, boxes)
	if err != nil {
		return err
	}
	o.warn(all.Warnings(o.inUnits()))
	if err := o.print(all); err != nil || !o.failOverLimit {
		return err
	}
	w, err := selection{}.compare(o.common, b)
	if err != nil {
		return err
	}
	if w.OverLimit() {
		return errOverLimit
	}
	return nil
}

func (o *enclosureOptions) choose(b *path.Boat, boxes []parts.UsedBox) (parts.UsedBox, error) {
	if o.layout != "" {
		l, err := chooseLayout(b, o.layout)
		if err != nil {
			return parts.UsedBox{}, err
		}
		o.layout = l.Name
	}
	var names []string
	for _, u := range boxes {
		if (o.name == "" || u.Name() == o.name) && (o.layout == "" || u.Layout == o.layout) {
			return u, nil
		}
		if !slices.Contains(names, u.Name()) {
			names = append(names, u.Name())
		}
	}
	return parts.UsedBox{}, form.Unknown("enclosure in use", o.name, names)
}
