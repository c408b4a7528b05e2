package readings

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"hushwake/path"
	"hushwake/path/study/draws"
)

// noWeight is an error (dB, or relative) over which a reading is infinitely uncertain.
const noWeight = 1e6

// Calibration is the outcome of moving the draws by readings.
type Calibration struct {
	Draws       *draws.Ensemble // what is known after all readings
	Terms       []draws.Moved   // what moved or narrowed most first
	Residuals   []Residual
	Instruments []Bias
	Covers      []Parted // of readings with something open and shut
	Warnings    []string
}

// Used counts the readings that moved the draws.
func (c *Calibration) Used() int {
	used := map[int]bool{}
	for _, r := range c.Residuals {
		if r.Used {
			used[r.Reading] = true
		}
	}
	return len(used)
}

// Calibrate moves the draws by all readings at once. All terms move together, so one reading moves
// every layout that shares a cause. A reading far off what was to be expected counts, and is named
// with what it may mean; one that the owner strikes does not.
func Calibrate(m *draws.Model, e *draws.Ensemble, readings []path.Reading, predict Predictor) (Calibration, error) {
	out := Calibration{Draws: e}
	obs, reasons, err := observations(m, readings, predict)
	if err != nil {
		return out, err
	}
	if out.Covers, err = coverTests(m, readings, predict); err != nil {
		return out, err
	}
	out.Warnings = onTheirOwn(obs)
	f := newFit(m, e, obs)
	f.judge(readings)
	if len(f.used) == 0 {
		out.Warnings = append(out.Warnings, "no reading could be used: the prediction stands as it was")
	} else if err := f.move(); err != nil {
		return out, err
	} else {
		out.Draws = e.After(m, f.after[:len(m.Terms)])
	}
	out.Terms = m.Moved(out.Draws)
	out.Instruments = f.review()
	out.Residuals = f.residuals(readings, reasons)
	return out, nil
}

// observations of all readings, in an order that depends on what they say, not where they stand.
func observations(m *draws.Model, readings []path.Reading, predict Predictor) (all []*observation, reasons []string, err error) {
	reasons = make([]string, len(readings))
	var failed []error
	for i, r := range readings {
		obs, reason, err := observe(m, r, i, predict)
		if err != nil {
			failed = append(failed, err)
			continue
		}
		reasons[i] = reason
		for k := range obs {
			all = append(all, &obs[k])
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].order < all[j].order })
	scaleRecorders(all, readings)
	return all, reasons, errors.Join(failed...)
}

// judge sorts out which observations count.
func (f *fit) judge(readings []path.Reading) {
	for _, o := range f.obs {
		switch {
		case readings[o.reading].Strike:
			o.excluded = struck
		case o.bias > noWeight || o.repeat > noWeight || math.IsInf(o.bias+o.repeat, 0):
			o.excluded = "its stated error is so large that it carries no weight"
		default:
			f.used = append(f.used, o)
		}
	}
	f.compare()
	if f.reachable() {
		f.compare()
	}
	for _, p := range f.apart {
		a, b := f.used[p.First], f.used[p.Second]
		if a.reading != b.reading {
			a.odd = append(a.odd, fmt.Sprintf("contradicts reading %d: each fits the model alone, not both", readings[b.reading].Index))
			b.odd = append(b.odd, fmt.Sprintf("contradicts reading %d: each fits the model alone, not both", readings[a.reading].Index))
		}
	}
}
