// Package readings is what measurements on board say of a model: each reading as an observation with its own error, the
// terms fitted to all of them, what is left, and what has changed between two sets of readings.
package readings

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/study/draws"
)

// observe turns a reading into observations; reason says why it gives none.
func observe(m *draws.Model, r path.Reading, i int, predict Predictor) (all []observation, reason string, err error) {
	if math.IsNaN(r.PlusMinus) || r.PlusMinus < 0 {
		return nil, "", fmt.Errorf("reading %d: its error must be a number over 0", r.Index)
	}
	if r.Bound != "" {
		return nil, "it is a bound (" + r.Bound + "), not a figure", nil
	}
	if ofSpace(r) && !inBoxes(m, r.Space) {
		return nil, "the prediction holds no temperature of a space to compare with, but of boxes round engines", nil
	}
	l, err := configured(m, r, predict)
	if err != nil {
		return nil, "", err
	}
	switch {
	case r.Recording != nil && r.Strike: // its file need not be there
		return nil, struck, nil
	case r.Recording != nil:
		all, reason, err = observeRecording(r, l)
	case r.HasSound():
		all, reason, err = observeSound(r, l)
		if r.Loudspeaker != nil && err == nil {
			var more []observation
			more, reason, err = observeLoudspeaker(m, r, l)
			all = append(all, more...)
		}
	case r.Mount != nil:
		all, reason, err = observeMount(m, r, l)
	case r.BackPress != nil:
		all, reason, err = observePressure(r, l)
	case r.Temp != nil && r.Space != "":
		all, reason, err = observeBox(r, l)
	case r.Temp != nil:
		all, reason, err = observeTemperature(r, l)
	default:
		return nil, "nothing was measured in it", nil
	}
	for k := range all {
		all[k].reading = i
		all[k].order = fmt.Sprint(r.Layout, "|", r.Listener, r.Engine, "|", all[k].unit, "|", k, "|", all[k].value,
			"|", r.PlusMinus, "|", r.Instrument, "|", r.Open, r.RunEngine, r.RunSpeed, r.RunPower)
	}
	return all, reason, err
}
