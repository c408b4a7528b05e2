package passage

import (
	"math"

	"hushwake/path"
	"hushwake/source"
)

// Passage is days at sea with every layout.
type Passage struct {
	path.Voyage
	Cycle   string // the test cycle that stands for its legs, with its source; "" = they are stated
	Hours   float64
	Layouts []Layout
}

// Layout is a passage with one layout.
type Layout struct {
	Name   string
	Places []Place   // in the order of the file
	Watch  *Watch    // of one who keeps watches; nil = none are stated, or he rests where he stands them
	Fuel   float64   // m3; NaN = not sold by volume
	Cruise []Cruised // at each place the speed that is the quietest for a mile; none unless two are stated over ground
	Legs   []Leg
}

// Leg is what runs on a leg, with the lines of shafts and propellers.
type Leg struct {
	path.Leg
	Running []Running
}

// Running is an engine on a leg.
type Running struct {
	Engine       string
	Duty         source.Duty
	Shaft, Blade float64 // Hz; 0 = not stated
}

// Place is what a day brings to one who stays at a place while engines run, or keeps watches; elsewhere is silence.
type Place struct {
	Name                string
	Exposure, Low, High float64 // dB(A), LEX,8h: median of the draws and the band of eight cases of ten
}

// Watch is the day of one who is at two places by turns.
type Watch struct {
	Place
	At, Rest string
}

// Between tells whether the middle of a watch lies between those of its two places, to the dB. In each draw it does;
// but where the two are known apart from each other, each may be the loud one, and the middle of the louder lies over both.
func (l Layout) Between() bool {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range l.Places {
		if p.Name == l.Watch.At || p.Name == l.Watch.Rest {
			low, high = math.Min(low, math.Round(p.Exposure)), math.Max(high, math.Round(p.Exposure))
		}
	}
	at := math.Round(l.Watch.Exposure)
	return math.IsNaN(at) || math.IsInf(low, 1) || at >= low && at <= high
}

// Widen takes the firm figures away: what is left is the span of its bands and of the layout as its sheets may be read.
func (l *Layout) Widen(readings ...Layout) {
	for _, r := range readings {
		for j := range l.Places {
			l.Places[j].widen(r.Places[j])
		}
		if l.Watch != nil {
			l.Watch.widen(r.Watch.Place)
		}
	}
	l.Fuel, l.Cruise = math.NaN(), nil
}

func (p *Place) widen(r Place) {
	p.Low, p.High, p.Exposure = math.Min(p.Low, r.Exposure), math.Max(p.High, r.Exposure), math.NaN()
}

// MeanOfDay is the level averaged over 24 h, dB(A).
func (p Place) MeanOfDay() float64 { return p.Exposure - 10*math.Log10(3) }

// Cruised is the cruising speed of those stated at which a mile brings least sound to a place.
type Cruised struct {
	Place       string
	Speed, Over float64 // rpm, m/s
	Saves       float64 // dB, energy of a mile against that at the loudest of them
	Fuel        float64 // m3 for a sea mile; NaN = not sold by volume
}
