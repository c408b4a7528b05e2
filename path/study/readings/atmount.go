package readings

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

const (
	// mountsDiffer is what one mount of an engine shows more or less than its others, dB (judgement).
	mountsDiffer = 2.0
	// BridgedUnder is the drop over a mount under which something leads past it or holds it, dB (judgement).
	BridgedUnder = 10.0
	// bedWeight is how far the bed's mobility, 20 lg, moves with each dB of power into the bed, 10 lg.
	bedWeight = 2.0
)

// MountError is the error of a difference of two levels that one accelerometer shows: its own error drops out.
func MountError(sd float64) float64 { return math.Hypot(RepeatShare*sd*math.Sqrt2, mountsDiffer) }

// observeMount compares the drop over a mount with the model: it moves what is doubted of the mounts and of the bed,
// never the source, whose strength is in both levels.
func observeMount(m *draws.Model, r path.Reading, l *draws.Layout) (all []observation, reason string, err error) {
	x, err := exhaustOf(r, l)
	if err != nil {
		return nil, "", err
	}
	f := x.Feet
	switch {
	case !(f.Line > 0):
		return nil, "at a mount: the engine is not predicted on its feet", nil
	case len(f.Doubts) == 0:
		return nil, "at a mount: the file says rigid feet, there is none to compare with", nil
	case len(r.Mount.Above) == 1:
		band := spectrum.BandOf(f.Line)
		if band < 0 {
			return nil, fmt.Sprintf("at a mount: %.0f Hz of %s lies under what is predicted", f.Line, x.Engine), nil
		}
		o := mountObservation(m, r, l, f, [2]float64{r.Mount.Above[0], r.Mount.Below[0]}, [2]float64{f.AcrossMount, f.Share}, band)
		o.unit = fmt.Sprintf("dB at %.0f Hz", f.Line)
		return []observation{o}, "", nil
	}
	across, share := f.AcrossBands()
	for b := range across {
		if byPhone(r) && spectrum.Exact[b] > path.PhoneReach/math.Sqrt2 {
			continue // its upper half lies beyond the phone
		}
		o := mountObservation(m, r, l, f, [2]float64{r.Mount.Above[b], r.Mount.Below[b]}, [2]float64{across[b], share[b]}, b)
		o.unit = fmt.Sprintf("dB at %g Hz", spectrum.Nominal[b])
		all = append(all, o)
	}
	return all, "", nil
}

// byPhone tells whether a reading at a mount was taken with one: unless an instrument says otherwise.
func byPhone(r path.Reading) bool {
	return r.Instrument == "" || strings.Contains(strings.ToLower(r.Instrument), "phone")
}

// mountObservation is one observation: levels above and below, then the model's drop and by how much it moves with each
// dB of mount over bed. A cause that lets more through makes it smaller.
func mountObservation(m *draws.Model, r path.Reading, l *draws.Layout, f path.OnMounts, levels, model [2]float64, band int) observation {
	value, drop, share := levels[0]-levels[1], model[0], model[1]
	o := observation{value: value, shown: value, repeat: MountError(soundError(r)), instrument: instrument(r, "accelerometer"),
		note: "above less below: the source drops out", restore: func(v float64) float64 { return v }}
	if value < BridgedUnder && drop >= BridgedUnder {
		o.warning = fmt.Sprintf("under %g dB: bridged or bottomed mount", BridgedUnder)
		if f.HalfWay() {
			o.warning = fmt.Sprintf("under %g dB: rigid feet, or a bridged or bottomed mount", BridgedUnder)
		}
	}
	if f.HalfWay() {
		drop /= 2
	}
	causes := mountTerms(m, l, f)
	o.constant, o.keys = drop, causes.Keys
	for _, sd := range causes.SD {
		o.sd = append(o.sd, -share*sd[band])
	}
	return o
}

// mountTerms are the causes that a reading at a mount sees, dB of 20 lg of mount over bed.
func mountTerms(m *draws.Model, l *draws.Layout, f path.OnMounts) *draws.Route {
	doubts := append([]path.Uncertain(nil), f.Doubts...)
	for i, u := range doubts {
		if u.Term == "bed" {
			for b := range u.SD {
				doubts[i].SD[b] *= bedWeight
			}
		}
	}
	return m.RouteOf(l.Name, spectrum.Bands{}, spectrum.Bands{}, doubts)
}
