package record

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// hypercube gives n samples of k inputs, shares of their spans: every slice of one n-th holds each
// input once (McKay, Beckman and Conover, Technometrics 21 (1979)).
func hypercube(k, n int, seed uint64) [][]float64 {
	out := make([][]float64, n)
	for i := range out {
		out[i] = make([]float64, k)
	}
	for j := range k {
		r := rand.New(rand.NewPCG(seed, uint64(j)))
		for i, slice := range r.Perm(n) {
			out[i][j] = (float64(slice) + r.Float64()) / float64(n)
		}
	}
	return out
}

// probe is one level that a row needs: at its seat, at the seat it is compared with, or an octave of it.
type probe struct {
	row    int
	seat   boatfile.Seat
	weight spectrum.Bands
	less   bool
	octave int // index of the band, -1 = all
}

func probesOf(c *boatfile.Case) []probe {
	var all []probe
	for i, r := range c.Rows {
		w := spectrum.A
		if r.Weighting == "C" {
			w = spectrum.C
		}
		all = append(all, probe{i, r.Seat, w, false, -1})
		if r.Less != nil {
			all = append(all, probe{i, *r.Less, w, true, -1})
		}
		for b := 0; r.Bands != nil && b < spectrum.N; b++ {
			all = append(all, probe{i, r.Seat, w, false, b})
		}
	}
	return all
}

// sample predicts the case at one choice of its inputs and gives the levels of the draws from to to,
// [probe][draw].
func sample(c *boatfile.Case, probes []probe, u []float64, d draws.Options, from, to int) ([][]float64, error) {
	drawn, err := c.Draw(u)
	if err != nil {
		return nil, err
	}
	var predictions []path.Prediction
	var of []int // the probe behind each listener, in order
	session := scene.NewSession(drawn.Boat)
	for _, at := range configurations(probes) {
		p, err := predict(session, drawn, at)
		if err != nil {
			return nil, err
		}
		heard := p.Listeners
		p.Listeners = nil
		for k, q := range probes {
			if q.seat.Layout != at.Layout || q.seat.Duty != at.Duty {
				continue
			}
			h, err := q.hear(heard)
			if err != nil {
				return nil, err
			}
			p.Listeners, of = append(p.Listeners, h), append(of, k)
		}
		predictions = append(predictions, p)
	}
	return levelsOf(predictions, of, len(probes), d, from, to)
}

// configurations are the layouts and duties that the probes ask for, once each.
func configurations(probes []probe) []boatfile.Seat {
	var all []boatfile.Seat
	for _, q := range probes {
		if s := (boatfile.Seat{Layout: q.seat.Layout, Duty: q.seat.Duty}); !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	return all
}

// predict works out a layout, the first where none is named, at a duty.
func predict(n *scene.Session, c *boatfile.Case, at boatfile.Seat) (path.Prediction, error) {
	l := c.Boat.Layouts[0]
	if at.Layout != "" {
		l, _ = c.Boat.Layout(at.Layout)
	}
	if at.Duty != "" {
		var err error
		if l, err = l.ForReading(c.Duties[at.Duty]); err != nil {
			return path.Prediction{}, err
		}
	}
	return n.Predict(l, path.Routes)
}

// hear is what the probe takes of a prediction, in bands that the A-weight turns into its weighted level.
func (q probe) hear(heard []path.Heard) (path.Heard, error) {
	for _, h := range heard {
		out := path.Heard{Listener: path.Listener{Name: h.Listener.Name, In: h.Listener.In}}
		for _, r := range h.Routes {
			if q.seat.SoundPower != "" {
				if !q.isSource(r) {
					continue
				}
				r.Steps = r.Steps[:1]
				r.Bands = r.Steps[0].Bands
			}
			r.Bands = q.weighted(r.Bands)
			out.Routes = append(out.Routes, r)
			if q.seat.SoundPower != "" {
				return out, nil
			}
		}
		if h.Listener.Name == q.seat.Listener {
			return out, nil
		}
	}
	return path.Heard{}, fmt.Errorf("no prediction for %s", q.seat)
}

// isSource tells whether a route begins with the sound power that the probe asks for.
func (q probe) isSource(r path.Route) bool {
	return len(r.Steps) > 0 && strings.HasPrefix(r.Steps[0].Name, q.seat.SoundPower+" sound power") &&
		(q.seat.Engine == "" || r.Source == q.seat.Engine+" "+q.seat.SoundPower)
}

func (q probe) weighted(b spectrum.Bands) spectrum.Bands {
	b = b.Plus(q.weight).Minus(spectrum.A)
	for i := range b {
		if q.octave >= 0 && i != q.octave {
			b[i] = 2 * spectrum.Silent
		}
	}
	return b
}

func levelsOf(predictions []path.Prediction, of []int, n int, d draws.Options, from, to int) ([][]float64, error) {
	m, err := draws.NewModel(predictions)
	if err != nil {
		return nil, err
	}
	part, err := m.Part(d, from, to)
	if err != nil {
		return nil, err
	}
	out, k := make([][]float64, n), 0
	for _, layout := range part {
		for _, levels := range layout {
			out[of[k]] = levels
			k++
		}
	}
	return out, nil
}
