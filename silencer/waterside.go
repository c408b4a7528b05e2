package silencer

import "hushwake/silencer/wet"

// WaterSide is what of an element meets water, injection aside; nil = it has no such part.
type WaterSide struct {
	Vessel    bool           // its wall holds water, and gas without water would burn it
	Chamber   *wet.Chamber   // that lifts the water
	Separator *wet.Separator // of gas from water
	Riser     *Riser         // in which the water goes up
	Loop      *float64       // m over the waterline, top of a vented loop in the raw water's line
}
