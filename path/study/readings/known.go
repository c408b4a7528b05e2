package readings

import (
	"fmt"
	"sync"

	"hushwake/path"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
)

// Known is what is known of a boat: its layouts predicted, and the draws of their doubts before and
// after the readings of its file. Every command asks the same one, so that one file and seed give one
// figure for one seat.
type Known struct {
	File        *path.Boat        // as it was asked about
	Boat        *path.Boat        // with a listener in each space that a reading names
	Central     []path.Prediction // of the layouts asked about, before draws and readings
	Model       *draws.Model
	Before      *draws.Ensemble
	Draws       *draws.Ensemble   // after the readings
	Sample      draws.Sample      // of the model in those draws
	Fit         *Calibration      // nil = none in the file, or ignored
	Changed     *Diagnosis        // between readings that were taken twice in the same way; nil = none were
	Refused     error             // why readings of the file can't be placed; they are left out
	Predictions []path.Prediction // at the middle of the draws
	quick       quick
	few         few
	foreseen    foreseen
	from        Predictions
	session     *scene.Session
}

// Used counts the readings that moved the draws.
func (k *Known) Used() int {
	if k.Fit == nil {
		return 0
	}
	return k.Fit.Used()
}

// Readings are those of the file, none where they are ignored.
func (k *Known) Readings() []path.Reading {
	if k.Fit == nil {
		return nil
	}
	return k.Boat.Readings
}

// Predictor predicts a layout as it was when a reading was taken, each state once.
func (k *Known) Predictor() Predictor {
	done := map[string]path.Prediction{}
	return func(layout string, r path.Reading) (path.Prediction, error) {
		state := fmt.Sprint(layout, "|", r.Open, "|", r.RunEngine, "|", r.Engine, "|", r.RunSpeed, "|", r.RunPower)
		if p, ok := done[state]; ok {
			return p, nil
		}
		l, ok := k.Boat.Layout(layout)
		if !ok {
			return path.Prediction{}, fmt.Errorf("no layout %q in the file", layout)
		}
		as, err := l.ForReading(r)
		if err != nil {
			return path.Prediction{}, err
		}
		p, err := k.from.Predict(k.Boat, as, path.Routes)
		if err == nil {
			done[state] = p
		}
		return p, err
	}
}

// quick is few of the draws, and what they miss in each layout, worked out when it is first asked for.
type quick struct {
	once   sync.Once
	draws  *draws.Ensemble
	missed map[string]func() (missed, error)
}

// missed is what few of the draws miss at each place of a layout, dB, by listener, source and route: of each way, and where a
// way is not of the layout as it stands of all together, "" of the last two.
type missed map[[3]string]float64

// few is few of the draws, the sample in them, and what their median misses of all by layout and listener, dB.
type few struct {
	once          sync.Once
	draws, before *draws.Ensemble
	sample        draws.Sample
	missed        map[[2]string]float64
}

// Session is the one in which the boat was predicted.
func (k *Known) Session() *scene.Session { return k.session }

// Spread gives the bands of all layouts after the readings.
func (k *Known) Spread() draws.Spread { return k.Model.SpreadOf(k.Sample) }

// At is the prediction of a layout at the middle of the draws; nil where the file has none of that name.
func (k *Known) At(layout string) *path.Prediction {
	for i := range k.Predictions {
		if k.Predictions[i].Layout.Name == layout {
			return &k.Predictions[i]
		}
	}
	return nil
}

// Remarks are what is odd about the readings, and which are left out and why.
func (k *Known) Remarks() (all []string) {
	if k.Fit == nil {
		return nil
	}
	for _, r := range k.Fit.Residuals {
		switch {
		case !r.Used && r.Reason != "":
			all = append(all, fmt.Sprintf("reading %d is not used: %s (%s)", r.Reading, r.Reason, r.What))
		case r.Used && r.Odd:
			all = append(all, fmt.Sprintf("reading %d (%s): %s", r.Reading, r.What, r.Reason))
		}
	}
	return all
}
