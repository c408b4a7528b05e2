package readings

import (
	"fmt"
	"math"
	"slices"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// Limits of the background correction (survey methods of sound measurement, common practice): no
// correction over 10 dB, no use under 3 dB.
const (
	backgroundNone   = 10.0
	backgroundRefuse = 3.0
)

// background takes the background out of a level as energy; factor is how much the error of the
// reading grows by it.
func background(level float64, b *float64) (corrected, factor float64, reason string) {
	if b == nil || level-*b > backgroundNone {
		return level, 1, ""
	}
	if level-*b < backgroundRefuse {
		return 0, 0, fmt.Sprintf("only %.1f dB over the background: within %g dB a reading says nothing of the engine", level-*b, backgroundRefuse)
	}
	rest := 1 - spectrum.Power(*b-level)
	return level + 10*math.Log10(rest), 1 / rest, ""
}

// ofEngines is what is heard but for the background: what a reading holds that is corrected for its own.
func ofEngines(h *draws.Listener) *draws.Listener {
	out := *h
	out.Routes = slices.DeleteFunc(slices.Clone(h.Routes), func(r *draws.Route) bool { return r.Way == path.ByBackground })
	return &out
}
