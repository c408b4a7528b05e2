package path

import (
	"fmt"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// What is heard at a place with the engines off, where nobody measured it: a quiet night at anchor, so that it does not
// rule where an engine runs; wind, sea and way through the water add to it (judgement).
const (
	quietInside  = 30.0 // dB(A)
	quietOutside = 35.0
	quietSD      = 8.0
	// BackgroundSD is the doubt of a stated one, dB: a meter or a phone, and no two days are alike (judgement).
	BackgroundSD = 2.0
	// its octaves fall by that much each (judgement: about as the neutral curves of room noise do)
	backgroundSlope = 5.0 // dB
)

// BackgroundOf is a background of that A-weighted level, falling from octave to octave.
func BackgroundOf(dBA float64) (b spectrum.Bands) {
	for i := range b {
		b[i] = -backgroundSlope * float64(i)
	}
	return b.Plus(spectrum.Fill(dBA - b.DBA()))
}

// UsualBackground stands in for one that nobody measured.
func UsualBackground(in string) Background {
	level := quietInside
	if in == Outside {
		level = quietOutside
	}
	return Background{Bands: BackgroundOf(level), SD: quietSD, Usual: true}
}

// Middle is the level in the middle of its doubt, with the band that holds eight cases of ten. Its mean as energy, which is what
// adds up with other sounds, lies higher: by 0.115 SD² where the doubt is normal.
func (b Background) Middle() string {
	const tenth = 1.2816 // standard deviations from the middle to where a tenth is left
	v := b.Bands.DBA()
	return fmt.Sprintf("%.0f dB(A), in eight cases of ten %.0f to %.0f,", v, v-tenth*b.SD, v+tenth*b.SD)
}

// BackgroundRoute is what a listener hears without the engines: no place is silent.
func BackgroundRoute(ear Listener) Route {
	b := ear.Background
	if b.SD == 0 {
		b = UsualBackground(ear.In)
	}
	st := Step{Name: "background: sea, wind and boat without the engines", Cited: published.By("as measured", "the boat file", "measured"), Bands: b.Bands}
	switch {
	case b.Usual:
		st.Cited = published.By("a quiet night at anchor, falling 5 dB an octave", "not stated in the file: judgement", "judgement")
	case b.When != "":
		st.Name += ", " + b.When
	}
	st.Uncertain = []Uncertain{{Term: "background", Key: "background/" + ear.Name, SD: spectrum.Fill(b.SD), Source: st.Source}}
	return Route{Source: "background", Way: ByBackground, Route: "sea, wind and boat", Bands: b.Bands, AWeight: spectrum.A, Steps: []Step{st}}
}
