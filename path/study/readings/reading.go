package readings

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// ofSpace tells whether a reading is of the air of a space or box, not of its sound nor of an exhaust.
func ofSpace(r path.Reading) bool {
	return r.Space != "" && !r.HasSound() && r.BackPress == nil && r.Mount == nil
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

// unitOf is the unit of a reading's single value.
func unitOf(r path.Reading) string {
	switch {
	case r.BackPress != nil:
		return "Pa"
	case r.Mount != nil:
		return "dB"
	case !r.HasSound() && r.Temp != nil:
		return "K"
	}
	_, unit, _ := weighting(r)
	return unit
}

// weighting of a reading; A where nothing is stated for a level, none for bands.
func weighting(r path.Reading) (spectrum.Bands, string, error) {
	switch w := strings.ToUpper(r.Weighting); {
	case r.Bands != nil && r.Level != nil:
		return bandWeighting(r)
	case w == "A" || w == "" && r.Bands == nil:
		return spectrum.A, "dB(A)", nil
	case w == "C":
		return spectrum.C, "dB(C)", nil
	case w == "Z" || w == "":
		return spectrum.Bands{}, "dB", nil
	}
	return spectrum.Bands{}, "", fmt.Errorf("reading %d: weighting %q is unknown\nhint: A, C or Z", r.Index, r.Weighting)
}

// bandWeighting tells whether bands that stand beside a level of their own are weighted: the reading
// that adds up to the level is the right one.
func bandWeighting(r path.Reading) (spectrum.Bands, string, error) {
	w := spectrum.A
	if strings.EqualFold(r.Weighting, "C") {
		w = spectrum.C
	}
	if math.Abs(r.Bands.Total()-*r.Level) < math.Abs(r.Bands.Plus(w).Total()-*r.Level) {
		return w, "dB", nil
	}
	return spectrum.Bands{}, "dB", nil
}
