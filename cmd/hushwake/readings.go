package main

import (
	"cmp"
	"fmt"
	"sort"
	"strings"

	"hushwake/path"
	"hushwake/path/study/readings"
)

// sortReadings parts the readings that can be set up in their layout from those that cannot, such as
// one with a door open that the file does not have. It fails where none can be, or where a layout
// is unknown.
func sortReadings(b *path.Boat) (usable []path.Reading, left []readings.Residual, err error) {
	var first error
	for _, r := range b.Readings {
		l, ok := b.Layout(r.Layout)
		if !ok {
			usable = append(usable, r) // the calibration says what is wrong with it
			continue
		}
		if _, err := l.ForReading(r); err != nil {
			if first == nil {
				first = fmt.Errorf("reading %d: %w", r.Index, err)
			}
			left = append(left, leftOut(r, err))
			continue
		}
		usable = append(usable, r)
	}
	if len(usable) == 0 {
		return nil, nil, first
	}
	return usable, left, nil
}

// leftOut is a reading that is not used, with the reason.
func leftOut(r path.Reading, why error) readings.Residual {
	out := readings.Residual{Reading: r.Index, What: r.Listener, Reason: strings.ReplaceAll(why.Error(), "\nhint: ", "; ")}
	switch {
	case r.Level != nil:
		out.Measured, out.Unit = r.Level, "dB("+strings.ToUpper(cmp.Or(r.Weighting, "A"))+")"
	case r.BackPress != nil:
		out.Measured, out.Unit, out.What = r.BackPress, "Pa", "exhaust of "+r.Engine
	case r.Mount != nil:
		out.Unit, out.What = "dB", "mount of "+r.Engine
	case r.Temp != nil:
		out.Measured, out.Unit, out.What = r.Temp, "K", r.Space
	}
	out.What += ", " + r.Layout
	return out
}

// merge puts the readings that were left out among the others, in the order of the file.
func merge(fit *readings.Calibration, left []readings.Residual) {
	fit.Residuals = append(fit.Residuals, left...)
	sort.SliceStable(fit.Residuals, func(i, j int) bool { return fit.Residuals[i].Reading < fit.Residuals[j].Reading })
	for _, r := range left {
		fit.Warnings = append(fit.Warnings, fmt.Sprintf("reading %d is not used: %s", r.Reading, r.Reason))
	}
}
