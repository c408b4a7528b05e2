package main

import (
	"fmt"
	"os"

	"hushwake/path/boatfile"
)

// writeRecord shows what the case will hold, then writes it.
func (o *calibrateOptions) writeRecord(file string) error {
	if _, err := o.load(file); err != nil {
		return err
	}
	data, err := os.ReadFile(file)
	if err != nil {
		return badInput("%w", err)
	}
	text, left, err := boatfile.NewCase(file, data)
	for _, l := range left {
		o.remark("left out: %s", l)
	}
	if err != nil {
		return badInput("%w", err)
	}
	if _, err := fmt.Fprintf(o.out, "%s", text); err != nil {
		return writeError(err)
	}
	if err := writeFile(o.record, text, o.force); err != nil {
		return err
	}
	o.remark("wrote %s: all that it holds stands above. Read it for names that are left, add what you guessed under assumed, "+
		"then: hushwake verify --measured %s", o.record, o.record)
	return nil
}
