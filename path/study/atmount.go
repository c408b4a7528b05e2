package study

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/source/spectrum"
)

const (
	// mountsDiffer is what one mount of an engine shows more or less than its others, dB (judgement).
	mountsDiffer = 2.0
	// bridgedUnder is the drop over a mount under which something leads past it or holds it, dB (judgement).
	bridgedUnder = 10.0
	// bedWeight is how far the bed's mobility, 20 lg, moves with each dB of power into the bed, 10 lg.
	bedWeight = 2.0
)

// mountRepeat is the error of a difference of two levels that one accelerometer shows: its own error drops out.
func mountRepeat(sd float64) float64 { return math.Hypot(repeatShare*sd*math.Sqrt2, mountsDiffer) }

// feetModel is how one engine stands.
type feetModel struct {
	engine string
	feet   path.OnMounts
}

// observeMount compares the drop over a mount with the model: it moves what is doubted of the mounts and of the bed,
// never the source, whose strength is in both levels.
func (m *Model) observeMount(r path.Reading, l *layoutModel) (all []observation, reason string, err error) {
	x, err := exhaustOf(r, l)
	if err != nil {
		return nil, "", err
	}
	f := l.feetOf(x.engine)
	switch {
	case !(f.Line > 0):
		return nil, "at a mount: the engine is not predicted on its feet", nil
	case len(f.Doubts) == 0:
		return nil, "at a mount: the file says rigid feet, there is none to compare with", nil
	case len(r.Mount.Above) == 1:
		band := spectrum.BandOf(f.Line)
		if band < 0 {
			return nil, fmt.Sprintf("at a mount: %.0f Hz of %s lies under what is predicted", f.Line, x.engine), nil
		}
		o := m.dropped(r, l, f, [2]float64{r.Mount.Above[0], r.Mount.Below[0]}, [2]float64{f.AcrossMount, f.Share}, band)
		o.unit = fmt.Sprintf("dB at %.0f Hz", f.Line)
		return []observation{o}, "", nil
	}
	across, share := f.AcrossBands()
	for b := range across {
		if phone(r) && spectrum.Exact[b] > path.PhoneReach/math.Sqrt2 {
			continue // its upper half lies beyond the phone
		}
		o := m.dropped(r, l, f, [2]float64{r.Mount.Above[b], r.Mount.Below[b]}, [2]float64{across[b], share[b]}, b)
		o.unit = fmt.Sprintf("dB at %g Hz", spectrum.Nominal[b])
		all = append(all, o)
	}
	return all, "", nil
}

// phone tells whether a reading at a mount was taken with one: unless an instrument says otherwise.
func phone(r path.Reading) bool {
	return r.Instrument == "" || strings.Contains(strings.ToLower(r.Instrument), "phone")
}

func (l *layoutModel) feetOf(engine string) path.OnMounts {
	for _, f := range l.feet {
		if f.engine == engine {
			return f.feet
		}
	}
	return path.OnMounts{}
}

// dropped is one observation: levels above and below, then the model's drop and by how much it moves with each
// dB of mount over bed. A cause that lets more through makes it smaller.
func (m *Model) dropped(r path.Reading, l *layoutModel, f path.OnMounts, levels, model [2]float64, band int) observation {
	value, expected, share := levels[0]-levels[1], model[0], model[1]
	o := observation{value: value, shown: value, repeat: mountRepeat(soundError(r)), instrument: instrument(r, "accelerometer"),
		note: "above less below: the source drops out", restore: func(v float64) float64 { return v }}
	if value < bridgedUnder && expected >= bridgedUnder {
		o.finding = fmt.Sprintf("under %g dB: bridged or bottomed mount", bridgedUnder)
		if f.HalfWay() {
			o.finding = fmt.Sprintf("under %g dB: rigid feet, or a bridged or bottomed mount", bridgedUnder)
		}
	}
	if f.HalfWay() {
		expected /= 2
	}
	causes := m.mountTerms(l, f)
	o.gradient = func(_ []float64, n int) []float64 {
		g := make([]float64, n)
		for i, k := range causes.keys {
			g[k] -= share * causes.sd[i][band]
		}
		return g
	}
	o.model = func(z []float64) float64 { return expected - share*causes.at(z)[band] }
	return o
}

// mountTerms are the causes that a reading at a mount sees, dB of 20 lg of mount over bed.
func (m *Model) mountTerms(l *layoutModel, f path.OnMounts) *routeModel {
	out, at := &routeModel{}, map[int]int{}
	for _, u := range f.Doubts {
		if u.Term == "bed" {
			for b := range u.SD {
				u.SD[b] *= bedWeight
			}
		}
		m.spread(out, at, l.name, u)
	}
	return out
}

// atMount plans a phone's accelerometer above and below a mount.
func (m *Model) atMount(p path.Prediction, r path.Route, b Belief) []candidate {
	for _, x := range p.Exhausts {
		if f := x.Feet; r.Source == x.Engine+" casing" && f.AcrossMount > 0 {
			c := m.near(p, r, r.Bands, b, 0, map[string]bool{"mounts": true})
			c.bias, c.repeat = 0, mountRepeat(phoneSD)
			c.What, c.Where = "vibration above and below a mount, by a phone's accelerometer", "feet of "+x.Engine
			c.How = fmt.Sprintf(howMount, f.AcrossMount, f.Line, x.Engine)
			if f.AcrossMount >= bridgedUnder+phoneSD {
				c.How += fmt.Sprintf(howBridged, bridgedUnder)
			}
			return []candidate{c}
		}
	}
	return nil
}
