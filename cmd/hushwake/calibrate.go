package main

import (
	"bytes"
	"errors"
	"io"
	"os"

	"github.com/spf13/cobra"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/publish"
	"hushwake/path/report/onboard"
	"hushwake/path/study/draws"
)

type calibrateOptions struct {
	*common
	draws  draws.Options
	record string // file of the case to be written; "" = none
	force  bool
}

func newCalibrate(c *common) *cobra.Command {
	o := &calibrateOptions{common: c}
	cmd := &cobra.Command{
		Use:   "calibrate FILE",
		Short: "Combines the readings of the file with the model: the corrected prediction and what moved",
		Args:  fileArgument,
		RunE: func(_ *cobra.Command, args []string) error {
			if o.record != "" {
				return o.writeRecord(args[0])
			}
			return o.run(args[0])
		},
	}
	drawFlags(cmd.Flags(), &o.draws)
	cmd.Flags().StringVar(&o.record, "record", "", "show and write the boat and its readings as a case for the record, without names")
	cmd.Flags().BoolVar(&o.force, "force", false, "replace an existing file of --record")
	return cmd
}

func (o *calibrateOptions) run(file string) error {
	b, err := o.load(file)
	if err != nil {
		return err
	}
	k, err := o.calibrated(b)
	if err != nil {
		return err
	}
	o.warn(k.Warnings(o.inUnits()))
	return o.print(k)
}

func (o *calibrateOptions) calibrated(b *path.Boat) (*onboard.Calibrated, error) {
	if len(b.Readings) == 0 {
		return onboard.NewCalibrated(b, nil)
	}
	known, err := o.know(b, o.draws)
	if err != nil {
		return nil, err
	}
	return onboard.NewCalibrated(b, known)
}

// writeRecord shows what the case will hold, then writes it.
func (o *calibrateOptions) writeRecord(file string) error {
	var whole bytes.Buffer
	o.in = io.TeeReader(o.in, &whole)
	b, err := o.load(file)
	if err != nil {
		return err
	}
	data := whole.Bytes()
	if file != boatfile.Dash {
		if data, err = os.ReadFile(file); err != nil {
			return badInput("%w", err)
		}
	}
	text, left, err := publish.NewCase(b.File, data)
	for _, l := range left {
		o.remark("left out: %s", l)
	}
	if err != nil {
		return badInput("%w", err)
	}
	wrote := writeFile(o.record, text, o.force)
	if _, err := o.out.Write(text); err != nil || wrote != nil {
		return errors.Join(wrote, writeError(err))
	}
	o.remark("wrote %s: all that it holds stands above. Read it for names that are left, add what you guessed under assumed, "+
		"then: hushwake verify --measured %s", o.record, o.record)
	return nil
}
