package fourpole

import (
	"math"
	"math/cmplx"
)

// Against is what the insertion losses of several lines have in common that end in one load, with one source: see
// Loaded.InsertionLoss.
type Against struct {
	source complex128
	driven float64 // of the reference
	powers float64 // of the two loads, dB
}

// Powers are those of a reference's load over another's, dB.
func (l Loaded) Powers(load Termination) float64 {
	return 10 * math.Log10(l.Load.power()/load.power())
}

// Against makes the reference ready for a source and lines whose load takes powers less.
func (l Loaded) Against(source complex128, powers float64) Against {
	return Against{source, cmplx.Abs(l.driven(source)), powers}
}

// InsertionLoss is that of a line, dB.
func (a *Against) InsertionLoss(l *Loaded) float64 {
	return 20*math.Log10(cmplx.Abs(l.driven(a.source))/a.driven) + a.powers
}
