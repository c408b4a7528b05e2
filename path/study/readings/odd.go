package readings

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/study/assimilate"
)

// farOff says how far off a reading is and what that may mean, by common practice of the trade; ""
// where it is as expected.
func (o *observation) farOff(r path.Reading) string {
	if math.Abs(o.standardised) <= assimilate.Far {
		return ""
	}
	way, means := "over", o.over(r)
	if o.standardised < 0 {
		way, means = "under", o.under(r)
	}
	return fmt.Sprintf("far off: %.1f deviations %s what the model expects. It counts. It may mean %s; write strike: true beside it if it is wrong",
		math.Abs(o.standardised), way, means)
}

func (o *observation) over(r path.Reading) string {
	switch {
	case r.Mount != nil:
		return "softer mounts than stated, or a sensor not set down firmly"
	case r.BackPress != nil:
		return "soot or scale, water standing in the line, a collapsed hose, a tap at the wrong place, or another unit"
	case o.box:
		return "an opening, duct or fan that passes less than stated, a hotter day than weather: air of the file, or a sensor beside the engine"
	case o.unit == "K":
		return "a sensor before the turbine or in the flame, or another unit"
	}
	return "a hole or weeping joint, packing blown out, something open, another speed or load, or C or Z in place of A"
}

func (o *observation) under(r path.Reading) string {
	switch {
	case r.Mount != nil:
		return "a mount bridged, bottomed or set hard"
	case r.BackPress != nil:
		return "a hole or weeping joint before the silencer, a tap at the wrong place, less load than said, or another unit"
	case o.box:
		return "openings that the file doesn't hold, less load than said, a box not warm yet, or a sensor in the air that comes in"
	case o.unit == "K":
		return "a sensor in the wet part or near the wall, less load than said, or another unit"
	}
	return "less speed or load than said, a better built boat than the file tells, or a phone that holds low tones back"
}

// oddities is all that is odd about a reading, in one line.
func (o *observation) oddities(r path.Reading) string {
	var all []string
	for _, s := range append([]string{o.warning, o.farOff(r)}, o.odd...) {
		if s != "" {
			all = append(all, s)
		}
	}
	return strings.Join(all, "; ")
}

// unreachable is the number of deviations over which no doubt of the model reaches a reading: a slip of
// the pen or of the unit (judgement).
const unreachable = 25.0

// reachable leaves out the observations that no draw can follow; left is true where there are any.
func (f *fit) reachable() (left bool) {
	var used []*observation
	for _, o := range f.used {
		if math.Abs(o.standardised) <= unreachable {
			used = append(used, o)
			continue
		}
		o.excluded = fmt.Sprintf("%.0f deviations off what the model expects: none of its doubts reaches that far, so it can't count. Check its unit, its place and the figure", math.Abs(o.standardised))
	}
	left = len(used) < len(f.used)
	f.used = used
	return left
}
