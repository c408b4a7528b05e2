package readings

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

func observeSound(r path.Reading, l *draws.Layout) ([]observation, string, error) {
	heard, err := listenerOf(r, l)
	if err != nil {
		return nil, "", err
	}
	if r.Background != nil {
		heard = ofEngines(heard)
	}
	if len(heard.Routes) == 0 {
		return nil, "no sound is predicted there", nil
	}
	weight, name, err := weighting(r)
	if err != nil {
		return nil, "", err
	}
	if r.Bands != nil {
		all, reason := soundBands(r, heard, weight)
		return all, reason, nil
	}
	level, factor, reason := background(*r.Level, r.Background)
	if reason != "" {
		return nil, reason, nil
	}
	o := soundObservation(r, heard, weight, level, factor)
	o.unit = name
	return []observation{o}, "", nil
}

func soundObservation(r path.Reading, h *draws.Listener, w spectrum.Bands, level, factor float64) observation {
	bias, repeat := SplitError(soundError(r))
	o := observation{unit: "dB", value: level, shown: level, bias: bias, repeat: repeat * factor,
		instrument: instrument(r, "sound meter"), expected: expected{heard: h, weight: w},
		restore: func(v float64) float64 { return v }}
	if factor > 1 {
		o.note = fmt.Sprintf("corrected for the background by %.1f dB", *r.Level-level)
	}
	return o
}

// soundBands gives one observation per band. One background figure can't be taken out of bands: it
// is compared with their sum, and the correction it would make widens the error.
func soundBands(r path.Reading, h *draws.Listener, w spectrum.Bands) ([]observation, string) {
	wide, note := 0.0, ""
	if r.Background != nil {
		total := r.Bands.Total()
		if w == (spectrum.Bands{}) {
			total = r.Bands.DBA()
		}
		level, factor, reason := background(total, r.Background)
		if reason != "" {
			return nil, reason
		}
		if factor > 1 {
			wide, note = total-level, "one background figure for all bands: the error is widened by its correction"
		}
	}
	var all []observation
	for b, v := range r.Bands {
		o := soundObservation(r, h, draws.OnlyBand(b), v-w[b], 1)
		o.repeat, o.note = math.Hypot(o.repeat, wide), note
		o.unit = fmt.Sprintf("dB at %g Hz", spectrum.Nominal[b])
		all = append(all, o)
	}
	return all, ""
}
