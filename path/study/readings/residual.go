package readings

import (
	"math"
	"sort"
	"strings"

	"hushwake/path"
)

// Residual is one number measured beside the model, before and after the fit.
type Residual struct {
	Reading      int    // the reading's number in the file
	What         string // where and in which unit
	Unit         string
	Measured     *float64 // corrected for background; dB, Pa or K
	Predicted    *float64 // before: the median of the draws
	After        *float64 // after all readings, without the instrument's bias
	Residual     *float64 // measured less after
	Standardised float64  // deviations that the reading lies from what was to be expected before any
	Used         bool
	Odd          bool   // far off, or contradicting another
	Struck       bool   // left out by the owner
	Reason       string // why it is not used, or what is odd about it
}

// residuals lists every reading in the order of the file, used or not.
func (f *fit) residuals(readings []path.Reading, reasons []string) []Residual {
	var all []Residual
	for i, r := range readings {
		if reasons[i] != "" {
			all = append(all, Residual{Reading: r.Index, What: placeOf(r), Measured: measuredValue(r), Unit: unitOf(r), Reason: reasons[i], Struck: reasons[i] == struck})
		}
	}
	obs := append([]*observation(nil), f.obs...)
	sort.SliceStable(obs, func(i, j int) bool { return obs[i].reading < obs[j].reading })
	for _, o := range obs {
		all = append(all, o.residual(readings[o.reading]))
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].Reading < all[j].Reading })
	return all
}

func (o *observation) residual(r path.Reading) Residual {
	before, after := o.restore(o.predicted), o.restore(o.fitted)
	rest, shown := o.shown-after, o.shown
	res := Residual{Reading: r.Index, What: placeOf(r), Unit: o.unit, Measured: &shown, Predicted: &before, After: &after,
		Residual: &rest, Standardised: o.standardised, Used: o.excluded == "", Struck: r.Strike, Reason: o.excluded}
	if odd := o.oddities(r); odd != "" && math.Abs(o.standardised) <= unreachable {
		res.Reason, res.Odd = strings.TrimPrefix(res.Reason+"; "+odd, "; "), true
	}
	if res.Reason == "" {
		res.Reason = o.note
	}
	return res
}
