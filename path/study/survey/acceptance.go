package survey

import (
	"fmt"
	"math"
	"sync"

	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/path/study/readings"
	"hushwake/source/spectrum"
)

// Expected is the band in which a reading after fitting should fall, instrument included, dB(A).
type Expected struct {
	Layout, Listener string
	Level, Low, High float64  // 50th, 10th and 90th percentile
	Today            *float64 // the level before: as read, else by the model; nil on the layout of today
	Model            *float64 // the level before by the model
	CantTell         string   // why the test tells nothing, and what would; "" = it tells
	Better           string   // the seat and octave that part before and after, where the test can't tell; "" = none
}

// Before is how things stand before the change: the layout of today, what was read on it, and the
// meter's own error, dB. Only is the one listener that is asked about; "" = all.
type Before struct {
	Layout   string
	Readings []path.Reading
	Meter    float64
	Only     string
}

// Acceptance gives for each layout and listener the reading to expect after fitting, by the draws and
// the meter's own error. Where the level before lies inside the band it says that the test can't tell,
// and which seat and octave tell more.
func Acceptance(m *draws.Model, s draws.Sample, e *draws.Ensemble, o Before) (all []Expected) {
	levels, meter := s.Levels, e.Fresh("acceptance meter", 1)[0]
	today, _ := m.Find(o.Layout, "")
	better := map[int]*string{} // by layout
	parts := sync.OnceValue(func() *partings { return newPartings(m, e.Thin(10), today, o.Meter) })
	for i, l := range m.Layouts {
		for j, h := range l.Listeners {
			if o.Only != "" && h.Name != o.Only {
				continue
			}
			read := make([]float64, len(meter))
			for d, v := range levels[i][j] {
				read[d] = v + o.Meter*meter[d]
			}
			// the meter widens the band and leaves the middle, which is the level of every other answer
			x := Expected{Layout: l.Name, Listener: h.Name, Level: draws.Quantile(levels[i][j], 0.5), Low: draws.Quantile(read, 0.1), High: draws.Quantile(read, 0.9)}
			if today >= 0 && i != today {
				v := draws.Quantile(levels[today][j], 0.5)
				x.Today, x.Model = &v, &v
				if read, ok := o.read(m, h.Name); ok {
					x.Today = &read
				}
				if *x.Today >= x.Low && *x.Today <= x.High {
					if better[i] == nil {
						text := parts().best(i)
						better[i] = &text
					}
					x.Better = *better[i]
					x.CantTell = cantTell(x)
				}
			}
			all = append(all, x)
		}
	}
	return all
}

// read is the last level in dB(A) read at the listener on the layout of today, all shut, at its usual duty.
func (o Before) read(m *draws.Model, listener string) (level float64, ok bool) {
	for _, r := range o.Readings {
		r = readings.PlainDuty(m, r)
		plain := !r.Strike && len(r.Open) == 0 && r.RunSpeed == 0 && r.RunPower == 0 && r.Weighting != "C"
		if r.Layout == o.Layout && r.Listener == listener && r.Level != nil && plain {
			level, ok = *r.Level, true
		}
	}
	return level, ok
}

// cantTell says that the level before lies in the band after, and what tells more.
func cantTell(x Expected) string {
	before := fmt.Sprintf("the %.0f dB(A) of before", spectrum.Whole(*x.Today))
	if *x.Today != *x.Model {
		before = fmt.Sprintf("the %.0f dB(A) read before (%.0f by the model)", spectrum.Whole(*x.Today), spectrum.Whole(*x.Model))
	}
	text := fmt.Sprintf("this test can't tell: %s lies in the band after, %.0f to %.0f", before, spectrum.Whole(x.Low), spectrum.Whole(x.High))
	if x.Better != "" {
		return text + "; " + x.Better + ", or measure both on one day with one instrument"
	}
	return text + "; no other seat or octave does better: measure both on one day with one instrument, or ask for a larger change"
}

// partings are the levels of today's layout by seat in the A-weighted sum and each octave, by draw.
type partings struct {
	m     *draws.Model
	z     [][]float64
	noise [][]float64 // of the meter before and after
	meter float64
	was   [][1 + spectrum.N][]float64
}

func newPartings(m *draws.Model, e *draws.Ensemble, today int, meter float64) *partings {
	p := &partings{m: m, z: e.Terms(m), noise: e.Fresh("overlap", 2), meter: meter, was: make([][1 + spectrum.N][]float64, len(m.Layouts[today].Listeners))}
	for j := range p.was {
		for b := range p.was[j] {
			w, _ := weighed(b)
			p.was[j][b] = make([]float64, e.Draws.N)
			m.Layouts[today].Listeners[j].Levels(p.z, w, p.was[j][b])
		}
	}
	return p
}

// weighed is the weight of a sum, dB, and its name: of all octaves, then of one.
func weighed(b int) (spectrum.Bands, string) {
	if b == 0 {
		return spectrum.A, "dB(A)"
	}
	return draws.OnlyBand(b - 1), fmt.Sprintf("the %g Hz octave", spectrum.Nominal[b-1])
}

// best names the seat and octave in which readings before and after part most; "" where none does well.
func (p *partings) best(after int) string {
	least, where := 1.0, ""
	is := make([]float64, len(p.noise[0]))
	for j, h := range p.m.Layouts[after].Listeners {
		for b, was := range p.was[j] {
			w, name := weighed(b)
			h.Levels(p.z, w, is)
			if x := overlap(was, is, p.noise, p.meter); x < least {
				least, where = x, fmt.Sprintf("%s at %s", name, h.Name)
			}
		}
	}
	if least >= clear {
		return ""
	}
	return fmt.Sprintf("%s parts them better (a mix-up in %.0f of 100 cases)", where, math.Ceil(100*least))
}

// clear is the share of mix-ups under which a seat and octave are named as better, judgement.
const clear = 0.25

// overlap is the share of draws in which a reading after is no lower than one before, or no higher
// where the change makes it louder.
func overlap(was, is []float64, noise [][]float64, meter float64) float64 {
	n := 0
	for d := range was {
		if is[d]+meter*noise[0][d] >= was[d]+meter*noise[1][d] {
			n++
		}
	}
	return math.Min(float64(n), float64(len(was)-n)) / float64(len(was))
}
