package readings

import (
	"math"
	"sort"
	"strings"

	"hushwake/path"
)

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

// placeOf names the place of a reading.
func placeOf(r path.Reading) string {
	place := r.Listener
	switch {
	case r.Mount != nil:
		place = strings.TrimSuffix("mount of "+r.Engine, " of ")
	case ofSpace(r):
		place = r.Space
	case !r.HasSound() && r.Engine != "":
		place = "exhaust of " + r.Engine
	case place == "" && r.Space != "":
		place = r.Space
	}
	if r.Layout != "" {
		place += ", " + r.Layout
	}
	return place
}

func measuredValue(r path.Reading) *float64 {
	switch {
	case r.Level != nil:
		return r.Level
	case r.BackPress != nil:
		return r.BackPress
	case r.Mount != nil && len(r.Mount.Above) == 1:
		drop := r.Mount.Above[0] - r.Mount.Below[0]
		return &drop
	}
	return r.Temp
}
