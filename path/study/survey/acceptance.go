package survey

import (
	"fmt"
	"math"

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
// meter's own error, dB.
type Before struct {
	Layout   string
	Readings []path.Reading
	Meter    float64
}

// Acceptance gives for each layout and listener the reading to expect after fitting, by the draws and
// the meter's own error. Where the level before lies inside the band it says that the test can't tell,
// and which seat and octave tell more.
func Acceptance(m *draws.Model, s draws.Sample, e *draws.Ensemble, o Before) (all []Expected) {
	levels, meter := s.Levels, e.Fresh("acceptance meter", 1)[0]
	today, _ := m.Find(o.Layout, "")
	better := map[int]*string{} // by layout
	for i, l := range m.Layouts {
		for j, h := range l.Listeners {
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
						text := parting(m, e.Thin(10), today, i, o.Meter)
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
	before := fmt.Sprintf("the %.0f dB(A) of before", *x.Today)
	if *x.Today != *x.Model {
		before = fmt.Sprintf("the %.0f dB(A) read before (%.0f by the model)", *x.Today, *x.Model)
	}
	text := fmt.Sprintf("this test can't tell: %s lies in the band after, %.0f to %.0f", before, x.Low, x.High)
	if x.Better != "" {
		return text + "; " + x.Better + ", or measure both on one day with one instrument"
	}
	return text + "; no other seat or octave does better: measure both on one day with one instrument, or ask for a larger change"
}

// parting names the seat and octave in which readings before and after part most; "" where none does well.
func parting(m *draws.Model, e *draws.Ensemble, today, after int, meter float64) string {
	z, least, where := e.Terms(m), 1.0, ""
	noise := e.Fresh("overlap", 2)
	was, is := make([]float64, e.Draws.N), make([]float64, e.Draws.N)
	for j, h := range m.Layouts[after].Listeners {
		for b := -1; b < spectrum.N; b++ {
			w, name := spectrum.A, "dB(A)"
			if b >= 0 {
				w, name = draws.OnlyBand(b), fmt.Sprintf("the %g Hz octave", spectrum.Nominal[b])
			}
			h.Levels(z, w, is)
			m.Layouts[today].Listeners[j].Levels(z, w, was)
			if p := overlap(was, is, noise, meter); p < least {
				least, where = p, fmt.Sprintf("%s at %s", name, h.Name)
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
