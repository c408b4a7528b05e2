package passage

import (
	"math"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// Masked is a line of an engine that a measured background covers in a layout.
type Masked struct {
	Layout, Engine   string
	Order, Frequency float64
	Under            float64 // dB under what would be heard
	When             string  // the condition that the background was measured in
}

// criticalBand is the width of the critical band about a frequency, Hz: 25 + 75 (1 + 1.4 (f/1000)^2)^0.69. Source:
// ISO/PAS 20065:2016.
func criticalBand(f float64) float64 { return 25 + 75*math.Pow(1+1.4*f*f/1e6, 0.69) }

// audibility is how far a tone at a level, dB, lies over what noise of an octave level, dB, lets through, dB; under 0 it is
// not heard:
//
//	dL = LT - LG - av ,  LG = L_octave + 10 lg(critical band / octave) ,  av = -2 - lg(1 + (f/502)^2.5)
//
// with the noise even over the octave. Source: ISO/PAS 20065:2016. f is in Hz.
func audibility(f, tone, octave float64) float64 {
	band := spectrum.BandOf(f)
	if band < 0 {
		return math.Inf(-1)
	}
	width := spectrum.Exact[band] / math.Sqrt2
	noise := octave + 10*math.Log10(criticalBand(f)/width)
	return tone - noise - (-2 - math.Log10(1+math.Pow(f/502, 2.5)))
}

// faint is how far under the loudest line of an engine one still counts, dB.
const faint = 20.0

// masked lists the strong lines that a measured background covers; a usual one, which nobody measured, covers nothing.
func masked(all []path.Prediction, place int) (out []Masked) {
	b := all[0].Listeners[place].Listener.Background
	if b.Usual || b.SD == 0 {
		return nil
	}
	for i := range all {
		h := &all[i].Listeners[place]
		for _, x := range all[i].Exhausts {
			lines := all[i].LinesAt(h, x.Engine)
			top := math.Inf(-1)
			for _, o := range lines {
				top = math.Max(top, o.Level+spectrum.AAt(o.Frequency))
			}
			for _, o := range lines {
				if o.Level+spectrum.AAt(o.Frequency) < top-faint {
					continue
				}
				if d := audibility(o.Frequency, o.Level, b.Bands[spectrum.BandOf(o.Frequency)]); d < 0 {
					out = append(out, Masked{all[i].Layout.Name, x.Engine, o.Order, o.Frequency, -d, b.When})
				}
			}
		}
	}
	return out
}
