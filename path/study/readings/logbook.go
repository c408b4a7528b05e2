package readings

import (
	"sort"
	"strings"

	"hushwake/path"
	"hushwake/path/study/draws"
)

// repeated parts readings that were taken twice or more in the same way: the first of each in the
// order of the file is the baseline, the last the later one. One that is struck is neither.
func repeated(m *draws.Model, readings []path.Reading) (baseline, later []path.Reading) {
	done := make([]bool, len(readings))
	for i, first := range readings {
		last := -1
		for k := i + 1; k < len(readings); k++ {
			if !done[k] && !done[i] && !first.Strike && !readings[k].Strike && sameConditions(PlainDuty(m, first), PlainDuty(m, readings[k])) {
				last, done[k] = k, true
			}
		}
		if last > 0 {
			baseline, later = append(baseline, first), append(later, readings[last])
		}
	}
	return baseline, later
}

// CalibrateLog calibrates to a log in which readings may have been repeated later. Where repeats show
// that something changed, the prediction is fitted to the readings without the later ones, which are
// then listed as not used; the diagnosis is nil where nothing was repeated.
func CalibrateLog(m *draws.Model, e *draws.Ensemble, readings []path.Reading, predict Predictor) (Calibration, *Diagnosis, error) {
	baseline, later := repeated(m, readings)
	if len(later) == 0 {
		c, err := Calibrate(m, e, readings, predict)
		return c, nil, err
	}
	is := map[int]bool{}
	for _, r := range later {
		is[r.Index] = true
	}
	var logged []path.Reading
	for _, r := range readings {
		if !is[r.Index] {
			logged = append(logged, r)
		}
	}
	c, err := Calibrate(m, e, logged, predict)
	if err != nil {
		return c, nil, err
	}
	d, err := diagnose(m, c.Draws.Means(m), baseline, later, predict)
	if err != nil { // no fault explains it: all count, and those that contradict are named
		c, fitted := Calibrate(m, e, readings, predict)
		c.Warnings = append(c.Warnings, strings.ReplaceAll(err.Error(), "\nhint: ", "; "))
		return c, nil, fitted
	}
	if d.Causes[0].Name == noFault {
		c, err = Calibrate(m, e, readings, predict)
		return c, &d, err
	}
	for _, r := range later {
		c.Residuals = append(c.Residuals, Residual{Reading: r.Index, What: placeOf(r), Measured: measuredValue(r), Unit: unitOf(r),
			Reason: "later than its baseline, and something has changed: compared, not fitted"})
	}
	sort.SliceStable(c.Residuals, func(i, j int) bool { return c.Residuals[i].Reading < c.Residuals[j].Reading })
	return c, &d, nil
}
