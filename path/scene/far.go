package scene

import (
	"math"

	"hushwake/path"
	"hushwake/path/tones"
	"hushwake/source/spectrum"
)

// farBelow is how far under the loudest of each octave band all bands of a way lie that counts by its octaves alone in the
// forms for many predictions, dB: its orders and its doubts are not looked at. Of 1500 ways to a seat nearly three quarters
// are such; together they hold about a ten-thousandth of the energy, and no level moves by 0.003 dB(A) (TestFarWaysAreFaint).
var farBelow = 60.0

// below is that of a form; nothing is left out of an answer in full.
func below(f path.Form) float64 {
	if f == path.Points || f.Fast() {
		return farBelow
	}
	return math.Inf(1)
}

// far is what ways far below the others bring, as energy.
type far struct {
	limit spectrum.Bands // dB
	sum   map[path.Way]spectrum.Bands
}

// newFar looks for what the loudest of the ways of emitters bring in each band.
func newFar(from []emitter, ways [][]*trail, below float64) far {
	most := spectrum.Fill(math.Inf(-1))
	if math.IsInf(below, 1) {
		return far{limit: most}
	}
	for i, all := range ways {
		for _, t := range all {
			for b, v := range t.gain {
				most[b] = max(most[b], from[i].bands[b]+v)
			}
		}
	}
	return far{most.Shift(-below), map[path.Way]spectrum.Bands{}}
}

// takes counts a way of an emitter in where it is far below.
func (f *far) takes(e *emitter, t *trail) bool {
	level := e.bands.Plus(t.gain)
	for b, v := range level {
		if v > f.limit[b] {
			return false
		}
	}
	k := path.ByOutlet
	if e.way != k {
		k = ""
	}
	f.sum[k] = f.sum[k].Plus(spectrum.Powers(level))
	return true
}

// arrivals are the sums, those by outlets apart.
func (f *far) arrivals() (all []arrival) {
	for _, k := range []path.Way{path.ByOutlet, ""} {
		if sum, ok := f.sum[k]; ok {
			all = append(all, arrival{energy: sum, weighted: times(sum, tones.APower), way: k, whole: &path.Route{}})
		}
	}
	return all
}
