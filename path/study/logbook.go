package study

import (
	"sort"

	"hushwake/path"
)

// Repeated parts readings that were taken twice or more in the same way: the first of each in the
// order of the file is the baseline, the last the later one.
func (m *Model) Repeated(readings []path.Reading) (baseline, later []path.Reading) {
	done := make([]bool, len(readings))
	for i, first := range readings {
		last := -1
		for k := i + 1; k < len(readings); k++ {
			if !done[k] && !done[i] && alike(m.plainDuty(first), m.plainDuty(readings[k])) {
				last, done[k] = k, true
			}
		}
		if last > 0 {
			baseline, later = append(baseline, first), append(later, readings[last])
		}
	}
	return baseline, later
}

// plainDuty leaves a stated duty out where it is the running duty anyhow.
func (m *Model) plainDuty(r path.Reading) path.Reading {
	l, _ := m.find(r.Layout, "")
	if l < 0 || r.RunPower != 0 {
		return r
	}
	for _, p := range m.layouts[l].pressures {
		if (r.RunEngine == p.engine || r.RunEngine == "" && len(m.layouts[l].pressures) == 1) && r.RunSpeed == p.speed {
			r.RunEngine, r.RunSpeed = "", 0
		}
	}
	return r
}

// CalibrateLog calibrates to a log in which readings may have been repeated later. Where repeats show
// that something changed, the prediction is fitted to the readings without the later ones, which are
// then listed as not used; the diagnosis is nil where nothing was repeated.
func (m *Model) CalibrateLog(readings []path.Reading, predict Predictor) (Calibration, *Diagnosis, error) {
	baseline, later := m.Repeated(readings)
	if len(later) == 0 {
		c, err := m.Calibrate(readings, predict)
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
	c, err := m.Calibrate(logged, predict)
	if err != nil {
		return c, nil, err
	}
	d, err := m.Diagnose(c.Belief, baseline, later, predict)
	if err != nil {
		return c, nil, err
	}
	if d.Causes[0].Name == nothing {
		c, err = m.Calibrate(readings, predict)
		return c, &d, err
	}
	for _, r := range later {
		c.Residuals = append(c.Residuals, Residual{Reading: r.Index, What: where(r), Measured: measured(r), Unit: unitOf(r),
			Reason: "later than its baseline, and something has changed: compared, not fitted"})
	}
	sort.SliceStable(c.Residuals, func(i, j int) bool { return c.Residuals[i].Reading < c.Residuals[j].Reading })
	return c, &d, nil
}

// unitOf is the unit of a reading's single value.
func unitOf(r path.Reading) string {
	switch {
	case r.BackPress != nil:
		return "Pa"
	case r.Mount != nil:
		return "dB"
	case r.Level == nil && r.Bands == nil && r.Temp != nil:
		return "K"
	}
	_, unit, _ := weighting(r)
	return unit
}
